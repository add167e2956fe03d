#include "roostward/canopy/canopy.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numeric>
#include <string>

#include "canopy/drawn.hpp"
#include "roostward/core/random.hpp"

namespace roostward::canopy {
namespace {

using core::Metres;
using core::SquareMetres;

std::vector<std::string> labels(const GapMap& gaps) {
    std::vector<std::string> rows(gaps.grid.rows);
    for (std::size_t row = 0; row < gaps.grid.rows; ++row)
        for (std::size_t column = 0; column < gaps.grid.columns; ++column)
            rows[row] += static_cast<char>('0' + gaps.label[gaps.grid.index({row, column})]);
    return rows;
}

using Drawing = std::vector<std::string>;

// Worked out by eye: corners do not connect, pieces below 3 m² are no gap, gaps are numbered by their first
// cell.
TEST(FindGaps, ConnectsCellsThatShareAnEdge) {
    const GapMap gaps = find_gaps(drawn({"##..#",  //
                                         ".##.#",  //
                                         ".###.",  //
                                         ".#..."}),
                                  {Metres(2.0), SquareMetres(3.0)});
    EXPECT_EQ(labels(gaps), (Drawing{"00110",  //
                                     "20010",  //
                                     "20003",  //
                                     "20333"}));
    EXPECT_EQ(gaps.area, (std::vector{SquareMetres(3.0), SquareMetres(3.0), SquareMetres(4.0)}));
}

TEST(FindGaps, JoinsArmsThatMeetLate) {
    const GapMap gaps = find_gaps(drawn({".#.#.",  //
                                         ".#.#.",  //
                                         ".....",  //
                                         "####."}),
                                  {Metres(2.0), SquareMetres(12.0)});
    EXPECT_EQ(labels(gaps), (Drawing{"10101", "10101", "11111", "00001"}));
    EXPECT_EQ(gaps.area, std::vector{SquareMetres(12.0)});
}

TEST(FindGaps, CountsTheHeightAndTheAreaThemselves) {
    const core::Raster canopy = drawn({"22", "22", "33"});
    EXPECT_EQ(labels(find_gaps(canopy, {Metres(2.0), SquareMetres(4.0)})), (Drawing{"11", "11", "00"}));
    EXPECT_EQ(labels(find_gaps(canopy, {Metres(1.99), SquareMetres(1.0)})), (Drawing{"00", "00", "00"}));
    EXPECT_EQ(labels(find_gaps(canopy, {Metres(2.0), SquareMetres(4.01)})), (Drawing{"00", "00", "00"}));
}

TEST(FindGaps, CountsThresholdsThatBinaryNumbersMiss) {
    core::Raster canopy = drawn({"....", "....", "....", "...."}, Metres(0.3));
    for (float& height : canopy.values)
        height = 2.1F;
    // 16 cells of 0.09 m² are 1.44 m².
    const GapMap gaps = find_gaps(canopy, {Metres(2.1), SquareMetres(1.44)});
    ASSERT_EQ(gaps.area.size(), 1U);
    EXPECT_NEAR(gaps.area[0].value(), 1.44, 1e-12);
}

TEST(FindGaps, NeverTakesUnknownCellsForAGap) {
    const GapMap gaps = find_gaps(drawn({"..?..", "..?.."}), {Metres(2.0), SquareMetres(4.0)});
    EXPECT_EQ(labels(gaps), (Drawing{"11022", "11022"}));
    EXPECT_TRUE(find_gaps(drawn({"???", "???"}), {Metres(2.0), SquareMetres(1.0)}).area.empty());
}

TEST(FindGaps, TakesAnEmptyRaster) {
    EXPECT_TRUE(find_gaps({}, {}).label.empty());
}

/// Another way to label: spread from each open cell in turn over an explicit stack.
std::vector<std::uint32_t> flooded(const core::Raster& canopy, float height, std::size_t fewest) {
    const auto rows = static_cast<long>(canopy.grid.rows);
    const auto columns = static_cast<long>(canopy.grid.columns);
    const auto open = [&](long row, long column) {
        if (row < 0 || column < 0 || row >= rows || column >= columns) return false;
        const auto cell = static_cast<std::size_t>(row * columns + column);
        return canopy.known[cell] != 0 && canopy.values[cell] <= height;
    };
    std::vector<std::uint32_t> label(canopy.grid.size(), 0);
    std::vector<bool> seen(label.size(), false);
    std::uint32_t next = 1;
    for (long start = 0; start < rows * columns; ++start) {
        std::vector<long> piece;
        std::vector<long> stack{start};
        while (!stack.empty()) {
            const long cell = stack.back();
            stack.pop_back();
            if (!open(cell / columns, cell % columns) || seen[static_cast<std::size_t>(cell)]) continue;
            seen[static_cast<std::size_t>(cell)] = true;
            piece.push_back(cell);
            if (cell % columns > 0) stack.push_back(cell - 1);
            if (cell % columns < columns - 1) stack.push_back(cell + 1);
            if (cell >= columns) stack.push_back(cell - columns);
            if (cell < (rows - 1) * columns) stack.push_back(cell + columns);
        }
        if (piece.size() < fewest) continue;
        for (const long cell : piece)
            label[static_cast<std::size_t>(cell)] = next;
        ++next;
    }
    return label;
}

TEST(FindGaps, AgreesWithAFloodFill) {
    core::RandomStream random(7, "gaps");
    for (int park = 0; park < 60; ++park) {
        core::Raster canopy;
        canopy.grid = {{0, 0}, Metres(1.0), 1 + random.below(40), 1 + random.below(40)};
        const double open_share = random.uniform(0.2, 0.9);
        for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
            canopy.values.push_back(random.uniform() < open_share ? 1.0F : 8.0F);
            canopy.known.push_back(random.uniform() < 0.95 ? 1 : 0);
        }
        const std::size_t fewest = 1 + random.below(6);
        const GapMap gaps = find_gaps(canopy, {Metres(2.0), SquareMetres(static_cast<double>(fewest))});
        EXPECT_EQ(gaps.label, flooded(canopy, 2.0F, fewest));
        // Law: the gaps' areas are the labelled cells, each counted once.
        const double labelled = static_cast<double>(std::count_if(
            gaps.label.begin(), gaps.label.end(), [](std::uint32_t label) { return label != 0; }));
        const double areas =
            std::accumulate(gaps.area.begin(), gaps.area.end(), 0.0,
                            [](double sum, SquareMetres area) { return sum + area.value(); });
        EXPECT_EQ(areas, labelled);
    }
}

std::vector<int> numbers_in(const std::string& file) {
    std::ifstream in(std::string(ROOSTWARD_SOURCE_DIR) + "/tests/reference/canopy/" + file);
    std::vector<int> numbers;
    for (int number = 0; in >> number;)
        numbers.push_back(number);
    return numbers;
}

// Reference: SciPy's ndimage.label, see tests/reference/canopy/SOURCE.
struct BesideSciPy : testing::Test {
    static constexpr std::size_t rows = 90, columns = 120;
    std::vector<int> decimetres = numbers_in("heights.txt");
    std::vector<int> labels = numbers_in("labels.txt");
    core::Raster canopy;
    GapMap gaps;

    BesideSciPy() {
        canopy.grid = {{0, 0}, Metres(1.0), rows, columns};
        for (const int height : decimetres) {
            canopy.values.push_back(static_cast<float>(height) / 10.0F);
            canopy.known.push_back(height < 0 ? 0 : 1);
        }
        canopy.values.resize(rows * columns);
        canopy.known.resize(rows * columns);
        gaps = find_gaps(canopy, {});
    }
    [[nodiscard]] std::optional<SquareMetres> area_at(std::size_t row, std::size_t column) const {
        const std::uint32_t label = gaps.label[canopy.grid.index({row, column})];
        return label == 0 ? std::nullopt : std::optional(gaps.area[label - 1]);
    }
};

TEST_F(BesideSciPy, LabelsAndAreasOfGapsAreTheSame) {
    ASSERT_EQ(decimetres.size(), rows * columns);
    EXPECT_EQ(std::vector<int>(gaps.label.begin(), gaps.label.end()), labels);
    std::vector<int> areas;
    for (const SquareMetres area : gaps.area)
        areas.push_back(static_cast<int>(area.value()));
    EXPECT_EQ(areas, numbers_in("areas.txt"));
    EXPECT_EQ(areas.size(), 25U);
}

// The plots that the script draws: 25 m² that wind, with cells just 2 m high; 24 m² about a cell of 2.1 m; 24
// m² about an unknown cell; twice 16 m² that meet at a corner.
TEST_F(BesideSciPy, GapsBeginAtTwentyFiveSquareMetres) {
    EXPECT_EQ(area_at(5, 7), SquareMetres(25));
    EXPECT_EQ(area_at(11, 10), SquareMetres(25));
    EXPECT_FALSE(area_at(5, 41));
    EXPECT_FALSE(area_at(5, 71));
    EXPECT_FALSE(area_at(71, 51) || area_at(75, 55));
}

TEST_F(BesideSciPy, UnknownCellsAreInNoGap) {
    std::size_t unknown = 0;
    for (std::size_t i = 0; i < gaps.label.size(); ++i) {
        if (canopy.known[i] != 0) continue;
        ++unknown;
        EXPECT_EQ(gaps.label[i], 0U) << i;
    }
    EXPECT_EQ(unknown, 361U);
}

struct GapAtTest : testing::Test {
    // The stem stands in the middle of cell (2, 2), at (2.5, 2.5); canopy centres lie 2 m north and 2.24 m
    // off.
    core::Raster canopy = drawn({".###.",  //
                                 ".....",  //
                                 ".....",  //
                                 ".....",  //
                                 "....."});
    GapMap gaps = find_gaps(canopy, {Metres(2.0), SquareMetres(20.0)});
    core::PlanePoint stem{2.5, 2.5};

    [[nodiscard]] std::optional<GapAt> at(core::PlanePoint place, double reach) const {
        return gap_at(gaps, canopy, Metres(2.0), place, Metres(reach));
    }
};

TEST_F(GapAtTest, MeasuresToTheNearestCanopy) {
    const auto gap = at(stem, 5.0);
    ASSERT_TRUE(gap);
    EXPECT_EQ(gap->area, SquareMetres(22.0));
    EXPECT_EQ(gap->to_canopy, Metres(2.0));
    EXPECT_EQ(gap->looked, Metres(5.0));
    EXPECT_NEAR(at({0.1, 2.5}, 5.0)->to_canopy.value(), std::hypot(1.4, 2.0), 1e-12);
}

TEST_F(GapAtTest, LooksNoFurtherThanToldAndOverTheEdgeOfTheRaster) {
    EXPECT_EQ(at(stem, 1.5)->to_canopy, Metres(1.5));
    EXPECT_EQ(at({0.5, 0.5}, 100.0)->to_canopy, Metres(std::hypot(1.0, 4.0)));
    EXPECT_EQ(at(stem, 0.0)->to_canopy, Metres(0.0));
}

TEST_F(GapAtTest, IsEmptyUnderCanopyAndOffTheRaster) {
    EXPECT_FALSE(at({2.5, 4.5}, 5.0));
    EXPECT_FALSE(at({-1.0, 2.5}, 5.0));
    EXPECT_FALSE(at({2.5, 5.5}, 5.0));
}

TEST_F(GapAtTest, TakesUnknownCellsNeitherForCanopyNorForAGap) {
    canopy = drawn({"?????", ".....", "....."});
    gaps = find_gaps(canopy, {Metres(2.0), SquareMetres(10.0)});
    EXPECT_FALSE(at({2.5, 2.5}, 5.0));
    EXPECT_EQ(at({2.5, 0.5}, 5.0)->to_canopy, Metres(5.0));
}

}  // namespace
}  // namespace roostward::canopy
