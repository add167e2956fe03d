#include <algorithm>
#include <iterator>
#include <utility>

#include "layers/layers.hpp"
#include "places/placing.hpp"
#include "places/row_order.hpp"
#include "roostward/io/site_draft.hpp"
#include "roostward/io/times.hpp"

namespace roostward::io {

namespace {

void read(const RecognisedLayer& layer, const SiteClock& clock, UnplacedInputs& in) {
    const InputSource source = layer.mapped();
    if (source.role == "trees") in.trees = read_trees(source, clock, tree_words_within());
    if (source.role == "watches") in.watches = read_watches(source, clock);
    if (source.role == "allowed_area") in.allowed_area = read_areas(source);
}

}  // namespace

std::optional<ParkPlaces> park_places(const Recognised& recognised, core::Threads threads) {
    const SiteClock clock(recognised.timezone.empty() ? "UTC" : recognised.timezone);
    UnplacedInputs in;
    for (const RecognisedLayer& layer : recognised.layers)
        read(layer, clock, in);
    if (!in.trees && !in.allowed_area) return std::nullopt;
    PlanningPlane plane(planning_crs("auto", in));
    place_all(in, plane, threads);
    put_rows_in_order(in);
    ParkPlaces places{plane.crs(), {}, {}, {}};
    if (in.trees)
        for (const trees::Tree& tree : in.trees->rows)
            places.trees.push_back({tree.id, tree.stem});
    if (in.allowed_area)
        for (GroundShape& ground : in.allowed_area->rows)
            std::ranges::move(ground.shape.polygons, std::back_inserter(places.allowed_area));
    if (in.watches)
        for (const survey::Watch& watch : in.watches->rows)
            std::ranges::copy(watch.path, std::back_inserter(places.watches));
    return places;
}

}  // namespace roostward::io
