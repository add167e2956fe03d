#include "roostward/canopy/shade.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::canopy {
namespace {

using core::Metres;

/// 10 × 4 cells of 1 m with their south-west corner at (0, 0); heights row by row from the north.
core::Raster model(std::vector<float> heights) {
    core::Raster raster;
    raster.grid = {{0, 4}, Metres(1), 4, 10};
    raster.values = std::move(heights);
    raster.known.assign(raster.grid.size(), 1);
    return raster;
}

//                                  0  1  2  3  4  5  6  7  8  9
const std::vector<float> grove{0, 0, 0, 0, 0, 0, 0, 0, 0, 0,  //
                               0, 0, 9, 9, 9, 0, 3, 0, 9, 9,  //
                               0, 0, 0, 0, 0, 0, 0, 0, 0, 0,  //
                               9, 9, 9, 9, 9, 9, 9, 9, 9, 9};

// Along the second row at 4 m: crowns of 9 m begin at 3 m, so three cells, then two, are crowns; the shrub of
// 3 m stays below.
TEST(CrownsBetween, AreCountedWhereTheLineIsInThem) {
    const core::Raster canopy = model(grove);
    const auto between = [&](double height, double but) {
        return crowns_between(canopy, {{0.5, 2.5}, Metres(height)}, {{9.5, 2.5}, Metres(height)},
                              Metres(but));
    };
    EXPECT_NEAR(between(4, 0).value(), 4.5, 1e-9);
    EXPECT_NEAR(between(4, 1).value(), 3.5, 1e-9);
    EXPECT_NEAR(between(3, 0).value(), 0.0, 1e-9) << "under the crowns";
    EXPECT_NEAR(between(2, 0).value(), 1.0, 1e-9) << "through the shrub";
    EXPECT_NEAR(between(9, 0).value(), 0.0, 1e-9) << "over them";
    EXPECT_NEAR(between(4, 20).value(), 0.0, 1e-9);
}

// From 9 m down to 0 m over 9 m: in the middle of the five 9 m cells it is 7, 6, 5, 1 and 0.25 m high, and
// only the first three are crowns there; in the middle of the shrub it is 3 m high and just over it.
TEST(CrownsBetween, FollowASlantingLine) {
    const core::Raster canopy = model(grove);
    EXPECT_NEAR(crowns_between(canopy, {{0.5, 2.5}, Metres(9)}, {{9.5, 2.5}, Metres(0)}, Metres(0)).value(),
                3.0, 1e-9);
}

TEST(CrownsBetween, AreOpenWhereNothingIsKnown) {
    core::Raster canopy = model(grove);
    canopy.known[canopy.grid.index({1, 3})] = 0;
    EXPECT_NEAR(crowns_between(canopy, {{0.5, 2.5}, Metres(4)}, {{9.5, 2.5}, Metres(4)}, Metres(0)).value(),
                3.5, 1e-9);
    EXPECT_EQ(crowns_between(canopy, {{-5, 2.5}, Metres(4)}, {{9.5, 2.5}, Metres(4)}, Metres(0)), Metres(0))
        << "the lamp stands outside the model";
}

// Against half-millimetre steps along lines in all directions.
TEST(CrownsBetween, AgreeWithATwinOfSmallSteps) {
    const core::Raster canopy = model(grove);
    for (int k = 0; k < 24; ++k) {
        const double angle = 0.27 * k;
        const Spot from{{5.03, 1.98}, Metres(4)};
        const Spot to{{5.03 + 1.9 * std::cos(angle), 1.98 + 1.9 * std::sin(angle)}, Metres(6)};
        double inside = 0.0;
        for (double along = 2.5e-4; along < 1.9; along += 5e-4) {
            const core::PlanePoint place{5.03 + along * std::cos(angle), 1.98 + along * std::sin(angle)};
            const double top =
                static_cast<double>(canopy.values[canopy.grid.index(canopy.grid.cell_of(place).value())]);
            const double line = 4.0 + 2.0 * along / 1.9;
            if (top > line && top < 3.0 * line) inside += 5e-4;
        }
        EXPECT_NEAR(crowns_between(canopy, from, to, Metres(0)).value(), inside, 2e-3) << k;
    }
}

}  // namespace
}  // namespace roostward::canopy
