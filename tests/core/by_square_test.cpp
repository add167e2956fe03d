#include "roostward/core/by_square.hpp"

#include <gtest/gtest.h>

namespace roostward::core {
namespace {

// By hand: squares of 10 m. (12, 1) and (19, 9) share the second square of the first row; (-1, 3) lies west
// of the first, (4, 11) in the row above.
TEST(BySquare, PutsNeighboursTogetherRowByRow) {
    const std::vector<PlanePoint> points{{12.0, 1.0}, {4.0, 11.0}, {-1.0, 3.0}, {19.0, 9.0}, {3.0, 3.0}};
    const Squares squares = by_square(points, Metres(10.0));
    EXPECT_EQ(squares.order, (std::vector<std::size_t>{2, 4, 0, 3, 1}));
    EXPECT_EQ(squares.start, (std::vector<std::size_t>{0, 1, 2, 4, 5}));
    EXPECT_EQ(by_square({}, Metres(10.0)).size(), 0U);
}

}  // namespace
}  // namespace roostward::core
