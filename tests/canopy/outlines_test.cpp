#include "roostward/canopy/outlines.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "canopy/drawn.hpp"

namespace roostward::canopy {
namespace {

using core::PlanePoint;

constexpr GapSettings smallest{core::Metres(2.0), core::SquareMetres(1.0)};

geo::Line line(std::vector<PlanePoint> points) {
    return points;
}

double length_of(const geo::Polygon& polygon) {
    double length = geo::length_of(polygon.outer).value();
    for (const geo::Line& hole : polygon.holes)
        length += geo::length_of(hole).value();
    return length;
}

TEST(Outlines, GoRoundTheCellsOfAGap) {
    const auto outlines = outlines_of(find_gaps(drawn({"####", "#..#", "#.##", "####"}), smallest));
    ASSERT_EQ(outlines.size(), 1U);
    EXPECT_EQ(outlines[0].outer, line({{1, 3}, {1, 1}, {2, 1}, {2, 2}, {3, 2}, {3, 3}, {1, 3}}));
    EXPECT_TRUE(outlines[0].holes.empty());
}

TEST(Outlines, LeaveHolesWhereCanopyStandsInAGap) {
    const auto outlines =
        outlines_of(find_gaps(drawn({"....", ".##.", "...."}, core::Metres(0.5)), smallest));
    ASSERT_EQ(outlines.size(), 1U);
    EXPECT_EQ(outlines[0].outer, line({{0, 1.5}, {0, 0}, {2, 0}, {2, 1.5}, {0, 1.5}}));
    ASSERT_EQ(outlines[0].holes.size(), 1U);
    EXPECT_EQ(outlines[0].holes[0], line({{0.5, 0.5}, {0.5, 1}, {1.5, 1}, {1.5, 0.5}, {0.5, 0.5}}));
    EXPECT_NEAR(geo::area_of(outlines).value(), 2.5, 1e-12);
}

/// A gap whose ends meet at a corner, one with two trees in it that do, and two gaps that do.
TEST(Outlines, AreValidWhereCellsMeetAtACorner) {
    for (const std::vector<std::string>& rows :
         {std::vector<std::string>{"....", ".##.", ".#.#", "..##", "####"},
          std::vector<std::string>{"....", ".#..", "..#.", "...."},
          std::vector<std::string>{"..##", "..##", "##..", "##.."},
          std::vector<std::string>{"...#.", ".#.#.", "..#..", "#....", "..#.#"}}) {
        const GapMap gaps = find_gaps(drawn(rows), smallest);
        const auto outlines = outlines_of(gaps);
        ASSERT_EQ(outlines.size(), gaps.area.size());
        EXPECT_FALSE(geo::repaired(outlines).changed) << rows[0];
        for (std::size_t i = 0; i < outlines.size(); ++i)
            EXPECT_NEAR(geo::area_of({outlines[i]}).value(), gaps.area[i].value(), 1e-9) << rows[0];
    }
}

TEST(Outlines, OfNoGapAreNone) {
    EXPECT_TRUE(outlines_of(find_gaps(drawn({"###", "?##"}), smallest)).empty());
    EXPECT_TRUE(outlines_of({}).empty());
}

// Reference: GDAL's Polygonize, see tests/reference/canopy/SOURCE.
TEST(Outlines, AreThoseOfGdal) {
    const auto folder = std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "tests/reference/canopy";
    GapMap gaps{{{0.0, 90.0}, core::Metres(1.0), 90, 120}, {}, {}};
    std::ifstream labels(folder / "labels.txt"), areas(folder / "areas.txt"), known(folder / "outlines.txt");
    for (std::uint32_t label = 0; labels >> label;)
        gaps.label.push_back(label);
    for (double area = 0.0; areas >> area;)
        gaps.area.emplace_back(area);
    ASSERT_EQ(gaps.label.size(), gaps.grid.size());
    const auto outlines = outlines_of(gaps);
    std::size_t compared = 0;
    for (std::string row; std::getline(known, row); ++compared) {
        std::istringstream numbers(row);
        std::size_t gap = 0, holes = 0;
        double area = 0.0, length = 0.0;
        numbers >> gap >> area >> length >> holes;
        std::vector<std::pair<double, double>> wanted, ours;
        for (double x = 0.0, y = 0.0; numbers >> x >> y;)
            wanted.emplace_back(x, y);
        const geo::Polygon& outline = outlines.at(gap - 1);
        const auto add = [&ours](const geo::Line& ring) {
            for (std::size_t i = 1; i < ring.size(); ++i)
                ours.emplace_back(ring[i].easting, ring[i].northing);
        };
        add(outline.outer);
        for (const geo::Line& hole : outline.holes)
            add(hole);
        std::ranges::sort(ours);
        EXPECT_EQ(geo::area_of({outline}).value(), area) << gap;
        EXPECT_EQ(length_of(outline), length) << gap;
        EXPECT_EQ(outline.holes.size(), holes) << gap;
        EXPECT_EQ(ours, wanted) << gap;
    }
    EXPECT_EQ(compared, outlines.size());
    EXPECT_EQ(compared, 25U);
}

}  // namespace
}  // namespace roostward::canopy
