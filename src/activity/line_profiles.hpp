#pragma once

#include <cstddef>
#include <vector>

#include "line_noise.hpp"
#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/ridges.hpp"

namespace roostward::activity {

/// Chance as it bears on one place of a ridge.
struct Doubt {
    double rate = 0.0;             ///< λ of the surroundings, metres per m² and hour
    double standard_errors = 0.0;  ///< that a ridge's strength must reach
};

/// The evenings at places across ridges, a profile for every h along them: whether a re-draw of the evenings
/// still shows the ridge is a matter of weighted sums then.
class LineProfiles {
 public:
    /// A profile looks `reach` to either side. `doubts` holds one a ridge point.
    LineProfiles(const FlightDensity& density, const LineNoise& noise, core::Metres reach);

    void add(const Ridge& ridge, core::Metres spacing, const std::vector<Doubt>& doubts);
    /// Asks for the flight density at all places: once, after the last ridge.
    void measure(core::Threads threads);

    [[nodiscard]] std::size_t evenings() const { return table_.evenings; }
    /// Share of the re-draws in which half of the ridge's profiles or more show a ridge.
    [[nodiscard]] double steady(std::size_t ridge, const std::vector<EveningDraw>& draws) const;
    /// Mean hours of effective watching along the ridge on one evening.
    [[nodiscard]] double hours(std::size_t ridge, std::size_t evening) const;

 private:
    [[nodiscard]] bool shows(std::size_t profile, const EveningDraw& draw) const;

    const FlightDensity& density_;
    const LineNoise& noise_;
    double step_;
    std::vector<core::PlanePoint> places_;
    std::vector<Doubt> doubts_;          ///< one a profile
    std::vector<std::size_t> first_{0};  ///< profile of each ridge, and one past the last
    EveningTable table_;
};

}  // namespace roostward::activity
