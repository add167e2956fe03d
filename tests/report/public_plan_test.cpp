#include "roostward/report/public_plan.hpp"

#include <gtest/gtest.h>

namespace roostward::report {
namespace {

/// Three squares from west to east, all of it watched: one with four trees that may hold a box, of which one
/// is chosen; one with three trees, of which one may hold a box and is chosen; one with two trees.
plan::Plan three_squares() {
    plan::Plan plan;
    plan.planning_crs = {"EPSG:32630"};
    plan.settings.site_name = "Mill Park";
    const auto add = [&plan](double easting, trees::State state, bool chosen) {
        trees::Tree tree;
        tree.id = "tag" + std::to_string(plan.trees.rows.size());
        tree.stem = {easting, 5700050.25};
        plan.trees.rows.push_back(tree);
        siting::Candidate candidate;
        candidate.verdict.state = state;
        candidate.facings = siting::Facings{{core::Degrees(0), core::Degrees(90)}, core::Degrees(0)};
        if (chosen) {
            candidate.site = plan.chosen.size() + 1;
            plan.chosen.push_back(plan.candidates.size());
        }
        plan.candidates.push_back(candidate);
    };
    using trees::State;
    add(500010.5, State::can_be_chosen, true);
    for (const double easting : {500020.5, 500030.5, 500040.5})
        add(easting, State::settle_first, false);
    add(500110.5, State::can_be_chosen, true);
    for (const double easting : {500120.5, 500130.5})
        add(easting, State::ruled_out, false);
    for (const double easting : {500210.5, 500220.5})
        add(easting, State::can_be_chosen, false);
    auto& density = plan.surfaces.flight_density;
    density.grid = core::grid_over({{500000.0, 5700000.0}, {500300.0, 5700100.0}}, core::Metres(10));
    density.values.assign(density.grid.size(), 2500.0F);
    density.known.assign(density.grid.size(), 1);
    return plan;
}

std::vector<double> eastings(const PublicPlan& copy) {
    std::vector<double> all;
    for (const PublicSquare& square : copy.squares) {
        EXPECT_EQ(square.south_west.northing, 5700000.0);
        all.push_back(square.south_west.easting);
    }
    return all;
}

// 2500 m flown per hectare and hour are 0.004 times as many flights an hour within 20 m.
TEST(Blurred, TellsSquaresOfThreeTreesAndMore) {
    const PublicPlan copy = blurred(three_squares());
    EXPECT_EQ(eastings(copy), (std::vector<double>{500000.0, 500100.0}));
    EXPECT_EQ(copy.squares[0].flights_an_hour, 10.0);
    EXPECT_EQ(copy.squares[0].boxes, 2U);
}

TEST(Blurred, TellsNoBoxesWhereFewTreesCouldHoldThem) {
    const PublicPlan copy = blurred(three_squares());
    EXPECT_EQ(copy.squares[1].boxes, 0U);
    EXPECT_EQ(copy.boxes, 4U);
    EXPECT_EQ(copy.boxes_elsewhere, 2U);
}

TEST(Blurred, HasNoFlightsWhereLessThanHalfWasWatched) {
    plan::Plan plan = three_squares();
    auto& density = plan.surfaces.flight_density;
    for (std::size_t i = 0; i < density.known.size(); ++i)
        density.known[i] = i % 30 >= 5 && i % 30 < 14 ? 1 : 0;
    const PublicPlan copy = blurred(plan);
    ASSERT_EQ(eastings(copy), (std::vector<double>{500000.0})) << "the second was watched for two fifths";
    EXPECT_EQ(copy.squares[0].flights_an_hour, 10.0) << "watched for just half";
}

TEST(Blurred, TellsBoxesWhereNobodyWatched) {
    plan::Plan plan = three_squares();
    auto& density = plan.surfaces.flight_density;
    density.known.assign(density.grid.size(), 0);
    const PublicPlan copy = blurred(plan);
    ASSERT_EQ(copy.squares.size(), 1U);
    EXPECT_FALSE(copy.squares[0].flights_an_hour);
    EXPECT_NE(public_page(copy).find("not watched"), std::string::npos);
}

// However the trees stand in their squares, the copy is the same.
TEST(PublicPage, IsTheSameWhereverInTheirSquaresTreesStand) {
    plan::Plan plan = three_squares();
    const PublicPlan copy = blurred(plan);
    const RunFacts facts{"1.0", "", core::Instant{}, {}};
    for (auto& tree : plan.trees.rows) {
        tree.stem.easting += 7.0;
        tree.stem.northing -= 31.0;
        tree.id = "other" + tree.id;
        tree.owner = "somebody";
    }
    const PublicPlan moved = blurred(plan);
    EXPECT_EQ(public_page(moved), public_page(copy));
    EXPECT_EQ(core::to_json(public_document(moved, facts)), core::to_json(public_document(copy, facts)));
}

TEST(PublicPage, TellsSquaresInWords) {
    const std::string html = public_page(blurred(three_squares()));
    for (const char* words :
         {"Mill Park", "500000 E 5700000 N", "4 boxes are planned.", "2 of them hang where so few",
          "leave it alone", "What this survey cannot show"})
        EXPECT_NE(html.find(words), std::string::npos) << words;
    EXPECT_EQ(html.find("<script"), std::string::npos);
    EXPECT_EQ(html.find("500200 E"), std::string::npos) << "two trees";
}

}  // namespace
}  // namespace roostward::report
