#include "roostward/siting/mounting.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace roostward::siting {
namespace {

using core::Degrees;
using core::Metres;

/// For a profile that likes SE to S in the north and wants 3 m of free way.
Mounting in_the_north(std::size_t boxes = 2) {
    Profile profile;
    profile.mount_height.value.typical = Metres(4.5);
    profile.clear_approach.value = Metres(3.0);
    profile.facing_north.value = {Degrees(135), Degrees(180)};
    return mounting_of(profile, Hemisphere::north, boxes);
}

// Common practice, no source: S to SE in the north, N to NE in the south; a second box a quarter turn away,
// not west.
TEST(Mounting, FacesTheSunByHemisphereWhereThereIsNoFlightLine) {
    Profile profile;
    profile.mount_height.value.typical = Metres(3.0);
    profile.facing_north.value = {Degrees(135), Degrees(180)};
    profile.facing_south.value = {Degrees(0), Degrees(45)};
    const Mounting north = mounting_of(profile, Hemisphere::north, 2);
    EXPECT_EQ(facings_of(north, facing_of(north, {})), (std::vector{Degrees(157.5), Degrees(67.5)}));
    EXPECT_EQ(north.height, Metres(4.0)) << "out of reach of the public";
    const Mounting south = mounting_of(profile, Hemisphere::south, 2);
    EXPECT_EQ(facings_of(south, facing_of(south, {})), (std::vector{Degrees(22.5), Degrees(112.5)}));
    profile.facing_south.value = {Degrees(315), Degrees(45)};
    const Mounting across_north = mounting_of(profile, Hemisphere::south, 1);
    EXPECT_EQ(facings_of(across_north, facing_of(across_north, {})), std::vector{Degrees(0)});
}

// By hand: the points within 45° of the way in, of which the one nearest to SE–S is taken.
TEST(Mounting, TurnsFromTheWayInTowardTheSunBy45DegreesAtMost) {
    EXPECT_EQ(facing_of(in_the_north(), {Degrees(150), {}}), Degrees(157.5)) << "both agree";
    EXPECT_EQ(facing_of(in_the_north(), {Degrees(90), {}}), Degrees(135)) << "just within reach";
    EXPECT_EQ(facing_of(in_the_north(), {Degrees(45), {}}), Degrees(90)) << "45° toward the sun";
    EXPECT_EQ(facing_of(in_the_north(), {Degrees(300), {}}), Degrees(270)) << "WNW asked for, south behind";
}

TEST(Mounting, PrefersAFreeWay) {
    Outlook outlook{Degrees(90), {}};
    outlook.clear[6] = Metres(2.0);  // 135°
    EXPECT_EQ(facing_of(in_the_north(), outlook), Degrees(112.5));
    outlook.clear[6] = Metres(3.0);
    EXPECT_EQ(facing_of(in_the_north(), outlook), Degrees(135)) << "as much as is wanted";
    for (auto& clear : outlook.clear)
        clear = Metres(1.0);
    EXPECT_EQ(facing_of(in_the_north(), outlook), Degrees(135)) << "none is free: as if all were";
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
