#include "roostward/siting/mounting.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace roostward::siting {
namespace {

using core::Degrees;
using core::Metres;

/// For a profile that likes SE to S in the north and N to NE in the south and wants 3 m of free way, and a
/// box that does not heat up.
Settings settings(std::size_t boxes = 2) {
    Settings settings;
    settings.profile.mount_height.value.typical = Metres(4.5);
    settings.profile.clear_approach.value = Metres(3.0);
    settings.profile.facing_north.value = {Degrees(135), Degrees(180)};
    settings.profile.facing_south.value = {Degrees(0), Degrees(45)};
    settings.choice.boxes_per_site = boxes;
    settings.box.wall = Wall::insulated;
    return settings;
}

Mounting in_the_north(std::size_t boxes = 2) {
    return mounting_of(settings(boxes), Hemisphere::north);
}

Degrees first(const Mounting& mounting, const Outlook& outlook) {
    return facings_of(mounting, outlook).boxes.front();
}

Outlook toward(double bearing) {
    Outlook outlook;
    outlook.way_in = Degrees(bearing);
    return outlook;
}

// Common practice, no source: S to SE in the north, N to NE in the south; a second box a quarter turn away,
// not west.
TEST(Mounting, FacesTheSunByHemisphereWhereThereIsNoFlightLine) {
    Settings site = settings();
    const Mounting north = mounting_of(site, Hemisphere::north);
    EXPECT_EQ(facings_of(north, {}).boxes, (std::vector{Degrees(157.5), Degrees(67.5)}));
    const Mounting south = mounting_of(site, Hemisphere::south);
    EXPECT_EQ(facings_of(south, {}).boxes, (std::vector{Degrees(22.5), Degrees(112.5)}));
    site.profile.mount_height.value.typical = Metres(3.0);
    EXPECT_EQ(mounting_of(site, Hemisphere::north).height, Metres(4.0)) << "out of reach of the public";
    site.profile.facing_south.value = {Degrees(315), Degrees(45)};
    EXPECT_EQ(first(mounting_of(site, Hemisphere::south), {}), Degrees(0)) << "an arc across north";
}

// In a hot climate: east, the morning sun. Common practice, no source.
TEST(Mounting, FacesTheMorningSunWhereItIsHot) {
    Settings site = settings();
    site.climate.hottest_month = core::Celsius(27.9);
    EXPECT_EQ(first(mounting_of(site, Hemisphere::north), {}), Degrees(157.5));
    site.climate.hottest_month = core::Celsius(28.0);
    EXPECT_EQ(first(mounting_of(site, Hemisphere::north), {}), Degrees(90));
    EXPECT_EQ(first(mounting_of(site, Hemisphere::south), {}), Degrees(90));
}

// By hand: the points within 45° of the way in, of which the one nearest to SE–S is taken.
TEST(Mounting, TurnsFromTheWayInTowardTheSunBy45DegreesAtMost) {
    EXPECT_EQ(first(in_the_north(), toward(150)), Degrees(157.5)) << "both agree";
    EXPECT_EQ(first(in_the_north(), toward(90)), Degrees(135)) << "just within reach";
    EXPECT_EQ(first(in_the_north(), toward(45)), Degrees(90)) << "45° toward the sun";
    EXPECT_EQ(first(in_the_north(), toward(300)), Degrees(270)) << "WNW asked for, south behind";
}

TEST(Mounting, PrefersAFreeWay) {
    Outlook outlook = toward(90);
    outlook.clear[6] = Metres(2.0);  // 135°
    EXPECT_EQ(first(in_the_north(), outlook), Degrees(112.5));
    outlook.clear[6] = Metres(3.0);
    EXPECT_EQ(first(in_the_north(), outlook), Degrees(135)) << "as much as is wanted";
    for (auto& clear : outlook.clear)
        clear = Metres(1.0);
    EXPECT_EQ(first(in_the_north(), outlook), Degrees(135)) << "none is free: as if all were";
}

// A road to the south-east: faces within 45° of it are out, even where the way in and the sun ask for them.
TEST(Mounting, NeverFacesARoad) {
    Outlook outlook = toward(135);
    outlook.road = Degrees(140);
    const Facings facings = facings_of(in_the_north(), outlook);
    EXPECT_EQ(facings.boxes.front(), Degrees(90)) << "95° is the edge of what is out";
    EXPECT_EQ(facings.wished, Degrees(135));
    EXPECT_TRUE(facings.off_the_road);
    EXPECT_FALSE(facings.off_the_heat);
    for (const Degrees facing : facings.boxes)
        EXPECT_GT(core::turn_between(facing, Degrees(140)).value(), 45.0);
}

// Over 2 h of sun after 14:00: not for a box that heats up. Common practice, no source.
TEST(Mounting, KeepsThinBoxesFromTheAfternoonSun) {
    Settings site = settings();
    Outlook outlook = toward(180);
    for (std::size_t point = 0; point < compass_points; ++point)
        outlook.hot_sun[point] = core::Hours(point >= 8 ? 2.1 : 2.0);  // from south to north by west
    EXPECT_EQ(first(mounting_of(site, Hemisphere::north), outlook), Degrees(180));
    site.box.wall = Wall::thin;
    const Facings facings = facings_of(mounting_of(site, Hemisphere::north), outlook);
    EXPECT_EQ(facings.boxes, (std::vector{Degrees(157.5), Degrees(67.5)}));
    EXPECT_TRUE(facings.off_the_heat);
    EXPECT_EQ(facings.wished, Degrees(180));
}

TEST(Mounting, FurtherBoxesKeepAQuarterTurnWhileThereIsRoom) {
    const auto four = facings_of(in_the_north(4), {}).boxes;
    ASSERT_EQ(four.size(), 4U);
    for (std::size_t i = 0; i < four.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            EXPECT_GE(core::turn_between(four[i], four[j]).value(), 90.0) << i << " and " << j;
    Outlook outlook;
    outlook.clear[3] = Metres(1.0);  // ENE, where the second box would face
    EXPECT_EQ(facings_of(in_the_north(), outlook).boxes[1], Degrees(45)) << "further round, but free";
    EXPECT_EQ(facings_of(in_the_north(20), {}).boxes.size(), 20U);
}

TEST(Mounting, ArcsReachAcrossNorth) {
    const FacingArc arc{Degrees(315), Degrees(45)};
    EXPECT_EQ(turn_outside(arc, Degrees(0)), Degrees(0));
    EXPECT_EQ(turn_outside(arc, Degrees(315)), Degrees(0));
    EXPECT_EQ(turn_outside(arc, Degrees(60)), Degrees(15));
    EXPECT_EQ(turn_outside(arc, Degrees(300)), Degrees(15));
    EXPECT_EQ(turn_outside(arc, Degrees(180)), Degrees(135));
}

TEST(Mounting, CompassPoints) {
    EXPECT_EQ(compass_point(core::Degrees(0.0)), "N");
    EXPECT_EQ(compass_point(core::Degrees(157.5)), "SSE");
    EXPECT_EQ(compass_point(core::Degrees(359.0)), "N");
    EXPECT_EQ(compass_point(core::Degrees(-90.0)), "W");
}

}  // namespace
}  // namespace roostward::siting
