#include "roostward/evenings/ground.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "evenings/meadow.hpp"
#include "roostward/core/error.hpp"

namespace roostward::evenings {
namespace {

using core::Metres;

std::vector<core::PlanePoint> positions(const Places& places) {
    std::vector<core::PlanePoint> all;
    for (const Place& place : places.places)
        all.push_back(place.position);
    return all;
}

std::string error_of(const Meadow& meadow) {
    try {
        (void)candidate_places(meadow.ground(), meadow.stems, Metres(40));
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::inputs);
        return error.what();
    }
    return {};
}

TEST(CandidatePlaces, LieInTheAllowedAreaOffWaterRoadsAndWhatIsKeptOut) {
    Meadow meadow;
    meadow.allowed_area = {Meadow::square({0, 0}, 200)};
    meadow.water = {"water", {{{}, {}, {Meadow::square({0, 0}, 50)}}}};
    meadow.roads = {"roads", {{{}, {{{100, -50}, {100, 250}}}, {}}}};
    meadow.keep_out = {Meadow::square({150, 150}, 50)};
    meadow.stems = {{25, 60}, {90, 100}, {110, 20}, {160, 140}, {190, 10}};
    const auto places = positions(candidate_places(meadow.ground(), meadow.stems, Metres(40)));
    ASSERT_GT(places.size(), 100U);
    for (const core::PlanePoint p : places) {
        EXPECT_TRUE(p.easting >= 0 && p.easting <= 200 && p.northing >= 0 && p.northing <= 200);
        EXPECT_FALSE(p.easting < 55 && p.northing < 50);
        EXPECT_FALSE(p.easting < 50 && p.northing < 55);
        EXPECT_GT(std::abs(p.easting - 100), 4.0);
        EXPECT_FALSE(p.easting > 150 && p.northing > 150);
        EXPECT_TRUE(std::ranges::any_of(meadow.stems,
                                        [&](auto stem) { return core::distance(stem, p) <= Metres(40); }));
    }
}

TEST(CandidatePlaces, AreOnPathsWherePathsAreGiven) {
    Meadow meadow;
    meadow.allowed_area = {Meadow::square({0, 0}, 100)};
    meadow.paths = {{{0, 50}, {180, 50}}};
    meadow.stems = {{50, 60}, {150, 60}};
    const auto places = positions(candidate_places(meadow.ground(), meadow.stems, Metres(40)));
    ASSERT_FALSE(places.empty());
    for (const core::PlanePoint p : places)
        EXPECT_NEAR(p.northing, 50.0, 1e-9);
    EXPECT_GT(places.back().easting, 170.0) << "a path leads out of the allowed area";
}

TEST(CandidatePlaces, AreTheStationsAndNothingElse) {
    Meadow meadow;
    meadow.allowed_area = {Meadow::square({0, 0}, 100)};
    meadow.paths = {{{90, 110}, {200, 110}}};
    meadow.water = {"water", {{{}, {{{0, 0}, {100, 0}}}, {}}}};
    meadow.stations = {"stations.csv", "stations", {}, 5};
    meadow.stations.rows = {{1, {50, 50}, "oak"},
                            {2, {50, 4}, "weir"},
                            {3, {120, 120}, "gate"},
                            {4, {160, 40}, "street"},
                            {5, {5, 95}, "far off"}};
    meadow.stems = {{60, 50}, {110, 110}, {50, 20}, {150, 40}};
    const Places places = candidate_places(meadow.ground(), meadow.stems, Metres(40));
    ASSERT_EQ(places.places.size(), 2U);
    EXPECT_EQ(places.places[0].name, "oak");
    EXPECT_EQ(places.places[1].name, "gate") << "within 15 m of a path";
    ASSERT_EQ(places.findings.size(), 2U);
    EXPECT_EQ(places.findings[0].value, "weir");
    EXPECT_NE(places.findings[0].sentence.find("within 5 m"), std::string::npos);
    EXPECT_EQ(places.findings[1].value, "street");
    EXPECT_EQ(places.findings[1].place.row, 4U);
    EXPECT_NE(places.findings[1].sentence.find("outside the allowed area"), std::string::npos);
}

TEST(CandidatePlaces, AreThinnedEvenly) {
    Meadow meadow;
    for (int i = 0; i < 40; ++i)
        for (int j = 0; j < 40; ++j)
            meadow.stems.push_back({i * 35.0, j * 35.0});
    const auto places = positions(candidate_places(meadow.ground(), meadow.stems, Metres(40), 500));
    EXPECT_LE(places.size(), 500U);
    EXPECT_GE(places.size(), 300U);
    for (const core::PlanePoint stem : meadow.stems)
        EXPECT_TRUE(
            std::ranges::any_of(places, [&](auto p) { return core::distance(stem, p) < Metres(80); }));
}

TEST(CandidatePlaces, ThatAreNowhereAreTold) {
    Meadow meadow;
    EXPECT_NE(error_of(meadow).find("all are ruled out"), std::string::npos);
    meadow.stems = {{50, 50}};
    meadow.allowed_area = {Meadow::square({0, 0}, 100)};
    meadow.water = {"water", {{{}, {}, {Meadow::square({-10, -10}, 120)}}}};
    EXPECT_NE(error_of(meadow).find("anywhere in the allowed area"), std::string::npos);
    meadow.paths = {{{0, 50}, {100, 50}}};
    EXPECT_NE(error_of(meadow).find("any of the paths"), std::string::npos);
    meadow.stations = {"stations.csv", "stations", {}, 1};
    meadow.stations.rows = {{1, {50, 50}, "raft"}};
    EXPECT_NE(error_of(meadow).find("any of the stations"), std::string::npos);
    EXPECT_NE(error_of(meadow).find("stations.csv"), std::string::npos);
    meadow.water = {};
    meadow.stems = {{950, 50}};
    EXPECT_NE(error_of(meadow).find("from none of the stations"), std::string::npos);
}

}  // namespace
}  // namespace roostward::evenings
