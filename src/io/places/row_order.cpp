#include "places/row_order.hpp"

#include <set>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "places/record_contents.hpp"
#include "roostward/core/content_order.hpp"

namespace roostward::io {

namespace {

template <class Layer>
void order(Layer& layer) {
    if (layer) core::put_in_order(layer->rows);
}

void name_trees(UnplacedTrees& layer) {
    const auto first_named =
        std::ranges::find_if(layer.rows, [](const trees::Tree& t) { return !t.id.empty(); });
    if (first_named == layer.rows.begin()) return;
    std::set<std::string_view> taken;
    for (auto tree = first_named; tree != layer.rows.end(); ++tree)
        taken.insert(tree->id);
    for (auto tree = layer.rows.begin(); tree != first_named; ++tree) {
        std::string own = layer.facts.report.name_of(tree->row);
        tree->id = taken.contains(own) ? fmt::format("{}#{}", own, own) : std::move(own);
    }
}

}  // namespace

void put_rows_in_order(UnplacedInputs& in) {
    order(in.watches);
    order(in.passes);
    order(in.tracks);
    order(in.tallies);
    if (in.tallies) core::put_in_order(in.tallies->without_gate);
    order(in.routes);
    order(in.trees);
    if (in.trees) name_trees(*in.trees);
    order(in.roosts);
    order(in.lamps);
    order(in.boxes);
    order(in.roads);
    order(in.water);
    order(in.paths);
    order(in.stations);
    order(in.keep_out);
    order(in.allowed_area);
    order(in.squares);
    for (UnplacedLayer<GroundShape>& avoid : in.avoid)
        core::put_in_order(avoid.rows);
}

}  // namespace roostward::io
