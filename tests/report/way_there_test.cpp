#include "roostward/report/way_there.hpp"

#include <gtest/gtest.h>

namespace roostward::report {
namespace {

plan::Plan a_park() {
    plan::Plan plan;
    plan.settings.site_name = "Mill Park";
    plan.surfaces.flight_density.grid = core::grid_over({{0.0, 0.0}, {200.0, 100.0}}, core::Metres(1.0));
    const auto add = [&plan](const char* id, core::PlanePoint stem) {
        trees::Tree tree;
        tree.id = id;
        tree.stem = stem;
        plan.trees.rows.push_back(tree);
    };
    add("A1", {130.0, 92.0});
    add("A2", {130.0, 80.0});
    add("B1", {900.0, 50.0});
    return plan;
}

survey::Watch a_station(const char* name, core::PlanePoint place) {
    survey::Watch watch;
    watch.name = name;
    watch.path = {place};
    return watch;
}

TEST(WayThere, BeginsAtTheNearestWatchPlaceAndGoesOnToTheNextTree) {
    plan::Plan plan = a_park();
    plan.survey.watches = {a_station("far", {0.0, 0.0}), a_station("gate", {100.0, 62.0})};
    EXPECT_EQ(WaysThere(plan).to(0), "40 m north-east of the watch place gate; 12 m north of tree A2");
}

TEST(WayThere, BeginsInTheMiddleWhereNoWatchPlaceIsNear) {
    plan::Plan plan = a_park();
    plan.survey.watches = {a_station("gate", {100.0, 62.0})};
    EXPECT_EQ(WaysThere(plan).to(2), "800 m east of the middle of Mill Park");
    plan.surroundings.allowed_area = {{{{880, 40}, {920, 40}, {920, 80}, {880, 80}, {880, 40}}, {}}};
    EXPECT_EQ(WaysThere(plan).to(2), "10 m south of the middle of Mill Park");
}

TEST(WayThere, DirectionsAreTrue) {
    plan::Plan plan = a_park();
    plan.meridian_convergence = core::Degrees(45.0);
    EXPECT_EQ(WaysThere(plan).to(2), "800 m south-east of the middle of Mill Park");
}

TEST(WayThere, TellsTheNearestOfWhatLiesBesideIt) {
    plan::Plan plan = a_park();
    plan.survey.watches = {a_station("gate", {130.0, 92.4})};
    plan.surroundings.water = {"water.geojson", {{{}, {{{110.0, 0.0}, {110.0, 200.0}}}, {}}}};
    trees::AvoidLayer power_line;
    power_line.reason = "power line";
    power_line.shapes = {{{}, {{{0.0, 107.0}, {200.0, 107.0}}}, {}}};
    plan.surroundings.avoid = {power_line};
    EXPECT_EQ(WaysThere(plan).to(0),
              "At the watch place gate; 15 m south of the power line; 12 m north of tree A2");
}

}  // namespace
}  // namespace roostward::report
