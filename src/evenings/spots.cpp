#include "spots.hpp"

#include <algorithm>
#include <utility>

#include "roostward/core/by_square.hpp"
#include "roostward/evenings/sight.hpp"

namespace roostward::evenings {

namespace {

/// Less than this is no view at all.
constexpr double least_through = 0.02;
constexpr std::size_t places_a_piece = 16, most_spots = 8000;
constexpr double wider = 1.25;

Spot spot_of(std::span<const TreeKnown> trees, std::span<const std::size_t> members) {
    Spot spot;
    spot.trees.assign(members.begin(), members.end());
    const double share = 1.0 / static_cast<double>(members.size());
    for (const std::size_t i : members) {
        spot.middle.easting += share * trees[i].stem.easting;
        spot.middle.northing += share * trees[i].stem.northing;
        spot.watched += share * trees[i].watched.value();
    }
    const std::size_t nearest = *std::ranges::min_element(members, {}, [&](std::size_t i) {
        return std::pair{core::squared_distance(trees[i].stem, spot.middle), i};
    });
    spot.stem = trees[nearest].stem;
    spot.crown_radius = trees[nearest].crown_radius;
    return spot;
}

}  // namespace

std::vector<Spot> spots_of(std::span<const TreeKnown> trees, core::Metres spacing) {
    std::vector<core::PlanePoint> stems;
    stems.reserve(trees.size());
    for (const TreeKnown& tree : trees)
        stems.push_back(tree.stem);
    core::Metres side = spacing / 5.0;
    core::Squares squares = core::by_square(stems, side);
    for (; squares.size() > most_spots; squares = core::by_square(stems, side))
        side = side * wider;
    std::vector<Spot> spots;
    for (std::size_t i = 0; i < squares.size(); ++i)
        spots.push_back(spot_of(trees, squares.members(i)));
    return spots;
}

std::vector<std::vector<Sighted>> sighted_from(std::span<const Place> places, std::span<const Spot> spots,
                                               const Ground& ground, core::Metres reach,
                                               core::Threads threads) {
    std::vector<core::PlanePoint> middles;
    middles.reserve(spots.size());
    for (const Spot& spot : spots)
        middles.push_back(spot.middle);
    const geo::PointIndex index(middles);
    std::vector<std::vector<Sighted>> all(places.size());
    core::parallel_for(places.size(), places_a_piece, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t p = begin; p < end; ++p) {
            const core::PlanePoint eye = places[p].position;
            for (const std::size_t s : index.within(eye, reach)) {
                const double through = share_through(ground.canopy_height, ground.ground_height, eye,
                                                     spots[s].stem, spots[s].crown_radius);
                if (through < least_through) continue;
                all[p].push_back({static_cast<std::uint32_t>(s),
                                  static_cast<float>(core::distance(eye, middles[s]).value()),
                                  static_cast<float>(through)});
            }
        }
    });
    return all;
}

}  // namespace roostward::evenings
