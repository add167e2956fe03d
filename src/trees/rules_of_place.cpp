#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

/// From the crown's edge to the nearest shape; empty where it lies farther off than `within`.
std::optional<core::Metres> beside_crown(const geo::NearestShape& shapes, core::Metres within,
                                         const Tree& tree, const Context& context) {
    const core::Metres crown = crown_of(tree, context.settings);
    const auto hit = shapes.nearest_within(tree.stem, within + crown + geo::edge_tolerance);
    if (!hit) return std::nullopt;
    const core::Metres from_crown = as_measured(std::max(core::Metres(0.0), hit->distance - crown));
    return from_crown <= within ? std::optional(from_crown) : std::nullopt;
}

/// "3 m from the crown's edge", "within the crown's reach (crown radius not told: 6 m taken)"
std::string how_far(core::Metres from_crown, const Tree& tree, const Context& context) {
    std::string distance = from_crown > core::Metres(0.0)
                               ? core::said("reason.from_crown", {{"metres", rounded(from_crown)}})
                               : core::said("reason.in_crown");
    if (tree.crown_radius) return distance;
    const core::Metres crown = crown_of(tree, context.settings);
    return core::said("reason.crown_not_told", {{"distance", distance}, {"metres", rounded(crown)}});
}

/// "80 m²", "3.1 ha"
std::string size_of(core::SquareMetres area) {
    constexpr double hectare = 1e4;
    if (area.value() < hectare) return core::said("reason.area", {{"area", rounded(area.value(), 0)}});
    return core::said("reason.area_ha", {{"area", rounded(area.value() / hectare, 1)}});
}

}  // namespace

std::optional<Reason> outside_allowed_area(const Tree& tree, const Context& context) {
    if (!context.places.allowed_area ||
        context.places.allowed_area->nearest_within(tree.stem, geo::edge_tolerance))
        return std::nullopt;
    const auto hit = context.places.allowed_area->nearest(tree.stem);
    if (!hit) return std::nullopt;
    const core::Metres distance = as_measured(hit->distance);
    return ruled_out("outside area", {distance.value(), 0},
                     core::said("reason.outside_area", {{"metres", rounded(distance.value(), 2)}}));
}

std::optional<Reason> in_canopy_gap(const Tree& tree, const Context& context) {
    if (!context.gaps) return std::nullopt;
    const core::Metres crown = tree.crown_radius.value_or(context.settings.unknown_crown_in_gap);
    // One cell further than the crown, so that "nothing found" is told from "found at the crown's edge".
    const auto gap = canopy::gap_at(*context.gaps, *context.around.canopy_height,
                                    context.settings.gaps.height, tree.stem, crown + context.gaps->grid.cell);
    if (!gap || as_measured(gap->to_canopy) <= crown) return std::nullopt;
    return to_settle(
        "canopy gap", who::surveyor, {as_measured(gap->to_canopy).value(), crown.value()},
        core::said("reason.canopy_gap", {{"area", size_of(gap->area)}, {"metres", rounded(crown)}}),
        core::said("ask.canopy_gap"));
}

std::optional<Reason> too_close_to(std::size_t layer, const Tree& tree, const Context& context) {
    const AvoidLayer& avoid = context.around.avoid[layer];
    const core::Metres within = context.avoid_within[layer];
    const auto from_crown = beside_crown(context.places.avoid[layer], within, tree, context);
    if (!from_crown) return std::nullopt;
    const std::string_view what = avoid.reason.empty() ? avoid.file : avoid.reason;
    std::string sentence = core::said("reason.too_close", {{"what", capitalised(what)},
                                                           {"distance", how_far(*from_crown, tree, context)},
                                                           {"limit", rounded(within)}});
    Grounds grounds{from_crown->value(), within.value()};
    if (avoid.then == State::ruled_out) return ruled_out(what, std::move(grounds), std::move(sentence));
    const std::string_view by = avoid.who.empty() ? who::tree_officer : avoid.who;
    return to_settle(what, by, std::move(grounds), std::move(sentence),
                     core::said("ask.too_close", {{"what", what}}));
}

std::optional<Reason> carriageway_near(const Tree& tree, const Context& context) {
    const core::Metres limit = context.settings.roads.near;
    if (!context.places.roads) return std::nullopt;
    const auto from_crown = beside_crown(*context.places.roads, limit, tree, context);
    if (!from_crown) return std::nullopt;
    return to_settle("carriageway", who::tree_officer, {from_crown->value(), limit.value()},
                     core::said("reason.carriageway", {{"distance", how_far(*from_crown, tree, context)},
                                                       {"limit", rounded(limit)}}),
                     core::said("ask.carriageway"));
}

std::optional<Reason> route_crosses_road(const Tree& tree, const Context& context) {
    const core::Metres limit = context.settings.roads.crossing, crown = crown_of(tree, context.settings);
    std::optional<core::Metres> nearest;
    for (const std::size_t i :
         context.places.crossings.within(tree.stem, limit + crown + geo::edge_tolerance)) {
        const core::Metres distance = core::distance(tree.stem, context.around.crossings[i]);
        const core::Metres from_crown = as_measured(std::max(core::Metres(0.0), distance - crown));
        if (from_crown <= limit) nearest = std::min(nearest.value_or(from_crown), from_crown);
    }
    if (!nearest) return std::nullopt;
    return to_settle("route crosses a road", who::surveyor, {nearest->value(), limit.value()},
                     core::said("reason.route_crosses_road",
                                {{"distance", how_far(*nearest, tree, context)}, {"limit", rounded(limit)}}),
                     core::said("ask.route_crosses_road"));
}

}  // namespace roostward::trees
