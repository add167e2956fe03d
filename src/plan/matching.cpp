#include "matching.hpp"

#include <algorithm>
#include <chrono>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/sun/day.hpp"

namespace roostward::plan {

namespace {

std::optional<core::Instant> sunset_on(core::Evening evening, std::chrono::days clock_ahead,
                                       core::GeographicPoint site) {
    const std::chrono::sys_days day(evening.date);
    return sun::nightfall(core::Evening{core::Date(day - clock_ahead)}, site).sunset;
}

/// Somewhere in the site: sunsets differ by seconds from one end to the other.
std::optional<core::PlanePoint> somewhere(const siting::Inputs& inputs) {
    if (!inputs.watches.rows.empty()) return inputs.watches.rows.front().path.front();
    if (!inputs.passes.rows.empty()) return inputs.passes.rows.front().position;
    if (!inputs.tracks.rows.empty()) return inputs.tracks.rows.front().path.front();
    return std::nullopt;
}

/// Beside the date line clocks may count another date than the longitude: the days between are those by which
/// most watches begin near sunset, if any do.
std::chrono::days clock_ahead(const core::Records<survey::Watch>& watches, core::GeographicPoint site) {
    constexpr std::chrono::hours near_sunset{3};
    std::chrono::days best{0};
    std::ptrdiff_t most = 0;
    for (const int ahead : {0, -1, 1}) {
        const std::chrono::days days(ahead);
        const auto fitting = std::ranges::count_if(watches.rows, [&](const survey::Watch& watch) {
            const auto sunset = sunset_on(watch.evening, days, site);
            return sunset && watch.start > *sunset - near_sunset && watch.start < *sunset + near_sunset;
        });
        if (fitting > most) best = days;
        most = std::max(most, fitting);
    }
    return best;
}

}  // namespace

std::optional<core::GeographicPoint> place_of(const siting::Inputs& inputs) {
    const auto place = somewhere(inputs);
    if (!place) return std::nullopt;
    return geo::on_globe(geo::Transform(inputs.planning_crs, geo::wgs84())(*place));
}

survey::Matched match_all(const siting::Settings& settings, const siting::Inputs& inputs) {
    survey::SunsetOf sunset_of;
    if (const auto place = place_of(inputs)) {
        sunset_of = [site = *place, ahead = clock_ahead(inputs.watches, *place)](core::Evening evening) {
            return sunset_on(evening, ahead, site);
        };
    }
    return survey::match({inputs.passes, inputs.tracks, inputs.tallies, inputs.watches, inputs.routes},
                         inputs.allowed_area, settings.survey, sunset_of);
}

survey::Matched match_inputs(const siting::Settings& settings, const siting::Inputs& inputs) {
    survey::Matched seen = match_all(settings, inputs);
    if (!seen.survey.flights.empty()) return seen;
    const auto& layer = inputs.passes.given()   ? inputs.passes.file
                        : inputs.tracks.given() ? inputs.tracks.file
                                                : inputs.tallies.file;
    throw core::Error(core::Fault::inputs, {layer, {}, {}, {}}, core::said("error.no_flight_counts"));
}

std::optional<survey::Survey> watched_in_vain(const siting::Settings& settings, siting::Inputs& inputs) {
    if (inputs.watches.rows.empty()) return std::nullopt;
    survey::Matched seen = match_all(settings, inputs);
    if (!seen.survey.flights.empty()) return std::nullopt;
    inputs.passes = {};
    inputs.tracks = {};
    inputs.tallies = {};
    return std::move(seen.survey);
}

}  // namespace roostward::plan
