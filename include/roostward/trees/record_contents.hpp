#pragma once

#include <string_view>
#include <tuple>

#include "roostward/trees/neighbours.hpp"
#include "roostward/trees/tree.hpp"

// What each record says, for core::put_in_order: everything but the row it was read from.
namespace roostward::trees {

[[nodiscard]] inline auto content(const Tree& t) {
    const std::string_view no_box = t.no_box ? std::string_view(t.no_box->words) : std::string_view();
    return std::tuple_cat(std::tie(t.id, t.stem, t.dbh, t.height, t.crown_radius, t.condition, t.hazard,
                                   t.inspected, t.has_hollow, t.protected_tree, t.permission, t.work_due,
                                   t.planned_work, t.owner, t.species, t.zone, t.looked_after_by, t.cost),
                          std::tuple(no_box));
}

[[nodiscard]] inline auto content(const KnownRoost& r) {
    return std::tie(r.position, r.date, r.count, r.animal);
}

[[nodiscard]] inline auto content(const Lamp& l) {
    return std::tie(l.position, l.lumens, l.lux_at_10m, l.height);
}

[[nodiscard]] inline auto content(const HungBox& b) {
    return std::tie(b.position, b.id, b.tree, b.design, b.hung, b.facing, b.mount_height, b.status, b.animal);
}

}  // namespace roostward::trees
