#include "roostward/report/site_words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

std::string month_names(core::Date first, core::Date last) {
    std::string from = core::said(fmt::format("month.{}", static_cast<unsigned>(first.month())));
    if (first.year() == last.year() && first.month() == last.month()) return from;
    return core::said("caveat.months",
                      {{"first", from},
                       {"last", core::said(fmt::format("month.{}", static_cast<unsigned>(last.month())))}});
}

std::string about_evenings(const std::vector<core::Evening>& evenings) {
    if (evenings.empty()) return core::said("caveat.no_evening");
    const core::Date first = evenings.front().date, last = evenings.back().date;
    if (evenings.size() == 1) return core::said("caveat.one_evening", {{"date", core::to_text(first)}});
    const auto days = (std::chrono::sys_days(last) - std::chrono::sys_days(first)).count() + 1;
    constexpr auto a_season = 62;
    if (days > a_season)
        return core::said("caveat.seasons", {{"count", core::in_words(evenings.size())},
                                             {"first", core::to_text(first)},
                                             {"last", core::to_text(last)}});
    return core::said("caveat.evenings", {{"count", core::in_words(evenings.size())},
                                          {"days", core::in_words(static_cast<std::size_t>(days))},
                                          {"months", month_names(first, last)}});
}

std::string about_hours(const survey::Survey& survey) {
    if (survey.even_effort()) return core::said("caveat.no_watches");
    const WatchedHours hours = watched_hours(survey);
    if (hours.heard.value() <= 0.0) return core::said("caveat.hours", {{"hours", hours.placed.value()}});
    if (hours.placed.value() <= 0.0)
        return core::said("caveat.hours_heard", {{"heard", hours.heard.value()}});
    return core::said("caveat.hours_and_heard",
                      {{"hours", hours.placed.value()}, {"heard", hours.heard.value()}});
}

std::string about_ground(const plan::Plan& plan) {
    if (const auto share = share_not_watched(plan))
        return core::said("caveat.ground", {{"percent", 100.0 * *share}});
    return core::said("caveat.trees", {{"count", trees_not_watched(plan)}, {"all", plan.candidates.size()}});
}

}  // namespace

WatchedHours watched_hours(const survey::Survey& survey) {
    struct Noted {
        bool any = false, placed = false;
    };
    std::vector<Noted> noted(survey.watches.size());
    for (const survey::Flight& flight : survey.flights)
        if (flight.watch) {
            noted[*flight.watch].any = true;
            noted[*flight.watch].placed |= flight.placed;
        }
    WatchedHours hours;
    for (std::size_t w = 0; w < survey.watches.size(); ++w) {
        const survey::Watch& watch = survey.watches[w];
        const bool only_heard =
            watch.seen_by == "recorder" ? !noted[w].placed : noted[w].any && !noted[w].placed;
        core::Hours& sum = only_heard ? hours.heard : hours.placed;
        sum = sum + watch.hours();
    }
    return hours;
}

std::string caveat(const plan::Plan& plan) {
    return core::said("caveat", {{"evenings", about_evenings(plan.survey.evenings)},
                                 {"hours", about_hours(plan.survey)},
                                 {"ground", about_ground(plan)}});
}

std::optional<double> share_not_watched(const plan::Plan& plan) {
    std::vector<core::PlanePoint> outline;
    for (const auto& polygon : plan.surroundings.allowed_area)
        outline.insert(outline.end(), polygon.outer.begin(), polygon.outer.end());
    const auto box = geo::box_of(outline);
    if (!box) return std::nullopt;
    const std::vector<geo::Shape> area{{{}, {}, plan.surroundings.allowed_area}};
    const geo::NearestShape nearest(area);
    constexpr std::size_t side = 100;
    const auto between = [](double low, double high, std::size_t i) {
        return low + (high - low) * (static_cast<double>(i) + 0.5) / static_cast<double>(side);
    };
    std::size_t inside = 0, not_watched = 0;
    for (std::size_t i = 0; i < side * side; ++i) {
        const core::PlanePoint place{between(box->south_west.easting, box->north_east.easting, i % side),
                                     between(box->south_west.northing, box->north_east.northing, i / side)};
        if (!nearest.nearest_within(place, core::Metres(0.0))) continue;
        ++inside;
        not_watched += plan.surfaces.flight_density.at(place) ? 0 : 1;
    }
    if (inside == 0) return std::nullopt;
    return static_cast<double>(not_watched) / static_cast<double>(inside);
}

std::string sureness(const plan::Plan& plan, std::size_t tree) {
    if (plan.certainty.evenings < least_evenings_for_stays) return core::said("sure.too_few_evenings");
    return stays_chosen(plan, tree);
}

std::string hazard_in_words(trees::Hazard hazard) {
    constexpr std::array words{"improbable", "possible", "probable", "imminent"};
    return core::said(fmt::format("hazard.{}", words.at(static_cast<std::size_t>(hazard))));
}

std::string condition_in_words(const trees::Tree& tree) {
    if (!tree.condition) return core::said("health.no_condition");
    const std::string condition = core::shown("condition", trees::to_text(*tree.condition));
    return core::said("health.condition", {{"condition", condition}});
}

std::string health(const trees::Tree& tree) {
    const std::string grows = condition_in_words(tree);
    if (!tree.hazard) return grows;
    const std::string hazard = hazard_in_words(*tree.hazard);
    const std::string date = tree.inspected ? core::to_text(*tree.inspected) : std::string();
    return core::said(tree.inspected ? "health.hazard" : "health.hazard_no_date",
                      {{"grows", grows}, {"hazard", hazard}, {"date", date}});
}

std::string facings_in_words(const siting::Candidate& candidate) {
    std::vector<std::string> points;
    for (const core::Degrees facing : candidate.facings.value().boxes)
        points.push_back(point_in_words(facing));
    return core::all_of(points);
}

}  // namespace roostward::report
