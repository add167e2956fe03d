#include "roostward/report/certainty_words.hpp"

#include <fmt/format.h>

#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

/// From here on a range is no longer called rough.
constexpr std::size_t enough_evenings = 7;

/// "no site falls out", "site 3 falls out", "sites 2 and 5 fall out"
std::string falling_out(const std::vector<std::size_t>& sites) {
    if (sites.empty()) return "no site falls out";
    if (sites.size() == 1) return fmt::format("site {} falls out", sites.front());
    std::vector<std::string> numbers;
    numbers.reserve(sites.size());
    for (const std::size_t site : sites)
        numbers.push_back(std::to_string(site));
    return fmt::format("sites {} fall out", listed(numbers));
}

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

std::string about(const siting::Influence& influence) {
    const std::string lost = falling_out(influence.sites_lost);
    const double percent = 100.0 * influence.share;
    switch (influence.source) {
        case siting::Source::evening:
            return fmt::format("Without the evening of {}, {}.", influence.name, lost);
        case siting::Source::station:
            return fmt::format("The place of watch {} saw {:.0f} % of the flight: without it, {}.",
                               influence.name, percent, lost);
        case siting::Source::observer:
            return fmt::format("{} saw {:.0f} % of the flight: without them, {}.", influence.name, percent,
                               lost);
    }
    return {};
}

std::string_view name_of(siting::Source source) {
    switch (source) {
        case siting::Source::evening:
            return "evening";
        case siting::Source::station:
            return "station";
        case siting::Source::observer:
            return "observer";
    }
    return {};
}

core::List numbers_of(const std::vector<std::size_t>& sites) {
    core::List list;
    for (const std::size_t site : sites)
        list.emplace_back(site);
    return list;
}

}  // namespace

std::vector<std::string> how_sure(const plan::Plan& plan) {
    std::vector<std::string> sentences{about_ranges(plan.certainty)};
    if (plan.chosen.empty()) return sentences;
    for (const auto& influence : plan.certainty.strongest)
        sentences.push_back(about(influence));
    for (const auto& other : plan.certainty.other_bandwidths)
        sentences.push_back(fmt::format("With a bandwidth of {:.1f} m instead of {:.1f} m, {}.",
                                        other.h.value(), plan.bandwidth.h.value(),
                                        falling_out(other.sites_lost)));
    return sentences;
}

core::Object certainty_document(const plan::Plan& plan) {
    core::List left_out, bandwidths;
    for (const auto& influence : plan.certainty.strongest)
        left_out.emplace_back(core::Object{{"left_out", name_of(influence.source)},
                                           {"name", influence.name},
                                           {"share_of_flight", influence.share},
                                           {"sites_lost", numbers_of(influence.sites_lost)}});
    for (const auto& other : plan.certainty.other_bandwidths)
        bandwidths.emplace_back(
            core::Object{{"bandwidth_m", other.h.value()}, {"sites_lost", numbers_of(other.sites_lost)}});
    return {{"evenings", plan.certainty.evenings},
            {"redraws", plan.certainty.redraws},
            {"rough", plan.certainty.evenings < enough_evenings},
            {"strongest_influences", std::move(left_out)},
            {"other_bandwidths", std::move(bandwidths)}};
}

}  // namespace roostward::report
