#include "places/input_checks.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "layers/keep_rows.hpp"
#include "places/placing.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using trees::Tree;

constexpr std::size_t enough_to_judge = 20;  // common practice, no source

/// The same tree twice is one tree; another tree with the same identifier gets its row behind it.
void part_same_trees(UnplacedTrees& layer) {
    std::unordered_map<std::string_view, const Tree*> first_of;
    first_of.reserve(layer.rows.size());
    std::set<std::tuple<std::string_view, double, double>> further;
    std::vector<bool> good(layer.rows.size(), true);
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const Tree& tree = layer.rows[i];
        const auto [known, is_new] = first_of.try_emplace(tree.id, &tree);
        if (is_new) continue;
        good[i] = known->second->stem != tree.stem &&
                  further.emplace(tree.id, tree.stem.easting, tree.stem.northing).second;
        if (good[i]) {
            others.push_back(i);
        } else {
            layer.facts.report.set_apart_row(tree.row, "the same tree twice", tree.id,
                                             core::said("finding.same_tree"));
        }
    }
    for (const std::size_t i : others) {
        Tree& tree = layer.rows[i];
        std::string own = fmt::format("{}#{}", tree.id, tree.row);
        layer.facts.report.doubt_row(tree.row, "tree", "identifier used twice", tree.id,
                                     core::said("finding.same_identifier", {{"own", own}}));
        tree.id = std::move(own);
    }
    keep_rows(layer.rows, good);
}

/// Rows that say the same in every field: perhaps two animals, perhaps one row pasted twice.
void tell_same_passes(UnplacedLayer<Pass>& layer) {
    const auto key = [&](std::size_t i) {
        const Pass& p = layer.rows[i];
        return std::make_tuple(p.time, p.position.easting, p.position.northing, p.count, p.bearing,
                               std::string_view(p.watch), std::string_view(p.animal), p.behaviour, p.height);
    };
    struct Noted {
        core::Instant time;
        double easting, northing;
        std::size_t row, index;
        auto operator<=>(const Noted&) const = default;
    };
    std::vector<Noted> order;
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const Pass& p = layer.rows[i];
        if (p.time && p.says_where())
            order.push_back({*p.time, p.position.easting, p.position.northing, p.row, i});
    }
    std::sort(order.begin(), order.end());
    for (std::size_t i = 1; i < order.size(); ++i) {
        if (key(order[i].index) != key(order[i - 1].index)) continue;
        layer.facts.report.doubt_row(order[i].row, {}, "the same pass twice",
                                     core::said("name.row", {{"row", order[i - 1].row}}),
                                     core::said("finding.same_pass"));
    }
}

void tell_heaped_bearings(UnplacedLayer<Pass>& layer) {
    std::size_t given = 0;
    std::size_t heaped = 0;
    for (const Pass& pass : layer.rows) {
        if (!pass.bearing) continue;
        ++given;
        heaped += std::fmod(pass.bearing->value(), 45.0) == 0.0;
    }
    if (given < enough_to_judge || 5 * heaped <= 4 * given) return;
    layer.facts.report.doubt_layer("bearings heaped on 45°",
                                   core::said("value.of", {{"count", heaped}, {"all", given}}),
                                   core::said("finding.heaped_bearings"));
}

/// Polygons that cross themselves are made valid; empty ones are left out.
template <class Ground>
void repair_areas(UnplacedLayer<Ground>& layer) {
    for (Ground& ground : layer.rows) {
        if (ground.shape.polygons.empty()) continue;
        geo::Repair repair = geo::repaired(ground.shape.polygons);
        if (!repair.changed) continue;
        layer.facts.report.doubt_row(ground.row, "geometry", "invalid polygon", "",
                                     core::said("finding.invalid_polygon"));
        ground.shape.polygons = std::move(repair.polygons);
    }
}

/// Brings tallies at gates and others together again, in the order of the file.
void join_tallies(UnplacedTallies& tallies) {
    tallies.rows.insert(tallies.rows.end(), std::make_move_iterator(tallies.without_gate.begin()),
                        std::make_move_iterator(tallies.without_gate.end()));
    tallies.without_gate.clear();
    std::ranges::stable_sort(tallies.rows, {}, &survey::Tally::row);
}

void tell_trees_apart(UnplacedInputs& in) {
    constexpr core::Metres nearby{500.0};
    if (!in.trees || in.trees->rows.empty()) return;
    const std::optional<core::Box> watched = watched_box(in);
    const core::Box around = core::widened(*watched, nearby);
    const bool any = std::any_of(in.trees->rows.begin(), in.trees->rows.end(),
                                 [&](const Tree& t) { return around.holds(t.stem); });
    if (any) return;
    in.trees->facts.report.doubt_layer("layers do not overlap", "",
                                       core::said("finding.no_tree_near", {{"metres", nearby.value()}}));
}

}  // namespace

void check_inputs(UnplacedInputs& in) {
    if (in.passes) {
        tell_same_passes(*in.passes);
        tell_heaped_bearings(*in.passes);
    }
    if (in.tallies) join_tallies(*in.tallies);
    if (in.trees) part_same_trees(*in.trees);
    if (in.allowed_area) repair_areas(*in.allowed_area);
    if (in.roads) repair_areas(*in.roads);
    if (in.water) repair_areas(*in.water);
    for (UnplacedLayer<GroundShape>& avoid : in.avoid)
        repair_areas(avoid);
    if (in.squares) repair_areas(*in.squares);
    tell_trees_apart(in);
}

}  // namespace roostward::io
