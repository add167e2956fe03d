#include "roostward/report/flight_words.hpp"

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

Figure flights_figure(const siting::NearFlights& flights) {
    return rounded_figure(flights.per_hour, flights.range);
}

std::string flights_in_words(const siting::NearFlights& flights) {
    const Figure figure = flights_figure(flights);
    if (!flights.none_seen) return core::said("flights.about", {{"figure", figure.in_words()}});
    if (!figure.range) return core::said("flights.none_seen_no_range");
    return core::said("flights.none_seen", {{"high", figure.digits(figure.range->high)}});
}

std::string evenings_in_words(const activity::PointActivity& seen) {
    if (seen.evenings_watched == 0) return core::said("why.no_evening_for_long");
    return core::said("why.evenings", {{"used", seen.evenings_used}, {"watched", seen.evenings_watched}});
}

std::string flight_there(const siting::Candidate& candidate) {
    const double hours = candidate.activity.watch_hours.value();
    const std::string flights = flights_in_words(candidate.flights);
    return core::said(
        candidate.flights.none_seen ? "why.none_seen" : "why.flights",
        {{"flights", flights}, {"evenings", evenings_in_words(candidate.activity)}, {"hours", hours}});
}

}  // namespace roostward::report
