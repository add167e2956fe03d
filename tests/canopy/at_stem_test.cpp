#include "roostward/canopy/at_stem.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "canopy/drawn.hpp"
#include "roostward/core/random.hpp"

namespace roostward::canopy {
namespace {

using core::Metres;
using core::PlanePoint;

// A cell holds its west and north edge.
TEST(HeightAt, IsThatOfTheCellThatHoldsTheStem) {
    const core::Raster canopy = drawn({"12?",  //
                                       "45."});
    EXPECT_EQ(height_at(canopy, {0.0, 2.0}), Metres(1));
    EXPECT_EQ(height_at(canopy, {0.99, 1.01}), Metres(1));
    EXPECT_EQ(height_at(canopy, {1.0, 1.0}), Metres(5));
    EXPECT_EQ(height_at(canopy, {2.5, 0.5}), Metres(0));
    EXPECT_FALSE(height_at(canopy, {2.5, 1.5})) << "unknown";
    EXPECT_FALSE(height_at(canopy, {-0.1, 0.5})) << "outside";
}

TEST(HeightAt, IsToldToTheMillimetre) {
    core::Raster canopy = drawn({"#"});
    canopy.values[0] = 13.8756F;
    EXPECT_EQ(height_at(canopy, {0.5, 0.5}), Metres(13.876));
}

// By hand: from the middle of the '5' it is 1.414 m to the middle of the 8, 2 m to the 7, 2.828 m to the 9.
TEST(CrownTop, IsTheHighestWithinTheCrown) {
    const core::Raster canopy = drawn({"....9",  //
                                       ".8...",  //
                                       "..5.6",  //
                                       ".....",  //
                                       "..7.."});
    const auto within = [&](double radius) { return crown_top(canopy, {2.5, 2.5}, Metres(radius)); };
    EXPECT_EQ(within(0.0), Metres(5));
    EXPECT_EQ(within(1.41), Metres(5));
    EXPECT_EQ(within(1.42), Metres(8));
    EXPECT_EQ(within(2.82), Metres(8));
    EXPECT_EQ(within(2.83), Metres(9));
    EXPECT_FALSE(within(3.0)) << "leaves the model";
    EXPECT_EQ(crown_top(canopy, {3.5, 1.5}, Metres(std::sqrt(2.0))), Metres(7)) << "just at the radius";
    EXPECT_EQ(crown_top(canopy, {3.5, 1.5}, Metres(1.4)), Metres(0));
}

/// A square crown of 7 m in the middle of 11 × 11 cells of 1 m, on ground that is drawn with one letter.
core::Raster square_crown(char ground) {
    std::vector<std::string> rows(11, std::string(11, ground));
    for (std::size_t row = 2; row < 9; ++row)
        rows[row].replace(2, 7, "9999999");
    return drawn(rows);
}

// By hand: four rays leave the crown after 3.5 m, eight after 3.5 / cos 22.5° = 3.788 m, four after 4.950 m.
TEST(CrownEdge, IsTheMedianOfSixteenRays) {
    EXPECT_NEAR(crown_edge(square_crown('.'), {5.5, 5.5})->value(), 3.788, 5e-4);
    EXPECT_NEAR(crown_edge(square_crown('4'), {5.5, 5.5})->value(), 3.788, 5e-4) << "under half of 9 m";
    EXPECT_FALSE(crown_edge(square_crown('5'), {5.5, 5.5})) << "runs to the end of the model";
    EXPECT_FALSE(crown_edge(square_crown('?'), {5.5, 5.5})) << "nobody knows";
    EXPECT_FALSE(crown_edge(square_crown('.'), {0.5, 0.5})) << "no canopy at the stem";
    EXPECT_FALSE(crown_edge(square_crown('.'), {-5.0, 0.5}));
}

TEST(CrownEdge, IsNotKnownWhereCrownsRunIntoEachOther) {
    core::Raster wood = drawn(std::vector<std::string>(40, std::string(40, '9')));
    EXPECT_FALSE(crown_edge(wood, {20.5, 20.5}));
    // A clearing to the north, 7.5 m off, is seen by seven rays: nine still run on.
    for (std::size_t row = 0; row < 13; ++row)
        for (std::size_t column = 0; column < 40; ++column)
            wood.values[wood.grid.index({row, column})] = 0.0F;
    EXPECT_FALSE(crown_edge(wood, {20.5, 20.5}));
}

TEST(CrownTop, TakesTheStemsOwnCellWhateverItsSize) {
    EXPECT_EQ(crown_top(drawn({"48", ".."}, Metres(5.0)), {4.9, 9.9}, Metres(1.0)), Metres(4));
}

TEST(CrownTop, IsNotKnownWhereOneOfTheCellsIsNot) {
    const core::Raster canopy = drawn({"...", ".3?", "..."});
    EXPECT_EQ(crown_top(canopy, {1.5, 1.5}, Metres(0.9)), Metres(3));
    EXPECT_FALSE(crown_top(canopy, {1.5, 1.5}, Metres(1.0)));
    EXPECT_FALSE(crown_top(canopy, {2.5, 1.5}, Metres(0.1)));
    EXPECT_FALSE(crown_top(canopy, {9.0, 9.0}, Metres(50.0)));
}

/// Bare ground of 101 × 101 m about the stem at (50.5, 50.5).
core::Raster bare() {
    return drawn(std::vector<std::string>(101, std::string(101, '.')));
}
constexpr PlanePoint stem{50.5, 50.5};

std::optional<double> cover_about(const core::Raster& canopy, PlanePoint place) {
    return CoverMap(canopy, {1}).about(place);
}

// Gauss's circle problem: 1257 points of the whole numbers lie within 20 of one of them (OEIS A000328).
TEST(Cover, CountsTheCellsWithinTwentyMetres) {
    core::Raster canopy = bare();
    EXPECT_EQ(cover_about(canopy, stem), 0.0);
    canopy.values[canopy.grid.index({50, 70})] = 2.0F;  // 20 m to the east, just 2 m high
    EXPECT_EQ(cover_about(canopy, stem), 1.0 / 1257.0);
    canopy.values[canopy.grid.index({50, 71})] = 9.0F;
    canopy.values[canopy.grid.index({49, 70})] = 9.0F;  // 20.02 m
    canopy.values[canopy.grid.index({50, 50})] = 1.99F;
    EXPECT_EQ(cover_about(canopy, stem), 1.0 / 1257.0);
    std::ranges::fill(canopy.values, 9.0F);
    EXPECT_EQ(cover_about(canopy, stem), 1.0);
}

TEST(Cover, IsNotKnownWhereOverATenthIsNot) {
    core::Raster canopy = bare();
    std::ranges::fill(canopy.values, 9.0F);
    const auto forget_first = [&canopy](int cells) {
        for (std::size_t i = 0; i < canopy.grid.size() && cells > 0; ++i) {
            const PlanePoint centre = canopy.grid.centre({i / 101, i % 101});
            if (core::distance(centre, stem) > cover_radius || canopy.known[i] == 0) continue;
            canopy.known[i] = 0;
            canopy.values[i] = 0.0F;
            --cells;
        }
    };
    forget_first(125);
    EXPECT_EQ(cover_about(canopy, stem), 1.0);
    forget_first(1);
    EXPECT_FALSE(cover_about(canopy, stem));
    EXPECT_FALSE(cover_about(bare(), {50.5, 101.0})) << "half of it beyond the model";
    EXPECT_FALSE(cover_about(bare(), {500.0, 500.0}));
}

// The twin looks at every cell of the raster, and at those that it would have if it had no end.
TEST(AtStem, EqualsABruteForceTwin) {
    core::RandomStream random(11, "stems");
    std::size_t told = 0, not_told = 0;
    for (const double cell : {0.4, 1.0, 3.0, 7.0}) {
        core::Raster canopy;
        const auto side = static_cast<std::size_t>(90.0 / cell);
        canopy.grid = {{1000.0, 2000.0}, Metres(cell), side, side};
        for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
            canopy.values.push_back(static_cast<float>(random.uniform(0.0, 6.0)));
            canopy.known.push_back(random.uniform() < 0.99 ? 1 : 0);
        }
        const CoverMap map(canopy, {1});
        for (int tree = 0; tree < 30; ++tree) {
            const PlanePoint at{1000.0 + random.uniform(10.0, 80.0), 2000.0 - random.uniform(10.0, 80.0)};
            const Metres crown(random.uniform(0.5, 9.0));
            double cells = 0, known = 0, covered = 0, top = -1.0;
            bool crown_known = true;
            const auto end = static_cast<int>(side), beyond = static_cast<int>(30.0 / cell);
            for (int row = -beyond; row < end + beyond; ++row) {
                for (int column = -beyond; column < end + beyond; ++column) {
                    const PlanePoint middle{1000.0 + (column + 0.5) * cell, 2000.0 - (row + 0.5) * cell};
                    const Metres away = core::distance(at, middle);
                    const std::optional<float> height = canopy.at(middle);
                    if (away <= cover_radius) {
                        cells += 1;
                        known += height ? 1 : 0;
                        covered += height >= 2.0F ? 1 : 0;
                    }
                    if (away > crown && canopy.grid.cell_of(middle) != canopy.grid.cell_of(at)) continue;
                    crown_known = crown_known && height;
                    top = std::max(top, static_cast<double>(height.value_or(0.0F)));
                }
            }
            const auto cover = map.about(at);
            ASSERT_EQ(cover.has_value(), known >= 0.9 * cells) << cell << " " << tree;
            EXPECT_EQ(cover.value_or(0.0), cover ? covered / known : 0.0) << cell << " " << tree;
            const auto found = crown_top(canopy, at, crown);
            ASSERT_EQ(found.has_value(), crown_known) << cell << " " << tree;
            EXPECT_NEAR(found.value_or(Metres(0)).value(), found ? top : 0.0, 0.00051) << cell << " " << tree;
            ++(cover && found ? told : not_told);
        }
    }
    EXPECT_GT(told, 20U);
    EXPECT_GT(not_told, 20U);
}

}  // namespace
}  // namespace roostward::canopy
