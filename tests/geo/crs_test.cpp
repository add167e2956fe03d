#include "roostward/geo/crs.hpp"

#include "roostward/core/error.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace roostward::geo {
namespace {

using core::Degrees;
using core::GeographicPoint;
using core::PlanePoint;

double degrees(double whole, double minutes, double seconds) {
    return whole + minutes / 60.0 + seconds / 3600.0;
}

GeographicPoint at(double longitude, double latitude) {
    return {Degrees(longitude), Degrees(latitude)};
}

std::string utm_of(std::vector<GeographicPoint> points) {
    const auto zone = utm_zone_of(points);
    return zone ? zone->definition : "none";
}

void expect_near(PlanePoint found, double easting, double northing, double tolerance) {
    EXPECT_NEAR(found.easting, easting, tolerance);
    EXPECT_NEAR(found.northing, northing, tolerance);
}

// Check values: 43°38′33.24″N 79°23′13.7″W is 630084 E, 4833438 N in zone 17 (encyclopaedia),
// 630084.31, 4833438.55 by calculation.
TEST(Transform, TurnsTheHandbooksPlaceIntoUtm) {
    const double longitude = -degrees(79, 23, 13.7);
    const double latitude = degrees(43, 38, 33.24);
    EXPECT_EQ(utm_of({at(longitude, latitude)}), "EPSG:32617");
    const Transform to_utm(wgs84(), {"EPSG:32617"});
    expect_near(to_utm({longitude, latitude}), 630084.31, 4833438.55, 0.005);
}

// Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C: the worked example of a water
// tower.
TEST(Transform, TurnsTheOrdnanceSurveysWorkedExampleIntoTheNationalGrid) {
    const Transform to_grid({"EPSG:4277"}, {"EPSG:27700"});
    expect_near(to_grid({degrees(1, 43, 4.5177), degrees(52, 39, 27.2531)}), 651409.903, 313177.270, 0.001);
}

// Systems that prescribe latitude or northing first must still give and take x before y. The false origin is
// part of each system's definition (EPSG registry, conversions 16031 and 19971).
TEST(Transform, KeepsXBeforeYWhateverTheSystemPrescribes) {
    expect_near(Transform({"EPSG:4326"}, {"EPSG:32631"})({3.0, 0.0}), 500000.0, 0.0, 1e-4);
    expect_near(Transform({"EPSG:4167"}, {"EPSG:2193"})({173.0, 0.0}), 1600000.0, 10000000.0, 1e-4);
    expect_near(Transform({"EPSG:32631"}, {"EPSG:4326"})({500000.0, 0.0}), 3.0, 0.0, 1e-9);
}

// Heights are not carried, so the datum shift's scale (20.5 parts in a million) acts on the some 50 m between
// the two ellipsoids, and only on the way back: 1 mm. Both ways round to 0.1 mm.
TEST(Transform, ComesBackFromTheNationalGrid) {
    const Transform there({"EPSG:27700"}, {"EPSG:32630"});
    const Transform back({"EPSG:32630"}, {"EPSG:27700"});
    for (const PlanePoint start : {PlanePoint{530000.0, 180000.0}, PlanePoint{258123.4567, 665432.1098}})
        expect_near(back(there(start)), start.easting, start.northing, 1.5e-3);
    EXPECT_NE(there.operation().find("OSGB36"), std::string::npos) << there.operation();
    ASSERT_TRUE(there.accuracy());
    EXPECT_GT(there.accuracy()->value(), 0.0);
}

TEST(Transform, NamesTheOperationWithoutTheSwapOfAxes) {
    const Transform to_utm({"EPSG:4326"}, {"EPSG:32617"});
    EXPECT_EQ(to_utm.operation(), "UTM zone 17N");
    EXPECT_EQ(to_utm.accuracy(), core::Metres(0.0));
}

TEST(Transform, RoundsMetresToATenthOfAMillimetreAndDegreesNotAtAll) {
    const PlanePoint metres = Transform(wgs84(), {"EPSG:32617"})({-79.123456789, 43.123456789});
    EXPECT_EQ(metres.easting, std::round(metres.easting * 1e4) / 1e4);
    EXPECT_EQ(metres.northing, std::round(metres.northing * 1e4) / 1e4);
    const PlanePoint same = Transform({"EPSG:4326"}, wgs84())({-79.123456789, 43.123456789});
    expect_near(same, -79.123456789, 43.123456789, 1e-12);
}

TEST(Transform, MarksWhatCannotBeTransformedAndKeepsItsNeighbours) {
    const Transform to_utm(wgs84(), {"EPSG:32630"});
    std::vector<PlanePoint> points{{-3.0, 51.0}, {87.0, 0.001}, {std::nan(""), 51.0}, {-3.0, 51.0}};
    to_utm.apply(points);
    EXPECT_TRUE(std::isnan(points[1].easting) && std::isnan(points[1].northing));
    EXPECT_TRUE(std::isnan(points[2].easting) && std::isnan(points[2].northing));
    EXPECT_EQ(points[0], points[3]);
    EXPECT_EQ(points[0], to_utm({-3.0, 51.0}));
    to_utm.apply({});
}

TEST(Transform, CanBeMoved) {
    Transform first(wgs84(), {"EPSG:32630"});
    const PlanePoint before = first({-3.0, 51.0});
    Transform second(wgs84(), {"EPSG:32631"});
    second = std::move(first);
    EXPECT_EQ(second({-3.0, 51.0}), before);
}

TEST(Transform, IgnoresTheHeightOfACompoundSystem) {
    const PlanePoint flat = Transform({"EPSG:27700"}, {"EPSG:32630"})({530000.0, 180000.0});
    EXPECT_EQ(Transform({"EPSG:7405"}, {"EPSG:32630"})({530000.0, 180000.0}), flat);
}

TEST(Facts, TellPlanesInMetresFromTheRest) {
    const CrsFacts utm = facts_of({"EPSG:32630"});
    EXPECT_EQ(utm.name, "WGS 84 / UTM zone 30N");
    EXPECT_EQ(utm.authority, "EPSG:32630");
    EXPECT_TRUE(utm.projected_in_metres);
    EXPECT_FALSE(utm.geographic);
    EXPECT_TRUE(facts_of(wgs84()).geographic);
    EXPECT_FALSE(facts_of({"EPSG:4326"}).projected_in_metres);
    EXPECT_TRUE(facts_of({"EPSG:2193"}).projected_in_metres);   // northing first
    EXPECT_TRUE(facts_of({"EPSG:3031"}).projected_in_metres);   // polar, both axes to the north
    EXPECT_FALSE(facts_of({"EPSG:2263"}).projected_in_metres);  // feet
    EXPECT_FALSE(facts_of({"EPSG:2053"}).projected_in_metres);  // x to the west
    EXPECT_TRUE(facts_of({"+proj=utm +zone=30 +datum=WGS84"}).projected_in_metres);
}

TEST(Facts, RefuseWhatIsNoSystemAndNameIt) {
    for (const char* text : {"EPSG:999999", "", "30N", "+proj=nowhere"}) {
        try {
            (void)facts_of({text});
            ADD_FAILURE() << text;
        } catch (const core::Error& error) {
            EXPECT_EQ(error.fault(), core::Fault::inputs);
            EXPECT_NE(std::string(error.what()).find('"' + std::string(text) + '"'), std::string::npos);
        }
    }
}

TEST(Facts, SurviveTheWayThroughWkt) {
    const std::string text = wkt2_of({"EPSG:32754"});
    EXPECT_TRUE(text.starts_with("PROJCRS["));
    EXPECT_EQ(text.find('\n'), std::string::npos);
    EXPECT_EQ(facts_of({text}).authority, "EPSG:32754");
}

// Zone = floor((longitude + 180) / 6) + 1 (the definition of the UTM grid), north 326zz, south 327zz (EPSG
// registry).
TEST(UtmZone, FollowsTheMeanInThreeDimensions) {
    EXPECT_EQ(utm_of({at(-3.0, 51.0)}), "EPSG:32630");
    EXPECT_EQ(utm_of({at(144.4, -37.9)}), "EPSG:32755");
    EXPECT_EQ(utm_of({at(-0.1, 51.5), at(0.3, 51.5)}), "EPSG:32631");
    EXPECT_EQ(utm_of({at(179.5, -18.0), at(-179.9, -18.0)}), "EPSG:32760");
    EXPECT_EQ(utm_of({at(179.9, -18.0), at(-179.5, -18.0)}), "EPSG:32701");
    EXPECT_EQ(utm_of({at(180.0, 10.0)}), "EPSG:32601");
    EXPECT_EQ(utm_of({at(-180.0, 10.0)}), "EPSG:32601");
    EXPECT_EQ(utm_of({at(5.0, 60.5)}), "EPSG:32631");  // no zone exceptions
}

TEST(UtmZone, IsEmptyWithoutAMeanAndNearThePoles) {
    EXPECT_EQ(utm_of({}), "none");
    EXPECT_EQ(utm_of({at(10.0, 84.5)}), "none");
    EXPECT_EQ(utm_of({at(10.0, -84.5)}), "none");
    EXPECT_EQ(utm_of({at(0.0, 0.0), at(180.0, 0.0)}), "none");
    EXPECT_EQ(utm_of({at(std::nan(""), 0.0)}), "none");
}

// A short step to true north, transformed, shows by how much the grid leans: the sign in all four quarters.
TEST(PlaneFacts, AgreeWithAFiniteDifference) {
    constexpr double step = 1e-3;
    for (const double latitude : {51.5, -37.8}) {
        const Crs plane{latitude > 0.0 ? "EPSG:32630" : "EPSG:32730"};
        const Transform to_plane(wgs84(), plane), to_globe(plane, wgs84());
        for (const double longitude : {-5.5, -3.0, -0.5}) {
            const PlanePoint here = to_plane({longitude, latitude});
            const PlanePoint south = to_plane({longitude, latitude - step});
            const PlanePoint north = to_plane({longitude, latitude + step});
            const double grid_bearing =
                std::atan2(north.easting - south.easting, north.northing - south.northing);
            const PlaneFacts facts = plane_facts(to_globe, here);
            EXPECT_NEAR(facts.meridian_convergence.value(), -grid_bearing * 180.0 / 3.14159265358979, 1e-4);
            const double ground =
                geodesic_distance(at(longitude, latitude - step), at(longitude, latitude + step)).value();
            EXPECT_NEAR(facts.scale, core::distance(south, north).value() / ground, 1e-6);
        }
    }
}

TEST(PlaneFacts, AreThoseOfTheDefinitionOnTheCentralMeridian) {
    const Transform to_globe({"EPSG:32630"}, wgs84());
    const PlaneFacts facts = plane_facts(to_globe, {500000.0, 5700000.0});
    EXPECT_NEAR(facts.scale, 0.9996, 1e-9);
    EXPECT_NEAR(facts.meridian_convergence.value(), 0.0, 1e-9);
    EXPECT_TRUE(std::isnan(plane_facts(to_globe, {1e12, 1e12}).scale));
}

// Check values: the datum manual's line from Flinders Peak to Buninyong, 54972.271 m,
// 306°52′05.37″, back 127°10′25.07″.
struct FlindersLine : testing::Test {
    GeographicPoint flinders = at(degrees(144, 25, 29.52440), -degrees(37, 57, 3.72030));
    GeographicPoint buninyong = at(degrees(143, 55, 35.38390), -degrees(37, 39, 10.15610));
};

TEST_F(FlindersLine, HasTheManualsLengthAndBearings) {
    constexpr double hundredth_of_a_second = 0.01 / 3600.0;
    EXPECT_NEAR(geodesic_distance(flinders, buninyong).value(), 54972.271, 0.0005);
    EXPECT_NEAR(geodesic_bearing(flinders, buninyong).value(), degrees(306, 52, 5.37), hundredth_of_a_second);
    EXPECT_NEAR(geodesic_bearing(buninyong, flinders).value(), degrees(127, 10, 25.07),
                hundredth_of_a_second);
}

// The same line through the plane: its length over the mean scale (Simpson's rule) is the length on the
// ground.
TEST_F(FlindersLine, IsAsLongInThePlaneOverItsScale) {
    const Crs plane{"EPSG:32755"};
    const Transform to_plane(wgs84(), plane), to_globe(plane, wgs84());
    const auto placed = [&](GeographicPoint p) {
        return to_plane({p.longitude.value(), p.latitude.value()});
    };
    const PlanePoint start = placed(flinders);
    const PlanePoint end = placed(buninyong);
    const PlanePoint middle{(start.easting + end.easting) / 2.0, (start.northing + end.northing) / 2.0};
    const double scale = (plane_facts(to_globe, start).scale + 4.0 * plane_facts(to_globe, middle).scale +
                          plane_facts(to_globe, end).scale) /
                         6.0;
    // The straight line in the plane is a little shorter than the geodesic, by under 1e-6 at this length.
    EXPECT_NEAR(core::distance(start, end).value() / scale, 54972.271, 0.03);
}

TEST(Geodesic, CrossesTheDateLine) {
    // One degree of the equator: 6378137 m · π/180.
    EXPECT_NEAR(geodesic_distance(at(179.5, 0.0), at(-179.5, 0.0)).value(), 111319.490793, 1e-6);
    EXPECT_NEAR(geodesic_bearing(at(179.5, 0.0), at(-179.5, 0.0)).value(), 90.0, 1e-9);
    EXPECT_NEAR(geodesic_bearing(at(-179.5, 0.0), at(179.5, 0.0)).value(), 270.0, 1e-9);
    EXPECT_EQ(geodesic_distance(at(3.0, 4.0), at(3.0, 4.0)).value(), 0.0);
}

}  // namespace
}  // namespace roostward::geo
