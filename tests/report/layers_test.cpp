#include "roostward/report/layers.hpp"

#include <gtest/gtest.h>

#include <map>

#include "one_site.hpp"

namespace roostward::report {
namespace {

using core::Document;

/// One site, and one of everything that can lie about it.
plan::Plan with_everything() {
    plan::Plan plan = testing::one_site();
    plan.meridian_convergence = core::Degrees(2);
    survey::Watch& gate = plan.survey.watches.front();
    gate.view = survey::FieldOfView{core::Degrees(359), core::Degrees(120)};
    const core::PlanePoint stem = gate.path.front();
    const core::PlanePoint north{stem.easting, stem.northing + 100.0};
    survey::Watch walk = gate;
    walk.name = "walk";
    walk.path = {stem, north};
    plan.survey.watches.push_back(walk);
    plan.survey.evenings.resize(1);
    for (const auto& path : {geo::Line{stem, north}, geo::Line{stem}}) {
        survey::Flight flight;
        flight.path = path;
        flight.placed = true;
        plan.survey.flights.push_back(flight);
    }
    const geo::Polygon square{{stem, north, {stem.easting + 100.0, stem.northing}, stem}, {}};
    trees::Surroundings& around = plan.surroundings;
    around.allowed_area = {square};
    around.roosts = {{north, "animals seen emerging"}};
    around.crossings = {north};
    around.known_roosts.file = around.lamps.file = around.boxes.file = "a.csv";
    around.known_roosts.rows.resize(1);
    around.lamps.rows.resize(1);
    around.boxes.rows.resize(1);
    around.roads = {"roads.geojson", {{{}, {{stem, north}}, {}}}};
    around.water = {"water.geojson", {{{}, {}, {square}}}};
    trees::AvoidLayer line;
    line.shapes = {{{}, {{stem, north}}, {}}};
    around.avoid = {line};
    around.canopy_height = core::Raster{
        {stem, core::Metres(1.0), 6, 6}, std::vector<float>(36, 0.0F), std::vector<std::uint8_t>(36, 1)};
    return plan;
}

std::map<std::string, std::vector<geo::Feature>> features_of(const plan::Plan& plan) {
    std::map<std::string, std::vector<geo::Feature>> all;
    for (const geo::Layer& layer : all_layers(plan)) {
        auto& features = all[layer.name];
        for (std::size_t i = 0; i < layer.size; ++i) {
            features.push_back(layer.feature(i));
            EXPECT_EQ(features.back().values.size(), layer.columns.size()) << layer.name;
        }
    }
    return all;
}

TEST(AllLayers, HoldEverythingAPlanWasMadeFrom) {
    const plan::Plan plan = with_everything();
    const auto layers = features_of(plan);
    const std::map<std::string, std::size_t> expected{
        {"ranked_sites", 2}, {"other_trees", 0},     {"boxes_to_hang", 2},
        {"flight_lines", 0}, {"flights", 1},         {"flights_without_bearing", 1},
        {"watches", 1},      {"walked_watches", 1},  {"allowed_area", 1},
        {"roosts", 1},       {"roost_sightings", 1}, {"road_crossings", 1},
        {"lamps", 1},        {"boxes", 1},           {"road_lines", 1},
        {"water_areas", 1},  {"avoid_lines", 1},     {"canopy_gaps", 1}};
    std::map<std::string, std::size_t> found;
    for (const auto& [name, features] : layers)
        found[name] = features.size();
    EXPECT_EQ(found, expected);
    EXPECT_EQ(std::get<double>(layers.at("canopy_gaps")[0].values[1].value()), 36.0);
}

TEST(AllLayers, TellAStationsViewAsTrueBearing) {
    const plan::Plan plan = with_everything();
    const auto station = features_of(plan).at("watches").front();
    EXPECT_EQ(station.values[8], Document(1.0)) << "359° in the grid";
    EXPECT_EQ(station.values[9], Document(120.0));
}

TEST(AllLayers, TellWhichWayEachBoxFaces) {
    const plan::Plan plan = with_everything();
    const auto boxes = features_of(plan).at("boxes_to_hang");
    EXPECT_EQ(boxes[0].values, (std::vector<Document>{1, 1, "T7", 4.5, 157.5, "SSE"}));
    EXPECT_EQ(boxes[1].values, (std::vector<Document>{2, 1, "T7", 4.5, 90.0, "E"}));
}

}  // namespace
}  // namespace roostward::report
