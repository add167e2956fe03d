#include "places/landmarks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "site/toml_nearest_key.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using survey::Watch;

constexpr core::Metres same_place{1.0};
/// As when passes are matched with watches.
constexpr std::chrono::minutes clock_slack{1};
/// Looking for a near name goes through all of them.
constexpr std::size_t most_suggestions = 50;

bool during(const Watch& watch, const Pass& pass) {
    if (!pass.time) return watch.evening == pass.evening;
    return *pass.time >= watch.start - clock_slack && *pass.time <= watch.end + clock_slack;
}

}  // namespace

core::Metres accuracy_in_square(core::Metres accuracy, core::Metres side) {
    return core::Metres(std::hypot(accuracy.value(), side.value() / std::sqrt(12.0)));
}

Landmarks::Landmarks(std::span<const trees::Tree> trees, std::span<const NamedGround> squares) {
    for (const trees::Tree& tree : trees) {
        const Names::iterator added = trees_.emplace(tree.id, Landmark{tree.stem, tree.id}).first;
        ids_folded_[core::folded(tree.id)].insert(added->first);
    }
    for (const NamedGround& square : squares) {
        const core::Metres side(std::sqrt(geo::area_of(square.shape.polygons).value()));
        squares_.emplace(bare_word(square.name),
                         Landmark{geo::middle_of(square.shape.polygons), square.name, side});
    }
}

void Landmarks::add_stations(std::span<const Watch> watches) {
    for (const Watch& watch : watches)
        watches_.push_back(&watch);
}

Landmarks::Answer Landmarks::named(const Whereabouts& where) const {
    if (const auto* near = std::get_if<NearTree>(&where)) return tree(near->tree);
    return square(std::get<InSquare>(where).square);
}

Lost Landmarks::unknown(const char* kind, const std::string& name, const std::string& key, const Names& known,
                        const char* what_to_do) const {
    std::string nearest;
    if (const auto asked = nearest_.find(key); asked != nearest_.end()) {
        nearest = asked->second;
    } else if (nearest_.size() < most_suggestions && !known.empty()) {
        std::vector<std::string> names;
        for (const auto& [other, mark] : known)
            names.push_back(other);
        nearest = known.find(nearest_key(key, names))->second.name;
        nearest_.emplace(key, nearest);
    }
    std::string to_do = core::said(what_to_do);
    if (!nearest.empty())
        to_do = core::said("finding.nearest_name", {{"nearest", nearest}, {"to_do", std::move(to_do)}});
    return {kind, name, std::move(to_do)};
}

Landmarks::Answer Landmarks::tree(const std::string& name) const {
    if (const auto found = trees_.find(name); found != trees_.end()) return found->second;
    const auto alike = ids_folded_.find(core::folded(name));
    if (alike != ids_folded_.end() && alike->second.size() == 1)
        return trees_.find(*alike->second.begin())->second;
    return unknown("unknown tree", name, name, trees_, "finding.unknown_tree");
}

Landmarks::Answer Landmarks::square(const std::string& name) const {
    if (const auto found = squares_.find(bare_word(name)); found != squares_.end()) return found->second;
    return unknown("unknown square", name, bare_word(name), squares_,
                   squares_.empty() ? "finding.no_squares" : "finding.unknown_square");
}

Landmarks::Answer Landmarks::station_of(const Pass& pass) const {
    std::vector<const Watch*> of_name, at_time;
    for (const Watch* watch : watches_) {
        if (!pass.watch.empty() && watch->name != pass.watch) continue;
        of_name.push_back(watch);
        if (during(*watch, pass)) at_time.push_back(watch);
    }
    const std::vector<const Watch*>& meant = !at_time.empty() || pass.watch.empty() ? at_time : of_name;
    if (of_name.empty() && !pass.watch.empty()) {
        Names stations;
        for (const Watch* watch : watches_)
            stations.emplace(watch->name, Landmark{watch->path.front(), watch->name});
        return unknown("unknown watch", pass.watch, pass.watch, stations, "finding.unknown_watch");
    }
    if (meant.empty()) {
        return Lost{"no station", "", core::said("finding.nobody_watched_then")};
    }
    const core::PlanePoint station = meant.front()->path.front();
    const bool stood = std::ranges::all_of(meant, [&](const Watch* watch) {
        return std::ranges::all_of(
            watch->path, [&](core::PlanePoint p) { return core::distance(p, station) <= same_place; });
    });
    if (stood) return Landmark{station, meant.front()->name};
    return Lost{"no station", pass.watch, core::said("finding.station_moved")};
}

}  // namespace roostward::io
