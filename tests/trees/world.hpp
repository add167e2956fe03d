#pragma once

#include "roostward/trees/suitability.hpp"

/// A tree that meets every rule, and what can be put around it.
namespace roostward::trees {

using core::Centimetres;
using core::Metres;
using core::PlanePoint;

inline core::Date date(int year, unsigned month, unsigned day) {
    return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
}

inline geo::Shape line(PlanePoint from, PlanePoint to) {
    return {{}, {{from, to}}, {}};
}

/// One tree that meets every rule, in an inventory with every column, on 12 June 2026.
struct World {
    Inventory inventory;
    Surroundings around;
    Settings settings;

    World() {
        for (std::size_t field = 0; field < static_cast<std::size_t>(TreeField::count); ++field)
            inventory.columns.add(static_cast<TreeField>(field));
        Tree tree;
        tree.dbh = Centimetres(60);
        tree.height = Metres(15);
        tree.crown_radius = Metres(4);
        tree.condition = Condition::good;
        tree.hazard = Hazard::improbable;
        tree.inspected = date(2026, 3, 1);
        tree.has_hollow = false;
        tree.protected_tree = false;
        tree.permission = Permission::given;
        tree.species = "Quercus robur";
        inventory.rows.push_back(tree);
        around.today = date(2026, 6, 12);
    }

    Tree& tree() { return inventory.rows.front(); }
    [[nodiscard]] Verdict verdict() const {
        return judge(inventory, around, settings, core::Threads{1}).front();
    }
};

inline void with_roosts(World& w, const std::vector<PlanePoint>& places) {
    for (const PlanePoint& place : places)
        w.around.roosts.push_back({place, "animals seen emerging"});
}

inline void with_avoid(World& w, geo::Shape shape, double within, State then, const char* who) {
    w.around.avoid.push_back(
        {"power_lines.geojson", "overhead power line", Metres(within), then, who, {shape}});
}

inline void with_road(World& w, geo::Shape shape) {
    w.around.roads = {"roads.geojson", {std::move(shape)}};
}

inline void with_box(World& w, const char* animal, PlanePoint place, BoxStatus status = BoxStatus::up) {
    HungBox box;
    box.row = 2;
    box.animal = animal;
    box.position = place;
    box.status = status;
    w.around.boxes.file = "boxes.csv";
    w.around.boxes.rows.push_back(box);
    w.settings.keep_from.animals = {"owl", "kestrel"};
}

}  // namespace roostward::trees
