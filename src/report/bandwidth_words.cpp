#include "roostward/report/bandwidth_words.hpp"

#include "roostward/core/catalogue.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

using activity::FoundBy;

std::string decided_by(const activity::Bandwidth& bandwidth) {
    const bool h = bandwidth.h_by == FoundBy::evenings, shrink = bandwidth.shrink_by == FoundBy::evenings;
    if (h && shrink) return core::said("bandwidth.both_by_evenings");
    if (shrink) return core::said("bandwidth.second_by_evenings");
    if (h) return core::said("bandwidth.first_by_evenings");
    const std::string_view first = bandwidth.h_by == FoundBy::number          ? "bandwidth.first_given"
                                   : bandwidth.h_by == FoundBy::rule_of_thumb ? "bandwidth.rule_of_thumb"
                                                                              : "bandwidth.usual";
    const std::string_view second =
        bandwidth.shrink_by == FoundBy::number ? "bandwidth.second_given" : "bandwidth.min_watch_hours";
    return core::said("bandwidth.each", {{"first", core::said(first)}, {"second", core::said(second)}});
}

core::Document bound_document(activity::Bound bound) {
    if (bound == activity::Bound::none) return {};
    return bound == activity::Bound::low ? "low" : "high";
}

}  // namespace

std::string bandwidth_sentence(const activity::Bandwidth& bandwidth) {
    std::string text = core::said("bandwidth", {{"metres", bandwidth.h.value()},
                                                {"hours", bandwidth.shrink.value()},
                                                {"decided", decided_by(bandwidth)}});
    if (!bandwidth.search || bandwidth.search->found()) return text;
    return in_a_row({text, core::said("bandwidth.could_not_tell", {{"why", bandwidth.search->why_not}})});
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
