#include "roostward/report/certainty_words.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>

#include "roostward/report/what_if_words.hpp"

namespace roostward::report {

namespace {

/// From here on a range is no longer called rough.
constexpr std::size_t enough_evenings = 7;

std::string about_ranges(const siting::Certainty& certainty) {
    if (certainty.evenings < activity::least_evenings_for_range)
        return fmt::format(
            "{} give no range: nobody knows how much these figures would change on other "
            "evenings. Watch on three or more.",
            certainty.evenings == 1 ? "One evening can" : "Two evenings can");
    return fmt::format(
        "The range holds the true figure eight times in ten, judged by re-drawing the {} "
        "evenings{}. A tree watched on fewer than three has none: \"?\".",
        certainty.evenings, certainty.evenings < enough_evenings ? "; it is rough" : "");
}

/// What is left out one by one.
struct Source {
    siting::Change change;
    std::string_view name;
};
constexpr std::array sources{Source{siting::Change::evening, "evening"},
                             Source{siting::Change::station, "station"},
                             Source{siting::Change::observer, "observer"}};

core::List numbers_of(const std::vector<std::size_t>& sites) {
    return {sites.begin(), sites.end()};
}

}  // namespace

std::vector<std::string> how_sure(const plan::Plan& plan) {
    std::vector<std::string> sentences{about_ranges(plan.certainty)};
    for (const Source& source : sources)
        if (const auto* const line = siting::strongest(plan.what_if, source.change))
            sentences.push_back(sentence_of(plan, *line));
    for (const siting::WhatIf& line : plan.what_if.lines)
        if (line.change == siting::Change::bandwidth) sentences.push_back(sentence_of(plan, line));
    for (std::string& sentence : what_if_in_short(plan))
        sentences.push_back(std::move(sentence));
    return sentences;
}

core::Object certainty_document(const plan::Plan& plan) {
    core::List left_out, bandwidths;
    for (const Source& source : sources)
        if (const auto* const line = siting::strongest(plan.what_if, source.change))
            left_out.emplace_back(core::Object{{"left_out", source.name},
                                               {"name", line->subject},
                                               {"share_of_flight", line->share},
                                               {"sites_lost", numbers_of(line->lost)}});
    for (const siting::WhatIf& line : plan.what_if.lines)
        if (line.change == siting::Change::bandwidth)
            bandwidths.emplace_back(
                core::Object{{"bandwidth_m", line.to}, {"sites_lost", numbers_of(line.lost)}});
    return {{"evenings", plan.certainty.evenings},
            {"redraws", plan.certainty.redraws},
            {"rough", plan.certainty.evenings < enough_evenings},
            {"strongest_influences", std::move(left_out)},
            {"other_bandwidths", std::move(bandwidths)}};
}

}  // namespace roostward::report
