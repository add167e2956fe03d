#include "roostward/report/reserve_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t most_shown = 8;

std::string where(const siting::Reserve& reserve) {
    const std::string away = fmt::format("{:.0f} m off", reserve.away.value());
    switch (reserve.nearness) {
        case siting::Nearness::near_by:
            return away;
        case siting::Nearness::same_flight_line:
            return away + ", same flight line";
        case siting::Nearness::anywhere:
            return away + ", elsewhere";
    }
    return {};
}

std::string_view to_text(siting::Nearness nearness) {
    switch (nearness) {
        case siting::Nearness::near_by:
            return "near by";
        case siting::Nearness::same_flight_line:
            return "beside the same flight line";
        case siting::Nearness::anywhere:
            return "anywhere";
    }
    return {};
}

}  // namespace

std::string if_unsafe(const plan::Plan& plan) {
    std::string text;
    const std::size_t sites = plan.reserves.of_sites.size();
    for (std::size_t i = 0; i < std::min(most_shown, sites); ++i) {
        const auto& reserve = plan.reserves.of_sites[i];
        text += text.empty() ? "If a tree is unsafe, take instead: " : " · ";
        text += fmt::format("site {} ", i + 1);
        text += reserve ? fmt::format("{} ({})", plan.trees.rows[reserve->tree].id, where(*reserve))
                        : std::string("no tree can");
    }
    if (sites > most_shown) text += fmt::format(" · and {} more: reserve in plan.json", sites - most_shown);
    return text.empty() ? text : text + ".";
}

core::Document reserve_document(const plan::Plan& plan, std::size_t site) {
    const auto& reserve = plan.reserves.of_sites[site];
    if (!reserve) return {};
    const siting::Candidate& candidate = plan.candidates[reserve->tree];
    return core::Object{{"tree", plan.trees.rows[reserve->tree].id},
                        {"rank", candidate.rank},
                        {"score", candidate.score},
                        {"flights_per_hour", flights_per_hour(candidate.activity.flight_density)},
                        {"away_m", reserve->away.value()},
                        {"found", to_text(reserve->nearness)}};
}

core::List reserves_document(const plan::Plan& plan) {
    core::List list;
    for (const siting::StandIn& stand_in : plan.reserves.in_order) {
        const siting::Candidate& candidate = plan.candidates[stand_in.tree];
        list.emplace_back(
            core::Object{{"tree", plan.trees.rows[stand_in.tree].id},
                         {"rank", candidate.rank},
                         {"score", candidate.score},
                         {"for_sites", core::List(stand_in.sites.begin(), stand_in.sites.end())}});
    }
    return list;
}

}  // namespace roostward::report
