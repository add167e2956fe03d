#include "roostward/report/certainty_words.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/what_if_words.hpp"

namespace roostward::report {

namespace {

/// From here on a range is no longer called rough.
constexpr std::size_t enough_evenings = 7;

/// "no site falls out", "site 3 falls out", "sites 2 and 5 fall out"
std::string falling_out(const std::vector<std::size_t>& sites) {
    return sites.empty() ? core::said("if.out.none")
                         : core::said_for(sites.size(), "if.out", {{"sites", numbers_in_words(sites)}});
}

/// What the brackets behind flights an hour mean; that trees have none where no ranked one has.
std::string about_ranges(const plan::Plan& plan) {
    const std::size_t evenings = plan.certainty.evenings;
    const auto has_range = [&plan](std::size_t tree) {
        return plan.candidates[tree].flights.range.has_value();
    };
    if (std::ranges::none_of(plan.ranked, has_range)) return core::said("sure.no_range");
    if (evenings < activity::least_evenings_for_range)
        return core::said(evenings == 1 ? "sure.range_lent.one" : "sure.range_lent.many");
    return core::said(evenings < enough_evenings ? "sure.range_rough" : "sure.range",
                      {{"evenings", core::in_words(evenings)}});
}

std::string without_evening(const siting::WhatIf& line) {
    return core::said("sure.without_evening",
                      {{"evening", line.subject}, {"outcome", falling_out(line.lost)}});
}
std::string without_station(const siting::WhatIf& line) {
    return core::said("sure.without_station", {{"watch", line.subject},
                                               {"percent", 100.0 * line.share.value_or(0.0)},
                                               {"outcome", falling_out(line.lost)}});
}
std::string without_observer(const siting::WhatIf& line) {
    return core::said("sure.without_observer", {{"observer", line.subject},
                                                {"percent", 100.0 * line.share.value_or(0.0)},
                                                {"outcome", falling_out(line.lost)}});
}

/// What is left out one by one.
struct Source {
    siting::Change change;
    std::string_view name;
    std::string (*sentence)(const siting::WhatIf&);
};
constexpr std::array sources{Source{siting::Change::evening, "evening", without_evening},
                             Source{siting::Change::station, "station", without_station},
                             Source{siting::Change::observer, "observer", without_observer}};

std::string at_other_bandwidth(const siting::WhatIf& line) {
    return core::said("sure.other_bandwidth", {{"to", std::get<double>(line.to.value())},
                                               {"from", std::get<double>(line.from.value())},
                                               {"outcome", falling_out(line.lost)}});
}

core::List numbers_of(const std::vector<std::size_t>& sites) {
    return {sites.begin(), sites.end()};
}

}  // namespace

std::vector<std::string> how_sure(const plan::Plan& plan) {
    std::vector<std::string> sentences{about_ranges(plan)};
    for (const Source& source : sources)
        if (const auto* const line = siting::strongest(plan.what_if, source.change))
            sentences.push_back(source.sentence(*line));
    for (const siting::WhatIf& line : plan.what_if.lines)
        if (line.change == siting::Change::bandwidth) sentences.push_back(at_other_bandwidth(line));
    for (std::string& sentence : what_if_in_short(plan))
        sentences.push_back(std::move(sentence));
    for (const std::string& sentence : {about_other_weights(plan), about_groups(plan)})
        if (!sentence.empty()) sentences.push_back(sentence);
    return sentences;
}

std::string what_moves_it_most(const plan::Plan& plan) {
    const Source* most = nullptr;
    const siting::WhatIf* force = nullptr;
    for (const Source& source : sources) {
        const auto* const line = siting::strongest(plan.what_if, source.change);
        if (line == nullptr || (force != nullptr && line->lost.size() <= force->lost.size())) continue;
        most = &source;
        force = line;
    }
    return most == nullptr ? std::string() : most->sentence(*force);
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
            {"other_bandwidths", std::move(bandwidths)},
            {"other_weights", plan.settings.ranking_only ? core::Document() : acceptability_document(plan)}};
}

}  // namespace roostward::report
