#include "places/input_checks.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "layers/keep_rows.hpp"
#include "places/placing.hpp"
#include "places/record_contents.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/content_order.hpp"
#include "roostward/io/values.hpp"
#include "words/bounds.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using trees::Tree;

constexpr std::size_t enough_to_judge = 20;  // common practice, no source

/// The same tree twice is one tree: the last in the order of their content stands for it, which tells more.
/// Of several trees with one identifier the first in order keeps it, the others get their row behind it.
void part_same_trees(UnplacedTrees& layer) {
    LayerReport& report = layer.facts.report;
    std::vector<Tree>& trees = layer.rows;
    std::vector<bool> good(trees.size(), true);
    std::optional<std::string> id;
    for (std::size_t first = 0, last = 0; first < trees.size(); first = last) {
        std::size_t best = first;
        for (; last < trees.size() && trees[last].id == trees[first].id &&
               trees[last].stem == trees[first].stem;
             ++last)
            if (content(trees[best]) < content(trees[last])) best = last;
        for (std::size_t i = first; i < last; ++i) {
            good[i] = i == best;
            if (!good[i])
                report.set_apart_row(trees[i].row, "the same tree twice", trees[i].id,
                                     core::said("finding.same_tree"));
        }
        Tree& tree = trees[best];
        if (std::exchange(id, tree.id) != tree.id) continue;
        tree.id = fmt::format("{}#{}", *id, report.name_of(tree.row));
        report.doubt_row(tree.row, "tree", "identifier used twice", *id,
                         core::said("finding.same_identifier", {{"own", tree.id}}));
    }
    keep_rows(trees, good);
}

/// Of several things that one name was given to, the first in the order of their content has it.
template <class Named>
void part_same_names(UnplacedLayer<Named>& layer, const std::string& field, const char* sentence) {
    std::set<std::string> known;
    std::vector<bool> good(layer.rows.size(), true);
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const Named& one = layer.rows[i];
        good[i] = known.insert(bare_word(one.name)).second;
        if (!good[i])
            layer.facts.report.set_aside_row(one.row, "name used twice", one.name, core::said(sentence),
                                             field);
    }
    keep_rows(layer.rows, good);
}

/// A station twice in one place is one station. Two places of one name are used, and told: who is sent to one
/// may go to the other.
void part_same_stations(UnplacedLayer<survey::Station>& layer) {
    std::set<std::string> known;
    std::vector<bool> good(layer.rows.size(), true);
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const survey::Station& one = layer.rows[i];
        good[i] = i == 0 || content(one) != content(layer.rows[i - 1]);
        if (!good[i])
            layer.facts.report.set_apart_row(one.row, "the same station twice", one.name,
                                             core::said("finding.same_station"));
        else if (!one.name.empty() && !known.insert(bare_word(one.name)).second)
            layer.facts.report.doubt_row(one.row, "name", "name used twice", one.name,
                                         core::said("finding.station_name_twice"));
    }
    keep_rows(layer.rows, good);
}

/// Rows that say the same in every field: perhaps two animals, perhaps one row pasted twice.
void tell_same_passes(UnplacedLayer<Pass>& layer) {
    for (std::size_t i = 1; i < layer.rows.size(); ++i) {
        const Pass &pass = layer.rows[i], &before = layer.rows[i - 1];
        if (!pass.time || !pass.says_where() || content(pass) != content(before)) continue;
        LayerReport& report = layer.facts.report;
        report.doubt_row(pass.row, {}, "the same pass twice",
                         core::said("name.row", {{"row", report.name_of(before.row)}}),
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

/// A flight followed for longer than animals fly in sight is a mistake of a place or of many.
void judge_lengths(UnplacedLayer<survey::Track>& layer) {
    std::vector<bool> good(layer.rows.size(), true);
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const survey::Track& track = layer.rows[i];
        const double metres = geo::length_of(track.path).value();
        const std::string value = core::said("value.metres", {{"metres", metres}});
        good[i] = metres <= bounds::flight_length_m.possible.most;
        if (!good[i])
            layer.facts.report.set_aside_row(
                track.row, "impossible length", value,
                core::said("finding.impossible_length", {{"most", bounds::flight_length_m.possible.most}}),
                "geometry");
        else if (metres > bounds::flight_length_m.doubtful)
            layer.facts.report.doubt_row(
                track.row, "geometry", "long flight", value,
                core::said("finding.long_flight", {{"usual", bounds::flight_length_m.doubtful}}));
    }
    keep_rows(layer.rows, good);
}

/// Who watches on foot walks.
void judge_speeds(UnplacedWatches& layer) {
    std::vector<bool> good(layer.rows.size(), true);
    for (std::size_t i = 0; i < layer.rows.size(); ++i) {
        const survey::Watch& watch = layer.rows[i];
        const double speed = geo::length_of(watch.path).value() / (3600.0 * watch.hours().value());
        const std::string value = core::said("value.speed", {{"speed", speed}});
        good[i] = speed <= bounds::watcher_speed.possible.most;
        if (!good[i])
            layer.facts.report.set_aside_row(
                watch.row, "impossible speed", value,
                core::said("finding.impossible_walk", {{"most", bounds::watcher_speed.possible.most}}),
                "geometry");
        else if (speed > bounds::watcher_speed.doubtful)
            layer.facts.report.doubt_row(
                watch.row, "geometry", "faster than walking", value,
                core::said("finding.faster_than_walking", {{"usual", bounds::watcher_speed.doubtful}}));
    }
    keep_rows(layer.rows, good);
}

/// Brings tallies at gates and others together again.
void join_tallies(UnplacedTallies& tallies) {
    tallies.rows.insert(tallies.rows.end(), std::make_move_iterator(tallies.without_gate.begin()),
                        std::make_move_iterator(tallies.without_gate.end()));
    tallies.without_gate.clear();
    core::put_in_order(tallies.rows);
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
    if (in.watches) judge_speeds(*in.watches);
    if (in.tracks) judge_lengths(*in.tracks);
    if (in.passes) {
        tell_same_passes(*in.passes);
        tell_heaped_bearings(*in.passes);
    }
    if (in.routes) part_same_names(*in.routes, "name", "finding.route_name_twice");
    if (in.squares) part_same_names(*in.squares, "square", "finding.square_name_twice");
    if (in.tallies) join_tallies(*in.tallies);
    if (in.trees) part_same_trees(*in.trees);
    if (in.allowed_area) repair_areas(*in.allowed_area);
    if (in.roads) repair_areas(*in.roads);
    if (in.water) repair_areas(*in.water);
    if (in.keep_out) repair_areas(*in.keep_out);
    if (in.stations) part_same_stations(*in.stations);
    for (UnplacedLayer<GroundShape>& avoid : in.avoid)
        repair_areas(avoid);
    if (in.squares) repair_areas(*in.squares);
    tell_trees_apart(in);
}

}  // namespace roostward::io
