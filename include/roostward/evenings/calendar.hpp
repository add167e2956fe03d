#pragma once

#include <chrono>
#include <functional>
#include <vector>

#include "roostward/core/point.hpp"
#include "roostward/evenings/settings.hpp"
#include "roostward/evenings/to_come.hpp"
#include "roostward/siting/profile.hpp"
#include "roostward/survey/evening_hours.hpp"

namespace roostward::evenings {

/// The instant at which the clock on the wall shows a time, minutes after midnight of a date. Past 24 hours
/// it is of the next day.
using LocalClock = std::function<core::Instant(core::Date, std::chrono::minutes)>;

/// What tells of evenings at a site.
struct SiteOfEvenings {
    core::GeographicPoint place;
    const siting::Profile& profile;       ///< when the animals are about
    const survey::HoursCounted& counted;  ///< of an evening
    const LocalClock& clock;
};

/// No rounds yet.
struct Dates {
    std::vector<EveningToCome> evenings;  ///< all but the first provisional
    std::vector<SpareEvening> spare;
};

/// The first evenings from the start on that people have time for, at least `every` apart, within the active
/// season unless `anyway`; then the spare ones. An evening is the one in which the clock shows 18:00 of its
/// date. Sunset is to the minute; hours begin 10 min before the animals' usual
/// first flight, where that is known, and end when the gate closes. Throws Error{usage} where what is asked
/// for makes no sense, an evening would be after 2037 or out of season, the sun does not set or civil dusk
/// does not come before it rises, or the gate or a team's own hours leave less than half an hour.
[[nodiscard]] Dates dates_of(const Ask& ask, const Settings& settings, const SiteOfEvenings& site);

/// When a team watches on an evening: it comes later or leaves earlier where it says so.
[[nodiscard]] Stretch hours_of(const Team& team, core::Evening evening, Stretch all, const LocalClock& clock);

/// Since the last mean new moon (Meeus, Astronomical Algorithms, 2nd ed. 1998, formula 49.1, without its
/// periodic terms: the true one is up to 14 hours earlier or later). In [0, 29.53 days).
[[nodiscard]] core::Hours moon_age(core::Instant instant);

}  // namespace roostward::evenings
