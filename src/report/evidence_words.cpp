#include "roostward/report/evidence_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "roostward/activity/evening_watch.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t lacks = 4;

/// Where an hour counts e^-½ of an hour: the middle range of all watches, down to whole 5 m; 20 m where no
/// watches tell (as far as a bat is seen by eye: common practice, no source).
core::Metres near_enough(const plan::Plan& plan) {
    constexpr core::Metres by_eye{20.0}, step{5.0};
    std::vector<core::Metres> ranges;
    for (const survey::Watch& watch : plan.survey.watches)
        ranges.push_back(watch.range);
    if (ranges.empty()) return by_eye;
    const auto middle = ranges.begin() + static_cast<std::ptrdiff_t>((ranges.size() - 1) / 2);
    std::ranges::nth_element(ranges, middle);
    return core::Metres(std::max(1.0, std::floor(*middle / step)) * step.value());
}

/// Whole hours from there that count as an evening on which the tree was watched.
double hours_on_an_evening(const plan::Plan& plan) {
    const double counts = std::exp(-0.5);
    return std::max(
        1.0, std::ceil(activity::enough_on_an_evening(plan.settings.activity.min_watch).value() / counts));
}

std::string said_of(std::string_view key, const plan::Plan& plan, const activity::PointActivity& seen) {
    return core::said(key,
                      {{"hours", seen.watch_hours.value()},
                       {"least", activity::enough_on_an_evening(plan.settings.activity.min_watch).value()},
                       {"watched", seen.evenings_watched}});
}

std::string mended(std::string_view key, const plan::Plan& plan) {
    return core::said(key, {{"metres", near_enough(plan).value()}, {"hours", hours_on_an_evening(plan)}});
}

std::array<std::size_t, lacks> counted(const plan::Plan& plan) {
    std::array<std::size_t, lacks> counts{};
    for (const std::size_t tree : plan.ranked)
        if (const auto& candidate = plan.candidates[tree]; !candidate.enough_evidence)
            ++counts[static_cast<std::size_t>(lack_of(plan, candidate))];
    return counts;
}

}  // namespace

Lack lack_of(const plan::Plan& plan, const siting::Candidate& candidate) {
    const activity::PointActivity& seen = candidate.activity;
    if (seen.evenings_watched == 0) return Lack::watched_too_little;
    if (seen.evenings_used == 0) return Lack::nothing_close;
    const bool flight =
        seen.flight_density > 0.0 && seen.flight_density >= siting::enough_flight(plan.reference_density);
    return flight ? Lack::used_once : Lack::little_flight;
}

std::string evidence_lacking(const plan::Plan& plan, std::size_t tree) {
    const siting::Candidate& candidate = plan.candidates[tree];
    const activity::PointActivity& seen = candidate.activity;
    if (!candidate.may_hold_a_box() || candidate.enough_evidence) return {};
    switch (lack_of(plan, candidate)) {
        case Lack::watched_too_little:
            return in_a_row(
                {said_of("evidence.watched_too_little", plan, seen), mended("evidence.mend", plan)});
        case Lack::nothing_close:
            return in_a_row({said_of("evidence.nothing_close", plan, seen), mended("evidence.tell", plan)});
        case Lack::used_once:
            return in_a_row({said_of("evidence.used_once", plan, seen), mended("evidence.tell", plan)});
        case Lack::little_flight:
            break;
    }
    return core::said("evidence.little_flight");
}

std::string what_shows_a_tree(const plan::Plan& plan) {
    return mended("evidence.mend", plan);
}

std::size_t trees_with_too_little(const plan::Plan& plan) {
    return static_cast<std::size_t>(std::ranges::count_if(
        plan.ranked, [&plan](std::size_t tree) { return !plan.candidates[tree].enough_evidence; }));
}

std::string nothing_chosen_yet(const plan::Plan& plan) {
    constexpr std::array<std::string_view, lacks> keys{"lack.watched_too_little", "lack.nothing_close",
                                                       "lack.used_once", "lack.little_flight"};
    const std::array<std::size_t, lacks> counts = counted(plan);
    std::string told;
    for (std::size_t i = 0; i < lacks; ++i)
        if (counts[i] > 0) told += (told.empty() ? "" : "; ") + core::said(keys[i], {{"count", counts[i]}});
    const bool more_helps =
        counts[static_cast<std::size_t>(Lack::little_flight)] < trees_with_too_little(plan);
    return in_a_row({core::said_for(trees_with_too_little(plan), "choice.nothing_yet", {{"lacks", told}}),
                     more_helps ? mended("evidence.mend_all", plan) : ""});
}

}  // namespace roostward::report
