#include <fmt/format.h>

#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

constexpr std::string_view may_live_here = "Animals may already live here. Do not climb, fix or prune";
constexpr const char* anybody_home =
    "Do animals live in this tree or beside it? May a box hang here, and when?";
constexpr const char* may_we_hang = "May boxes hang on this tree?";

std::string the_owner(const Tree& tree) {
    return tree.owner.empty() ? std::string("The owner") : fmt::format("The owner ({})", tree.owner);
}

template <class Record>
struct Nearest {
    const Record* record = nullptr;
    core::Metres distance;
    std::size_t count = 0;  ///< of those within reach
};

/// Of the records about a stem the nearest, the first of equals; empty where none is within `reach`
/// (inclusive). `places` indexes where they are.
template <class Record>
std::optional<Nearest<Record>> nearest_of(const std::vector<Record>& records, const geo::PointIndex& places,
                                          const Tree& tree, core::Metres reach) {
    Nearest<Record> nearest;
    for (const std::size_t i : places.within(tree.stem, reach + geo::edge_tolerance)) {
        const core::Metres distance = as_measured(core::distance(tree.stem, records[i].position));
        if (distance > reach) continue;
        ++nearest.count;
        if (nearest.record != nullptr && distance >= nearest.distance) continue;
        nearest.record = &records[i];
        nearest.distance = distance;
    }
    return nearest.record != nullptr ? std::optional(nearest) : std::nullopt;
}

}  // namespace

std::optional<Reason> own_hollow(const Tree& tree, const Context&) {
    if (!tree.has_hollow.value_or(false)) return std::nullopt;
    return to_settle("own hollow", who::bat_person, {true, false},
                     fmt::format("{}: the tree has a hollow of its own.", may_live_here), anybody_home);
}

std::optional<Reason> hollow_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::has_hollow, tree.has_hollow)) return std::nullopt;
    return to_settle("hollow not told", who::surveyor, {nullptr, false},
                     "Whether it has a hollow is not told. Look from the ground before anyone climbs.",
                     "Has the tree a hollow, seen from the ground?");
}

std::optional<Reason> roost_near(const Tree& tree, const Context& context) {
    const core::Metres reach = context.settings.roost_reach;
    const auto nearest = nearest_of(context.places.roosts, context.places.roost_places, tree, reach);
    if (!nearest) return std::nullopt;
    const std::string others =
        nearest->count > 1 ? fmt::format(", the nearest of {}", nearest->count) : std::string();
    return to_settle("roost near", who::bat_person, {nearest->distance.value(), reach.value()},
                     fmt::format("{}: {}, {} m away{}.", may_live_here, nearest->record->what,
                                 plain(nearest->distance), others),
                     anybody_home);
}

std::optional<Reason> beside_other_animals(const Tree& tree, const Context& context) {
    const core::Metres within = context.settings.keep_from.within;
    const auto nearest = nearest_of(context.other_boxes, context.other_places, tree, within);
    if (!nearest) return std::nullopt;
    const HungBox& box = *nearest->record;
    return to_settle(
        "other animals near", who::bat_person, {nearest->distance.value(), within.value()},
        fmt::format("{} ({}, row {}) {} m away; more than {} m are needed.", capitalised(box.animal),
                    context.around.boxes.file, box.row, plain(nearest->distance), plain(within)),
        "Is that box or nest in use, and would its animals take those that this box is for?");
}

std::optional<Reason> protected_by_law(const Tree& tree, const Context&) {
    if (!tree.protected_tree.value_or(false)) return std::nullopt;
    return to_settle("protected", who::tree_officer, {true, false},
                     "Protected tree. Ask for consent before anything is fixed to it.",
                     "May a box be fixed to this protected tree? Give consent in writing.");
}

std::optional<Reason> protection_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::protected_tree, tree.protected_tree)) return std::nullopt;
    return to_settle("protection not told", who::tree_officer, {nullptr, false},
                     "Whether it is protected is not told. Ask before anything is fixed to it.",
                     "Is the tree protected? If so, may a box be fixed to it?");
}

std::optional<Reason> refused(const Tree& tree, const Context&) {
    if (tree.permission != Permission::refused) return std::nullopt;
    return ruled_out("refused", {"refused", "given"}, the_owner(tree) + " refused.");
}

std::optional<Reason> not_answered(const Tree& tree, const Context&) {
    if (tree.permission != Permission::asked) return std::nullopt;
    return to_settle("not answered", who::owner, {"asked", "given"},
                     the_owner(tree) + " was asked and has not answered.", may_we_hang);
}

std::optional<Reason> not_asked(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::permission, tree.permission)) return std::nullopt;
    return to_settle("not asked", who::owner, {nullptr, "given"},
                     the_owner(tree) + " was not asked. Ask first.", may_we_hang);
}

}  // namespace roostward::trees
