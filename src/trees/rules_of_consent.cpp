#include <algorithm>
#include <map>
#include <set>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

std::string the_owner(const Tree& tree) {
    return tree.owner.empty() ? core::said("reason.the_owner")
                              : core::said("reason.the_owner_named", {{"owner", tree.owner}});
}

std::string of_owner(std::string_view key, const Tree& tree) {
    return core::said(key, {{"owner", the_owner(tree)}});
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

/// Animals to keep from that were seen near a tree.
struct Seen {
    std::set<core::Date> evenings;               ///< those that are told
    std::map<std::string, std::string> animals;  ///< as first written, by the name folded
    core::Metres nearest;
    bool perched = false;

    [[nodiscard]] bool stays() const { return perched || evenings.size() > 1; }
    [[nodiscard]] std::string in_words(core::Metres within) const {
        std::vector<std::string> dates, names;
        for (const core::Date evening : evenings)
            dates.push_back(core::to_text(evening));
        for (const auto& [folded, name] : animals)
            names.push_back(name);
        const std::string when =
            dates.empty() ? "" : core::said("reason.other_animals_on", {{"dates", core::all_of(dates)}});
        return core::said(perched ? "reason.other_animals_perched" : "reason.other_animals_seen",
                          {{"animals", capitalised(core::all_of(names))},
                           {"when", when},
                           {"metres", rounded(nearest)},
                           {"limit", rounded(within)}});
    }
};

std::optional<Seen> seen_near(const Tree& tree, const Context& context) {
    const core::Metres within = context.settings.keep_from.seen_within;
    if (context.around.neighbours_seen.empty() || within <= core::Metres(0.0)) return std::nullopt;
    std::optional<Seen> seen;
    for (const std::size_t i :
         context.places.neighbours_seen.within(tree.stem, within + geo::edge_tolerance)) {
        const NeighbourSighting& sighting = context.around.neighbours_seen[i];
        const core::Metres distance = as_measured(core::distance(tree.stem, sighting.position));
        if (distance > within) continue;
        if (!seen) seen = Seen{{}, {}, distance, false};
        if (sighting.evening.ok()) seen->evenings.insert(sighting.evening);
        seen->animals.emplace(core::folded(sighting.animal), sighting.animal);
        seen->nearest = std::min(seen->nearest, distance);
        seen->perched = seen->perched || sighting.perched;
    }
    return seen;
}

}  // namespace

std::optional<Reason> other_animals_seen(const Tree& tree, const Context& context) {
    const std::optional<Seen> seen = seen_near(tree, context);
    if (!seen || !seen->stays()) return std::nullopt;
    const core::Metres within = context.settings.keep_from.seen_within;
    return to_settle("other animals seen", who::bat_person, {seen->nearest.value(), within.value()},
                     seen->in_words(within), core::said("ask.other_animals_seen"));
}

std::string other_animals_told(const Tree& tree, const Context& context) {
    const std::optional<Seen> seen = seen_near(tree, context);
    return seen && !seen->stays() ? seen->in_words(context.settings.keep_from.seen_within) : std::string();
}

std::optional<Reason> own_hollow(const Tree& tree, const Context&) {
    if (!tree.has_hollow.value_or(false)) return std::nullopt;
    return to_settle("own hollow", who::bat_person, {true, false}, core::said("reason.own_hollow"),
                     core::said("ask.anybody_home"));
}

std::optional<Reason> hollow_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::has_hollow, tree.has_hollow)) return std::nullopt;
    return to_settle("hollow not told", who::surveyor, {nullptr, false}, core::said("reason.hollow_not_told"),
                     core::said("ask.hollow_not_told"));
}

std::optional<Reason> roost_near(const Tree& tree, const Context& context) {
    const core::Metres reach = context.settings.roost_reach;
    const auto nearest = nearest_of(context.places.roosts, context.places.roost_places, tree, reach);
    if (!nearest) return std::nullopt;
    return to_settle("roost near", who::bat_person, {nearest->distance.value(), reach.value()},
                     core::said(nearest->count > 1 ? "reason.roosts_near" : "reason.roost_near",
                                {{"roost", nearest->record->what},
                                 {"metres", rounded(nearest->distance)},
                                 {"count", nearest->count}}),
                     core::said("ask.anybody_home"));
}

std::optional<Reason> beside_other_animals(const Tree& tree, const Context& context) {
    const core::Metres within = context.settings.keep_from.within;
    const auto nearest = nearest_of(context.other_boxes, context.other_places, tree, within);
    if (!nearest) return std::nullopt;
    const HungBox& box = *nearest->record;
    return to_settle("other animals near", who::bat_person, {nearest->distance.value(), within.value()},
                     core::said("reason.other_animals_near", {{"animal", capitalised(box.animal)},
                                                              {"file", context.around.boxes.file_of(box.row)},
                                                              {"metres", rounded(nearest->distance)},
                                                              {"limit", rounded(within)}}),
                     core::said("ask.other_animals_near"));
}

std::optional<Reason> protected_by_law(const Tree& tree, const Context&) {
    if (!tree.protected_tree.value_or(false)) return std::nullopt;
    return to_settle("protected", who::tree_officer, {true, false}, core::said("reason.protected"),
                     core::said("ask.protected"));
}

std::optional<Reason> protection_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::protected_tree, tree.protected_tree)) return std::nullopt;
    return to_settle("protection not told", who::tree_officer, {nullptr, false},
                     core::said("reason.protection_not_told"), core::said("ask.protection_not_told"));
}

std::optional<Reason> refused(const Tree& tree, const Context&) {
    if (tree.permission != Permission::refused) return std::nullopt;
    return ruled_out("refused", {"refused", "given"}, of_owner("reason.refused", tree));
}

std::optional<Reason> not_answered(const Tree& tree, const Context&) {
    if (tree.permission != Permission::asked) return std::nullopt;
    return to_settle("not answered", who::owner, {"asked", "given"}, of_owner("reason.not_answered", tree),
                     core::said("ask.may_we_hang"));
}

std::optional<Reason> not_asked(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::permission, tree.permission)) return std::nullopt;
    return to_settle("not asked", who::owner, {nullptr, "given"}, of_owner("reason.not_asked", tree),
                     core::said("ask.may_we_hang"));
}

}  // namespace roostward::trees
