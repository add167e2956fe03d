#include "roostward/trees/suitability.hpp"

#include <gtest/gtest.h>

namespace roostward::trees {
namespace {

// What must be checked before anyone climbs, and in which order: common practice, no source.
struct Checks : testing::Test {
    Inventory inventory;
    Surroundings around;

    Checks() { inventory.file = "trees.csv"; }

    void avoid(const char* file, const char* reason, bool holds_something = true) {
        AvoidLayer layer{file, reason, core::Metres(10), State::ruled_out, "", {}};
        if (holds_something) layer.shapes.push_back({{{0, 0}}, {}, {}});
        around.avoid.push_back(layer);
    }

    [[nodiscard]] std::vector<std::string> checked() const {
        std::vector<std::string> matters;
        for (const Check& check : what_was_checked(inventory, around))
            if (check.checked) matters.push_back(check.matter);
        return matters;
    }

    [[nodiscard]] std::string how(const std::string& matter) const {
        for (const Check& check : what_was_checked(inventory, around))
            if (check.matter == matter) return check.how;
        return "no such matter";
    }
};

using Matters = std::vector<std::string>;

TEST_F(Checks, NameEveryMatterInOrderAndSayWhatToGive) {
    Matters matters;
    for (const Check& check : what_was_checked(inventory, around)) {
        matters.push_back(check.matter);
        EXPECT_FALSE(check.checked) << check.matter;
        EXPECT_TRUE(check.how.starts_with("give ")) << check.how;
    }
    EXPECT_EQ(matters,
              (Matters{"power lines", "planned works", "roads", "lamps", "protected trees", "hollows",
                       "roosts", "ownership", "trunk diameters", "tree heights", "tree conditions"}));
}

TEST_F(Checks, KnowALayerByItsReasonOrItsFile) {
    avoid("lines.gpkg", "Overhead power line");
    avoid("carriageways.geojson", "too near to traffic");
    avoid("street_lamps.shp", "");
    EXPECT_EQ(checked(), (Matters{"power lines", "roads", "lamps"}));
    EXPECT_EQ(how("power lines"), "distance to lines.gpkg");
    EXPECT_EQ(how("lamps"), "distance to street_lamps.shp");
}

// Saying "checked" of what nobody checked is the one mistake that can hurt someone.
TEST_F(Checks, AreNotTakenInByWordsInsideOthers) {
    avoid("street_lamps.shp", "street light");     // lamps, not a street
    avoid("broadleaf.geojson", "railroadish");     // no road
    avoid("pipeline.geojson", "gas line");         // no power line
    avoid("roads/buildings.geojson", "building");  // the folder tells nothing
    EXPECT_EQ(checked(), Matters{"lamps"});
}

TEST_F(Checks, DoNotCountAnEmptyLayer) {
    avoid("power_lines.geojson", "power line", false);
    EXPECT_TRUE(checked().empty());
    EXPECT_EQ(how("power lines"), "power_lines.geojson holds nothing that could be used");
    avoid("cables.geojson", "overhead cable");
    EXPECT_EQ(how("power lines"), "distance to cables.geojson");
}

TEST_F(Checks, FollowTheInventorysColumns) {
    inventory.columns.add(TreeField::planned_work);
    inventory.columns.add(TreeField::work_due);
    inventory.columns.add(TreeField::protected_tree);
    inventory.columns.add(TreeField::has_hollow);
    inventory.columns.add(TreeField::permission);
    EXPECT_EQ(checked(), (Matters{"planned works", "protected trees", "hollows", "ownership"}));
    EXPECT_EQ(how("planned works"), "planned_work, work_due of trees.csv");
    EXPECT_EQ(how("ownership"), "permission of trees.csv");
}

TEST_F(Checks, TakeSightingsForAPartOfTheRoostsOnly) {
    around.roosts.push_back({{0, 0}, "animals seen emerging"});
    EXPECT_TRUE(checked().empty());
    EXPECT_EQ(
        how("roosts"),
        "only 1 sighting of animals coming out or going in was heeded; give known roosts, as roosts.csv");
}

TEST_F(Checks, TakeLampsAndRoostsOfTheirOwnLayers) {
    around.lamps.file = "lamps.csv";
    around.known_roosts.file = "roosts.csv";
    EXPECT_EQ(how("lamps"), "lamps.csv holds nothing that could be used");
    EXPECT_EQ(how("roosts"), "roosts.csv holds nothing that could be used");
    around.lamps.rows.emplace_back();
    around.known_roosts.rows.emplace_back();
    EXPECT_EQ(checked(), (Matters{"lamps", "roosts"}));
    EXPECT_EQ(how("lamps"), "light and distance of lamps.csv");
}

TEST_F(Checks, TakeRoadsAsALayerOfTheirOwn) {
    around.roads = {"lanes.geojson", {}};
    EXPECT_EQ(how("roads"), "lanes.geojson holds nothing that could be used");
    around.roads.shapes.push_back({{}, {{{0, 0}, {9, 0}}}, {}});
    EXPECT_EQ(how("roads"), "distance to lanes.geojson");
    EXPECT_EQ(checked(), Matters{"roads"});
}

}  // namespace
}  // namespace roostward::trees
