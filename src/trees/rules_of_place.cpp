#include <fmt/format.h>

#include <algorithm>

#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

std::optional<Reason> outside_allowed_area(const Tree& tree, const Context& context) {
    if (!context.allowed_area || context.allowed_area->nearest_within(tree.stem, geo::edge_tolerance))
        return std::nullopt;
    const auto hit = context.allowed_area->nearest(tree.stem);
    if (!hit) return std::nullopt;
    const core::Metres distance = as_measured(hit->distance);
    return ruled_out(
        "outside area", {distance.value(), 0},
        fmt::format("Stands {} m outside the area where boxes may hang.", plain(distance.value(), 2)));
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
        fmt::format("Not seen in the canopy model: it stands in a gap of {} m² with no canopy within "
                    "{} m. Check that it exists.",
                    plain(gap->area.value(), 0), plain(crown)));
}

std::optional<Reason> too_close_to(std::size_t layer, const Tree& tree, const Context& context) {
    const AvoidLayer& avoid = context.around.avoid[layer];
    const core::Metres crown = tree.crown_radius.value_or(context.settings.unknown_crown_radius);
    const auto hit =
        context.avoid[layer].nearest_within(tree.stem, avoid.within + crown + geo::edge_tolerance);
    if (!hit) return std::nullopt;
    const core::Metres from_crown = as_measured(std::max(core::Metres(0.0), hit->distance - crown));
    if (from_crown > avoid.within) return std::nullopt;

    const std::string name = capitalised(avoid.reason.empty() ? avoid.file : avoid.reason);
    const std::string distance = from_crown > core::Metres(0.0)
                                     ? fmt::format("{} m from the crown's edge", plain(from_crown))
                                     : std::string("within the crown's reach");
    const std::string guessed =
        tree.crown_radius ? std::string() : fmt::format(" (crown radius not told: {} m taken)", plain(crown));
    std::string sentence =
        fmt::format("{} {}{}; more than {} m are needed.", name, distance, guessed, plain(avoid.within));
    const std::string_view rule = avoid.reason.empty() ? avoid.file : avoid.reason;
    Grounds grounds{from_crown.value(), avoid.within.value()};
    if (avoid.then == State::ruled_out) return ruled_out(rule, std::move(grounds), std::move(sentence));
    const std::string_view by = avoid.who.empty() ? who::tree_officer : avoid.who;
    return to_settle(rule, by, std::move(grounds), std::move(sentence));
}

}  // namespace roostward::trees
