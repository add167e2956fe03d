#include "roostward/report/lettered_squares.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace roostward::report {
namespace {

const geo::Crs plane{"EPSG:32630"};

geo::Polygon rectangle(double west, double south, double east, double north) {
    return {{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}, {}};
}

ParkMap park_of(std::vector<geo::Polygon> allowed) {
    return {"Alder Reach", plane, {}, std::move(allowed), {}};
}

TEST(LetteredSquares, LettersGoOnAfterZ) {
    EXPECT_EQ(column_letters(0), "A");
    EXPECT_EQ(column_letters(25), "Z");
    EXPECT_EQ(column_letters(26), "AA");
    EXPECT_EQ(column_letters(51), "AZ");
    EXPECT_EQ(column_letters(52), "BA");
    EXPECT_EQ(column_letters(701), "ZZ");
    EXPECT_EQ(column_letters(702), "AAA");
}

TEST(LetteredSquares, LettersRunFromTheWestAndNumbersFromTheSouth) {
    const std::vector<Square> squares =
        lettered_squares(park_of({rectangle(500'010, 5'700'010, 500'065, 5'700'040)}));
    const auto at = [&](double x, double y) {
        const auto found = std::ranges::find_if(squares, [&](const Square& s) {
            return s.box.holds({x, y});
        });
        return found == squares.end() ? std::string("none") : found->name;
    };
    EXPECT_EQ(at(500'012, 5'700'012), "A1");
    EXPECT_EQ(at(500'060, 5'700'012), "C1");
    EXPECT_EQ(at(500'060, 5'700'038), "C2");
    for (const Square& square : squares) {
        EXPECT_EQ(square.box.north_east.easting - square.box.south_west.easting, 25.0);
        EXPECT_EQ(square.box.north_east.northing - square.box.south_west.northing, 25.0);
        EXPECT_EQ(std::fmod(square.box.south_west.easting, 25.0), 0.0);
    }
}

TEST(LetteredSquares, EverySquareHasANameOfItsOwnAndEveryTreeInTheAreaASquare) {
    ParkMap park = park_of({rectangle(500'000, 5'700'000, 500'900, 5'700'400)});
    for (int i = 0; i < 200; ++i)
        park.trees.push_back({std::to_string(i), {500'000.0 + 4.5 * i, 5'700'000.0 + (i * 37) % 400}});
    const std::vector<Square> squares = lettered_squares(park);
    std::set<std::string> names;
    for (const Square& square : squares)
        names.insert(square.name);
    EXPECT_EQ(names.size(), squares.size());
    for (const TaggedTree& tree : park.trees)
        EXPECT_TRUE(std::ranges::any_of(squares, [&](const Square& s) { return s.box.holds(tree.stem); }))
            << tree.tag;
}

TEST(LetteredSquares, WithoutAnAreaTheyLieWithinReachOfTheWatches) {
    ParkMap park{"Alder Reach",
                 plane,
                 {{"far", {509'000, 5'700'000}}, {"near", {500'030, 5'700'000}}},
                 {},
                 {{500'000, 5'700'000}}};
    const std::vector<Square> squares = lettered_squares(park);
    ASSERT_FALSE(squares.empty());
    for (const Square& square : squares) {
        const core::PlanePoint middle{square.box.south_west.easting + 12.5,
                                      square.box.south_west.northing + 12.5};
        EXPECT_LE(core::distance(middle, park.watches[0]).value(), 100.0 + 18.0);
    }
    EXPECT_TRUE(std::ranges::any_of(squares, [](const Square& s) {
        return s.box.holds({500'030, 5'700'000});
    }));
}

TEST(LetteredSquares, TooManyAreNotDrawn) {
    EXPECT_FALSE(lettered_squares(park_of({rectangle(500'000, 5'700'000, 501'000, 5'701'000)})).empty());
    EXPECT_TRUE(lettered_squares(park_of({rectangle(500'000, 5'700'000, 502'000, 5'702'000)})).empty());
    EXPECT_TRUE(lettered_squares(park_of({rectangle(0, 0, 1e6, 1e7)})).empty());
    EXPECT_TRUE(lettered_squares({"nothing", plane, {}, {}, {}}).empty());
}

TEST(LetteredSquares, ThePageShowsEverySquareAndEscapesTags) {
    ParkMap park = park_of({rectangle(500'000, 5'700'000, 500'700, 5'700'090)});
    park.trees.push_back({"<b>&1", {500'020, 5'700'020}});
    const std::vector<Square> squares = lettered_squares(park);
    const std::string page = squares_page(park, squares);
    for (const Square& square : squares)
        EXPECT_NE(page.find(">" + square.name + "</text>"), std::string::npos) << square.name;
    EXPECT_NE(page.find("&lt;b&gt;&amp;1"), std::string::npos);
    EXPECT_EQ(page.find("<b>"), std::string::npos);
}

}  // namespace
}  // namespace roostward::report
