#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

#include "roostward/core/grid.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"

namespace roostward::core {
namespace {

// Misuse must not build; its corrected twin must.
template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
static_assert(!std::is_convertible_v<Degrees, Metres> && !std::is_constructible_v<Metres, Degrees>);
static_assert(!std::is_convertible_v<double, Metres> && std::is_constructible_v<Metres, double>);
static_assert(!Addable<Metres, Hours> && Addable<Metres, Metres>);

TEST(Point, BearingsRunClockwiseFromNorth) {
    const PlanePoint here{100.0, 200.0};
    EXPECT_DOUBLE_EQ(grid_bearing(here, {100.0, 300.0}).value(), 0.0);
    EXPECT_DOUBLE_EQ(grid_bearing(here, {200.0, 200.0}).value(), 90.0);
    EXPECT_DOUBLE_EQ(grid_bearing(here, {0.0, 200.0}).value(), 270.0);
    const PlanePoint there = moved(here, Degrees(135.0), Metres(10.0));
    EXPECT_NEAR(distance(here, there).value(), 10.0, 1e-12);
    EXPECT_NEAR(grid_bearing(here, there).value(), 135.0, 1e-10);
}

TEST(Point, AnglesAtTheirEdges) {
    EXPECT_DOUBLE_EQ(normalised(Degrees(360.0)).value(), 0.0);
    EXPECT_DOUBLE_EQ(normalised(Degrees(-90.0)).value(), 270.0);
    EXPECT_LT(normalised(Degrees(-1e-20)).value(), 360.0);
    EXPECT_DOUBLE_EQ(turn_between(Degrees(350.0), Degrees(20.0)).value(), 30.0);
    EXPECT_DOUBLE_EQ(turn_between(Degrees(0.0), Degrees(180.0)).value(), 180.0);
}

TEST(Grid, EdgesBelongToOneCell) {
    const Grid grid{{10.0, 50.0}, Metres(2.0), 5, 3};
    EXPECT_EQ(grid.cell_of({10.0, 50.0}), (Cell{0, 0}));
    EXPECT_EQ(grid.cell_of({12.0, 48.0}), (Cell{1, 1}));
    EXPECT_FALSE(grid.cell_of({16.0, 45.0}).has_value());
    EXPECT_FALSE(grid.cell_of({11.0, 40.0}).has_value());
    EXPECT_FALSE(grid.cell_of({9.999, 45.0}).has_value());
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column)
            EXPECT_EQ(grid.cell_of(grid.centre({row, column})), (Cell{row, column}));
}

TEST(Grid, CoversItsBoxInWholeCells) {
    const Grid grid = grid_over({{-3.5, 1.0}, {4.1, 9.0}}, Metres(2.0));
    EXPECT_EQ(grid.columns, 5U);
    EXPECT_EQ(grid.rows, 5U);
    EXPECT_DOUBLE_EQ(grid.box().south_west.easting, -4.0);
    EXPECT_DOUBLE_EQ(grid.box().south_west.northing, 0.0);
    EXPECT_DOUBLE_EQ(grid.box().north_east.easting, 6.0);
    EXPECT_DOUBLE_EQ(grid.box().north_east.northing, 10.0);
}

TEST(Raster, UnknownCellsHaveNoValue) {
    const Raster raster{{{0.0, 1.0}, Metres(1.0), 1, 2}, {7.0F, 8.0F}, {1, 0}};
    EXPECT_EQ(raster.at({0.5, 0.5}), 7.0F);
    EXPECT_FALSE(raster.at({1.5, 0.5}).has_value());
    EXPECT_FALSE(raster.at({2.5, 0.5}).has_value());
}

TEST(Time, WrittenAsIso8601) {  // ISO 8601-1:2019, complete calendar date and UTC time
    const Date date{std::chrono::year(2026), std::chrono::month(6), std::chrono::day(2)};
    EXPECT_EQ(to_text(date), "2026-06-02");
    const Instant instant = Instant(std::chrono::sys_days(date)) + std::chrono::milliseconds(75'723'050);
    EXPECT_EQ(to_text(instant), "2026-06-02T21:02:03.050Z");
    EXPECT_DOUBLE_EQ(hours_between(instant, instant + std::chrono::minutes(90)).value(), 1.5);
}

}  // namespace
}  // namespace roostward::core
