#pragma once

#include <string>

#include "roostward/report/figures.hpp"
#include "roostward/siting/candidates.hpp"

/// How much flies at a tree, as people read it.
namespace roostward::report {

/// Flights an hour within 20 m.
[[nodiscard]] Figure flights_figure(const siting::NearFlights& flights);

/// "about 35 (20 to 60)"; "none seen, at most about 2".
[[nodiscard]] std::string flights_in_words(const siting::NearFlights& flights);

/// "Flights an hour within 20 m: about 35 (20 to 60). Flown on 2 of 3 watched evenings, in 0.9 hours of
/// effective watching."; "No flight was seen within 20 m in 2.1 hours of effective watching: at most about 2
/// an hour."
[[nodiscard]] std::string flight_there(const siting::Candidate& candidate);

/// "flown on 2 of 3 watched evenings"; "watched a little at a time, on no evening for long".
[[nodiscard]] std::string evenings_in_words(const activity::PointActivity& seen);

}  // namespace roostward::report
