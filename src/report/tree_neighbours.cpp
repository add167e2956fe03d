#include "tree_neighbours.hpp"

#include <algorithm>
#include <iterator>

#include "roostward/geo/crs.hpp"
#include "roostward/siting/mounting.hpp"

namespace roostward::report {

namespace {

bool has_score(const FinishedTree& tree) {
    return tree.at("score").number().has_value();
}

bool is_site(const Neighbour& neighbour) {
    return neighbour.tree.at("chosen").truth();
}

}  // namespace

RoundAbout round_about(const FinishedTree& tree, const std::vector<FinishedTree>& trees, core::Metres within,
                       std::size_t most) {
    const core::GeographicPoint here = tree.place();
    RoundAbout around;
    std::vector<Neighbour> scored;
    for (const FinishedTree& other : trees) {
        if (other == tree) continue;
        const core::Metres away = geo::geodesic_distance(here, other.place());
        if (has_score(other))
            scored.push_back({other, away, {}});
        else if (away <= within)
            ++around.others;
    }
    std::ranges::stable_sort(scored, {}, &Neighbour::away);
    std::ranges::copy_if(scored, std::back_inserter(around.scored), [&](const Neighbour& neighbour) {
        return neighbour.away <= within && around.scored.size() < most;
    });
    if (!tree.at("chosen").truth() && std::ranges::none_of(around.scored, is_site)) {
        const auto site = std::ranges::find_if(scored, is_site);
        if (site != scored.end()) around.scored.push_back(*site);
    }
    for (Neighbour& neighbour : around.scored)
        neighbour.toward = siting::compass_point(geo::geodesic_bearing(here, neighbour.tree.place()));
    return around;
}

}  // namespace roostward::report
