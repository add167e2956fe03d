#include "roostward/geo/grid_reference.hpp"

#include <gtest/gtest.h>

#include "roostward/geo/shape.hpp"

namespace roostward::geo {
namespace {

// Ordnance Survey, "A guide to coordinate systems in Great Britain", section 7 and annexe C: TG 51409 13177
// is 651409, 313177, and TG 51 13 the square of 1 km around it.
TEST(GridReferences, OfTheBritishGridAreThoseOfItsMaker) {
    const auto fine = british_square("TG 51409 13177");
    ASSERT_TRUE(fine);
    EXPECT_EQ(fine->crs.definition, "EPSG:27700");
    EXPECT_DOUBLE_EQ(fine->middle.easting, 651409.5);
    EXPECT_DOUBLE_EQ(fine->middle.northing, 313177.5);
    EXPECT_DOUBLE_EQ(fine->side.value(), 1.0);
    const auto coarse = british_square("tg5113");
    ASSERT_TRUE(coarse);
    EXPECT_DOUBLE_EQ(coarse->middle.easting, 651500.0);
    EXPECT_DOUBLE_EQ(coarse->middle.northing, 313500.0);
    EXPECT_DOUBLE_EQ(coarse->side.value(), 1000.0);
}

// Defense Mapping Agency, Technical Manual 8358.1, appendix B: in zone 38 the column M runs from 400 km and
// the row B, of the band S, from 3,600 km. That this is UTM: PROJ, which knows nothing of letters.
TEST(GridReferences, OfTheMilitaryGridAreSquaresOfUtm) {
    const auto square = mgrs_square("38S MB 4488");
    ASSERT_TRUE(square);
    EXPECT_EQ(square->crs, wgs84());
    EXPECT_DOUBLE_EQ(square->side.value(), 1000.0);
    const core::PlanePoint utm = Transform(wgs84(), {"EPSG:32638"})(square->middle);
    EXPECT_NEAR(utm.easting, 444500.0, 1e-3);
    EXPECT_NEAR(utm.northing, 3688500.0, 1e-3);
    const auto fine = mgrs_square("30uwc1234567890");
    ASSERT_TRUE(fine);
    const core::PlanePoint there = Transform(wgs84(), {"EPSG:32630"})(fine->middle);
    EXPECT_NEAR(there.easting, 512345.5, 1e-3);
    EXPECT_DOUBLE_EQ(fine->side.value(), 1.0);
}

TEST(GridReferences, OfOtherGridsAreNone) {
    for (const char* text : {"", "SP", "SP 063 77", "SP06377", "AA 123 456", "O 123 456", "30UWC",
                             "99UWC1234", "30UWC123", "51409 13177", "-1.89", "the oak"}) {
        EXPECT_FALSE(british_square(text)) << text;
        EXPECT_FALSE(mgrs_square(text)) << text;
    }
    EXPECT_FALSE(mgrs_square("TG 51409 13177"));
    EXPECT_FALSE(british_square("38SMB4488"));
}

TEST(MiddleOfPolygons, IsTheirCentreOfGravity) {
    const Polygon square{{{10, 10}, {30, 10}, {30, 30}, {10, 30}, {10, 10}}, {}};
    EXPECT_EQ(middle_of({square}), (core::PlanePoint{20, 20}));
    const Polygon triangle{{{0, 0}, {0, 9}, {9, 0}, {0, 0}}, {}};
    EXPECT_EQ(middle_of({triangle}), (core::PlanePoint{3, 3})) << "wound the other way";
    const Polygon small{{{40, 20}, {50, 20}, {50, 30}, {40, 30}, {40, 20}}, {}};
    EXPECT_EQ(middle_of({square, small}), (core::PlanePoint{25, 21})) << "weighed by their areas";
}

}  // namespace
}  // namespace roostward::geo
