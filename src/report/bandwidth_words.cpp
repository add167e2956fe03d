#include "roostward/report/bandwidth_words.hpp"

#include <fmt/format.h>

namespace roostward::report {

namespace {

using activity::FoundBy;

std::string decided_by(const activity::Bandwidth& bandwidth) {
    const bool h = bandwidth.h_by == FoundBy::evenings, shrink = bandwidth.shrink_by == FoundBy::evenings;
    if (h && shrink) return "both foretell each evening best from the others";
    if (shrink)
        return "the site file gives the first; the second foretells each evening best from the others";
    if (h) return "the first foretells each evening best from the others; the site file gives the second";
    const std::string first = bandwidth.h_by == FoundBy::number          ? "the site file gives the first"
                              : bandwidth.h_by == FoundBy::rule_of_thumb ? "the first is a rule of thumb"
                                                                         : "the first is what is usual";
    const std::string second = bandwidth.shrink_by == FoundBy::number ? "the site file gives the second"
                                                                      : "the second is min_watch_hours";
    return first + ", " + second;
}

core::Document bound_document(activity::Bound bound) {
    if (bound == activity::Bound::none) return {};
    return bound == activity::Bound::low ? "low" : "high";
}

}  // namespace

std::string bandwidth_sentence(const activity::Bandwidth& bandwidth) {
    std::string text = fmt::format(
        "Flights are spread {:.1f} m to either side, and {:.2g} hours of the site's mean are mixed in: {}.",
        bandwidth.h.value(), bandwidth.shrink.value(), decided_by(bandwidth));
    if (bandwidth.search && !bandwidth.search->found())
        text += " The evenings could not tell: " + bandwidth.search->why_not + ".";
    return text;
}

core::Document bandwidth_document(const activity::Bandwidth& bandwidth) {
    if (!bandwidth.search) return {};
    const activity::EveningSearch& search = *bandwidth.search;
    core::List trials;
    for (const auto& trial : search.trials)
        trials.emplace_back(core::Object{{"bandwidth_m", trial.h.value()},
                                         {"shrink_hours", trial.shrink.value()},
                                         {"support", trial.support}});
    return core::Object{{"found", search.found()},
                        {"why_not", search.found() ? core::Document() : core::Document(search.why_not)},
                        {"bandwidth_at_bound", bound_document(search.h_bound)},
                        {"shrink_at_bound", bound_document(search.shrink_bound)},
                        {"trials", std::move(trials)}};
}

}  // namespace roostward::report
