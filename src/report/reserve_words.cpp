#include "roostward/report/reserve_words.hpp"

#include <string_view>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

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

const siting::Reserve* reserve_of(const plan::Plan& plan, std::size_t site) {
    const auto& reserves = plan.reserves.of_sites;
    return site <= reserves.size() && reserves[site - 1] ? &*reserves[site - 1] : nullptr;
}

std::string others_with_reserve_of(const plan::Plan& plan, std::size_t site) {
    std::vector<std::string> others;
    const siting::Reserve* reserve = reserve_of(plan, site);
    for (std::size_t other = 1; other <= plan.reserves.of_sites.size(); ++other) {
        const siting::Reserve* its = reserve_of(plan, other);
        if (other != site && reserve && its && its->tree == reserve->tree)
            others.push_back(core::said("ui.site", {{"site", other}}));
    }
    return core::all_of(others);
}

core::Document reserve_document(const plan::Plan& plan, std::size_t site) {
    const auto& reserve = plan.reserves.of_sites[site];
    if (!reserve) return {};
    const siting::Candidate& candidate = plan.candidates[reserve->tree];
    return core::Object{{"tree", plan.trees.rows[reserve->tree].id},
                        {"rank", candidate.rank},
                        {"score", candidate.score},
                        {"flights_per_hour", candidate.flights.per_hour},
                        {"flights_per_hour_low", low_of(candidate.flights.range)},
                        {"flights_per_hour_high", high_of(candidate.flights.range)},
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
