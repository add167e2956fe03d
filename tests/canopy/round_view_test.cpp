#include "roostward/canopy/round_view.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "canopy/drawn.hpp"
#include "roostward/core/random.hpp"

namespace roostward::canopy {
namespace {

using core::Degrees;
using core::Metres;
using core::PlanePoint;

constexpr std::size_t north = 0, east = 18, south = 36, west = 54;

/// A drawing in the middle of wide bare ground, so that every ray comes to its end; the drawing's middle cell
/// is centred on (100.5, 100.5).
core::Raster in_the_open(const std::vector<std::string>& rows) {
    constexpr std::size_t side = 201;
    std::vector<std::string> ground(side, std::string(side, '.'));
    const std::size_t top = (side - rows.size()) / 2, left = (side - rows.front().size()) / 2;
    for (std::size_t row = 0; row < rows.size(); ++row)
        ground[top + row].replace(left, rows[row].size(), rows[row]);
    return drawn(ground);
}

Entrance at(double height, double crown_radius) {
    return {{100.5, 100.5}, Metres(height), Metres(crown_radius)};
}

Slopes as_steep_as(double tangent) {
    Slopes slopes{};
    slopes.fill(tangent);
    return slopes;
}

RoundView look_round_in(const core::Raster& canopy_height, const Entrance& entrance,
                        const Slopes& steep_enough = as_steep_as(std::numeric_limits<double>::infinity())) {
    return look_round(BlockTops(canopy_height, core::Threads{1}), entrance, steep_enough);
}

double degrees_of(double tangent) {
    return std::atan(tangent) * 180.0 / std::numbers::pi;
}

// By hand: from the middle of the 1 m cell of the trunk (the '9') the east's wall, 9 m high, begins 2.5 m
// away, the west's hedge, 4 m high, is lower than the entrance at 4.5 m. Its top is 4.5 m above the entrance.
TEST(RoundView, SeesAWallAndLooksOverAHedge) {
    const auto view = look_round_in(in_the_open({".......",  //
                                                 "......#",  //
                                                 ".4.9..#",  //
                                                 "......#",  //
                                                 "......."}),
                                    at(4.5, 1.0));
    EXPECT_FLOAT_EQ(view.clear[east], 2.5F);
    EXPECT_NEAR(view.horizon[east], degrees_of(4.5 / 2.5), 1e-4);
    for (const std::size_t ray : {north, south, west}) {
        EXPECT_FLOAT_EQ(view.clear[ray], 20.0F);
        EXPECT_EQ(view.horizon[ray], 0.0F);
    }
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(90), Degrees(30))), Metres(2.5));
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(270), Degrees(30))), Metres(20));
}

// Its own crown is no obstacle up to its radius. The neighbour's crown touches it in the north, and counts
// from the radius on; in the south a gap of one cell parts them, so that it counts although it is as near.
TEST(RoundView, LeavesOutTheOwnCrownOnly) {
    const auto view = look_round_in(in_the_open({".#.",  //
                                                 ".#.",  //
                                                 ".#.",  //
                                                 ".#.",  //
                                                 ".#.",  //
                                                 ".#.",  //
                                                 "...",  //
                                                 ".#.",  //
                                                 ".#.",  //
                                                 "...",  //
                                                 "..."}),
                                    at(4.5, 4.0));
    EXPECT_FLOAT_EQ(view.clear[north], 4.5F);  // the first cell edge beyond 4 m
    EXPECT_FLOAT_EQ(view.clear[south], 1.5F);
}

TEST(RoundView, DoesNotKnowWhatLiesInOrBehindUnknownGround) {
    const auto view = look_round_in(in_the_open({".......",  //
                                                 "?..9.#?",  //
                                                 "......."}),
                                    at(4.5, 1.0));
    EXPECT_TRUE(std::isnan(view.clear[west]));
    EXPECT_TRUE(std::isnan(view.horizon[west]));
    EXPECT_FLOAT_EQ(view.clear[east], 1.5F);
    EXPECT_TRUE(std::isnan(view.horizon[east]));
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(270), Degrees(2.5))), std::nullopt);
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(0), Degrees(30))), Metres(20));
}

TEST(RoundView, KnowsNothingBeyondTheModel) {
    const auto view = look_round_in(drawn({"...", "...", "..."}), {{1.5, 1.5}, Metres(4.5), Metres(3.0)});
    EXPECT_TRUE(std::isnan(view.clear[north]));
    EXPECT_TRUE(std::isnan(look_round_in(drawn({"."}), {{5.0, 5.0}, Metres(4.5), Metres(3.0)}).clear[east]));
}

// By hand, to the east: the hedge of 6 m begins 1.5 m away and rises 1.5 m over the entrance, a slope of 1;
// the wall of 9 m begins 3.5 m away and rises 4.5 m, a slope of 1.29, which shuts out more of the sky.
TEST(RoundView, TheHorizonIsTheSteepestAndNotTheNearest) {
    const auto view = look_round_in(in_the_open({".........",  //
                                                 "....9.6.#",  //
                                                 "........."}),
                                    at(4.5, 1.0));
    EXPECT_FLOAT_EQ(view.clear[east], 1.5F);
    EXPECT_NEAR(view.horizon[east], degrees_of(4.5 / 3.5), 1e-4);
}

// By hand: north-east leaves the trunk's cell at its corner and comes to the block's corner, three cells on,
// after 2.5 m · √2; the beam beside the trunk ends at just the entrance's height and is looked over.
TEST(RoundView, SeesACornerAndLooksOverWhatIsJustAsHigh) {
    const auto view = look_round_in(in_the_open({"......#",  //
                                                 ".......",  //
                                                 ".......",  //
                                                 "...94..",  //
                                                 ".......",  //
                                                 ".......",  //
                                                 "......."}),
                                    at(4.0, 0.4));
    EXPECT_NEAR(view.clear[9], 2.5 * std::numbers::sqrt2, 1e-5);
    EXPECT_NEAR(view.horizon[9], degrees_of(5.0 / (2.5 * std::numbers::sqrt2)), 1e-4);
    EXPECT_FLOAT_EQ(view.clear[east], 20.0F);
    EXPECT_EQ(view.horizon[east], 0.0F);
}

// By hand: the cell in the north is seen 6.3° to either side (0.5 m at 4.5 m), so by the rays at 355°, 0° and
// 5°.
TEST(RoundView, AWedgeHoldsTheRaysAtItsEdges) {
    const auto view = look_round_in(in_the_open({".#.",  //
                                                 "...",  //
                                                 "...",  //
                                                 "...",  //
                                                 "...",  //
                                                 ".9.",  //
                                                 "...",  //
                                                 "...",  //
                                                 "...",  //
                                                 "...",  //
                                                 "..."}),
                                    at(4.5, 1.0));
    const double at_five = 4.5 / std::cos(5.0 * std::numbers::pi / 180.0);
    EXPECT_NEAR(clear_in(view, wedge_about(Degrees(35), Degrees(30)))->value(), at_five, 1e-5);
    EXPECT_NEAR(clear_in(view, wedge_about(Degrees(325), Degrees(30)))->value(), at_five, 1e-5);
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(36), Degrees(30))), Metres(20));
    EXPECT_EQ(clear_in(view, wedge_about(Degrees(10), Degrees(30))), Metres(4.5));
}

/// Single crowns on open ground, in so many of 100 cells, up to so high.
template <class IsKnown>
core::Raster strewn(core::RandomStream& random, const core::Grid& grid, double percent, double tallest,
                    const IsKnown& is_known) {
    core::Raster raster;
    raster.grid = grid;
    for (std::size_t i = 0; i < grid.size(); ++i) {
        const bool crown = random.uniform() < percent / 100.0;
        raster.values.push_back(crown ? static_cast<float>(random.uniform(1.0, tallest)) : 0.0F);
        raster.known.push_back(is_known(i) ? 1 : 0);
    }
    return raster;
}

// Wherever the whole horizon is less steep than enough it is told as it is, elsewhere as 90°. What stands in
// the way is told all the same, and so is what is not known.
TEST(RoundView, LooksNoFurtherThanSteepEnough) {
    core::RandomStream random(5, "steep");
    const core::Raster raster = strewn(random, {{0.0, 200.0}, Metres(1.0), 200, 200}, 2.0, 25.0,
                                       [](std::size_t cell) { return cell > 20; });
    std::size_t ended = 0, whole_rays = 0;
    for (int tree = 0; tree < 20; ++tree) {
        const Entrance entrance{
            {random.uniform(20.0, 180.0), random.uniform(20.0, 180.0)}, Metres(4.5), Metres(3.0)};
        const RoundView whole = look_round_in(raster, entrance);
        for (const double enough : {0.0, 0.3, 1.0}) {
            const RoundView view = look_round_in(raster, entrance, as_steep_as(enough));
            for (std::size_t ray = 0; ray < rays; ++ray) {
                SCOPED_TRACE(testing::Message() << tree << ", " << enough << ", " << ray);
                EXPECT_EQ(std::isnan(view.clear[ray]), std::isnan(whole.clear[ray]));
                EXPECT_EQ(std::isnan(view.horizon[ray]), std::isnan(whole.horizon[ray]));
                EXPECT_TRUE(std::isnan(whole.clear[ray]) || view.clear[ray] == whole.clear[ray]);
                if (std::isnan(whole.horizon[ray])) continue;
                const bool shut_out = view.horizon[ray] == 90.0F;
                EXPECT_TRUE(shut_out ? whole.horizon[ray] >= degrees_of(enough) - 1e-4
                                     : view.horizon[ray] == whole.horizon[ray]);
                ++(shut_out ? ended : whole_rays);
            }
        }
    }
    EXPECT_GT(ended, 500U);
    EXPECT_GT(whole_rays, 500U);
}

/// Where the ray enters a cell and leaves it, by clipping against its four sides; empty where it misses.
std::optional<std::pair<double, double>> clipped(PlanePoint from, PlanePoint ahead, PlanePoint centre,
                                                 double half) {
    double enter = 0.0, leave = std::numeric_limits<double>::infinity();
    for (const auto& [start, speed, middle] : {std::tuple{from.easting, ahead.easting, centre.easting},
                                               std::tuple{from.northing, ahead.northing, centre.northing}}) {
        if (std::fabs(speed) < 1e-12) {
            if (std::fabs(start - middle) > half) return std::nullopt;
            continue;
        }
        const double one = (middle - half - start) / speed, other = (middle + half - start) / speed;
        enter = std::max(enter, std::min(one, other));
        leave = std::min(leave, std::max(one, other));
    }
    if (enter >= leave - 1e-9) return std::nullopt;
    return std::pair{enter, leave};
}

// The twin looks at every cell of the raster for every ray.
TEST(RoundView, EqualsABruteForceTwin) {
    core::RandomStream random(7, "canopy");
    const core::Raster raster = strewn(random, {{0.0, 150.0}, Metres(1.5), 100, 100}, 3.0, 20.0,
                                       [&](std::size_t) { return random.uniform() >= 0.002; });
    for (int tree = 0; tree < 10; ++tree) {
        const Entrance entrance{
            {random.uniform(60.0, 90.0), random.uniform(60.0, 90.0)}, Metres(4.5), Metres(3.0)};
        const RoundView view = look_round_in(raster, entrance);
        for (std::size_t ray = 0; ray < rays; ++ray) {
            const PlanePoint ahead = core::moved({0, 0}, bearing_of(ray), Metres(1.0));
            std::vector<std::pair<double, std::size_t>> cells;
            for (std::size_t row = 0; row < raster.grid.rows; ++row)
                for (std::size_t column = 0; column < raster.grid.columns; ++column)
                    if (const auto cut =
                            clipped(entrance.stem, ahead, raster.grid.centre({row, column}), 0.75))
                        if (cut->first < 60.0)
                            cells.emplace_back(cut->first, raster.grid.index({row, column}));
            std::ranges::sort(cells);
            bool own = true, lost = false;
            double first = 1e9, steepest = 0.0, came = 60.0;
            for (const auto& [enter, cell] : cells) {
                if (lost) break;
                lost = raster.known[cell] == 0;
                if (lost) came = enter;
                const double above = static_cast<double>(raster.values[cell]) - 4.5;
                own = own && above > 0.0 && enter < 3.0;
                if (lost || above <= 0.0 || own) continue;
                first = std::min(first, enter);
                steepest = std::max(steepest, above / std::max(enter, 0.75));
            }
            if (first > came && came < 20.0)
                EXPECT_TRUE(std::isnan(view.clear[ray])) << tree << " " << ray;
            else
                EXPECT_NEAR(view.clear[ray], std::min(first, 20.0), 1e-4) << tree << " " << ray;
            if (lost)
                EXPECT_TRUE(std::isnan(view.horizon[ray])) << tree << " " << ray;
            else
                EXPECT_NEAR(view.horizon[ray], degrees_of(steepest), 1e-3) << tree << " " << ray;
        }
    }
}

// Another twin asks for the height at every half millimetre along each ray. It may come to a cell that much
// late, and miss one whose corner the ray only just cuts.
TEST(RoundView, EqualsATwinOfSmallSteps) {
    constexpr double step_m = 0.0005;
    core::RandomStream random(3, "steps");
    core::Raster raster;
    raster.grid = {{0.0, 150.0}, Metres(1.0), 150, 150};
    for (std::size_t i = 0; i < raster.grid.size(); ++i) {
        raster.values.push_back(random.uniform() < 0.02 ? static_cast<float>(random.uniform(3.0, 25.0))
                                                        : 0.0F);
        raster.known.push_back(random.uniform() < 0.001 ? 0 : 1);
    }
    std::size_t rays_alike = 0;
    for (int tree = 0; tree < 2; ++tree) {
        const Entrance entrance{
            {random.uniform(65.0, 85.0), random.uniform(65.0, 85.0)}, Metres(4.5), Metres(4.0)};
        const RoundView view = look_round_in(raster, entrance);
        for (std::size_t ray = 0; ray < rays; ++ray) {
            bool own = true;
            double first = std::numeric_limits<double>::infinity(), came = first, steepest = 0.0,
                   entered = 0.0;
            std::optional<core::Cell> before;
            for (double away = 0.0; away < horizon_looked.value(); away += step_m) {
                const PlanePoint here = core::moved(entrance.stem, bearing_of(ray), Metres(away));
                const auto cell = raster.grid.cell_of(here);
                if (cell == before) continue;
                before = cell;
                entered = away;
                const auto height = raster.at(here);
                if (!height) {
                    came = away;
                    break;
                }
                own = own && *height > 4.5F && entered < 4.0;
                if (own || *height <= 4.5F) continue;
                first = std::min(first, entered);
                steepest = std::max(steepest, (static_cast<double>(*height) - 4.5) / std::max(entered, 0.5));
            }
            const bool clear_known = first < came || came > 20.0;
            const bool clear_alike =
                std::isnan(view.clear[ray]) != clear_known &&
                (!clear_known || std::fabs(view.clear[ray] - std::min(first, 20.0)) < 0.001);
            const bool horizon_alike =
                std::isnan(view.horizon[ray]) != std::isinf(came) &&
                (!std::isinf(came) || std::fabs(view.horizon[ray] - degrees_of(steepest)) < 0.05);
            rays_alike += clear_alike && horizon_alike ? 1 : 0;
        }
    }
    EXPECT_GE(rays_alike, 2 * rays - 1);
}

}  // namespace
}  // namespace roostward::canopy
