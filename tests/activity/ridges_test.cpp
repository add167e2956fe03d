#include "roostward/activity/ridges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

namespace roostward::activity {
namespace {

/// 60 × 60 cells of 1 m, filled with a profile across a line through the middle, `turned` from east.
struct Stripe {
    double turned = 0.0;
    double aside = 0.0;  ///< of the line from the middle, m
    std::function<double(double)> profile;
    core::Grid grid{{0.0, 60.0}, core::Metres(1.0), 60, 60};

    [[nodiscard]] double across(core::PlanePoint p) const {
        return -(p.easting - 30.0) * std::sin(turned) + (p.northing - 30.0) * std::cos(turned) - aside;
    }
    [[nodiscard]] core::PlanePoint centre_of(const RidgePoint& point) const {
        return grid.centre({point.cell / grid.columns, point.cell % grid.columns});
    }
    [[nodiscard]] RidgeField field(double least) const {
        RidgeField made{grid, {}, std::vector<float>(grid.size(), static_cast<float>(least))};
        for (std::size_t i = 0; i < grid.size(); ++i)
            made.value.push_back(static_cast<float>(profile(across(grid.centre({i / 60, i % 60})))));
        return made;
    }
};

double gauss(double x, double s) {
    return std::exp(-x * x / (2.0 * s * s));
}

double normal_share(double x, double s) {
    return 0.5 * std::erfc(-x / (s * std::numbers::sqrt2));
}

double furthest_across(const Stripe& stripe, const Ridge& ridge, double from) {
    double furthest = 0.0;
    for (const RidgePoint& point : ridge)
        furthest = std::max(furthest, std::fabs(stripe.across(point.place) - from));
    return furthest;
}

// Steger 1998: a Gaussian profile's line point is its middle; strength is minus its second derivative, taken
// at the middle of the cell. In any direction, to 0.1 cell.
TEST(Ridges, FindTheMiddleOfAGaussianProfileToATenthOfACell) {
    for (const double width : {3.0, 5.0})
        for (int k = 0; k < 24; ++k) {
            const double turned = k * std::numbers::pi / 24.0, aside = 0.37 * k - 4.0;
            const Stripe stripe{turned, aside, [width](double x) { return gauss(x, width); }};
            const auto ridges = find_ridges(stripe.field(0.2 / (width * width)), 1.0, core::Threads{1});
            ASSERT_EQ(ridges.size(), 1U) << "turned " << turned;
            EXPECT_LT(furthest_across(stripe, ridges[0], 0.0), 0.1);
            for (const RidgePoint& point : ridges[0]) {
                const double x = stripe.across(stripe.centre_of(point)) / width;
                EXPECT_NEAR(point.strength * width * width, (1.0 - x * x) * gauss(x, 1.0), 0.01);
            }
            EXPECT_GT(core::distance(ridges[0].front().place, ridges[0].back().place).value(), 45.0);
        }
}

// Steger 1998, bar profiles of half-width w smoothed by a Gaussian of width s: r = φ(x + w) − φ(x − w) has
// its line point at 0 with r'' = −2w/(√(2π) s³) e^(−w²/2s²); a bar with the second side at a share a of the
// first, r = φ(x + w) + (a − 1) φ(x − w), has it at −s²/(2w) ln(1 − a).
TEST(Ridges, FindTheLinePointOfASmoothedBar) {
    constexpr double s = 3.0, w = 2.5;
    for (const double a : {0.0, 0.2, 0.5}) {
        const Stripe stripe{
            0.4, 1.3, [a](double x) { return normal_share(x + w, s) + (a - 1.0) * normal_share(x - w, s); }};
        const auto ridges = find_ridges(stripe.field(0.01), 1.0, core::Threads{1});
        ASSERT_EQ(ridges.size(), 1U);
        EXPECT_LT(furthest_across(stripe, ridges[0], -s * s / (2.0 * w) * std::log(1.0 - a)), 0.1);
        if (a > 0.0) continue;
        const double strength =
            2.0 * w / (std::sqrt(2.0 * std::numbers::pi) * s * s * s) * std::exp(-w * w / (2.0 * s * s));
        const auto nearest = std::ranges::min_element(ridges[0], {}, [&](const RidgePoint& point) {
            return std::fabs(stripe.across(stripe.centre_of(point)));
        });
        EXPECT_NEAR(nearest->strength / strength, 1.0, 0.01);
    }
}

// A valley, a slope and a plain have no line point (Steger 1998: lines are where the curvature is negative).
TEST(Ridges, AreNotFoundInValleysSlopesAndPlains) {
    for (const auto& profile : {std::function<double(double)>([](double x) { return -gauss(x, 4.0); }),
                                std::function<double(double)>([](double x) { return 0.1 * x; }),
                                std::function<double(double)>([](double) { return 1.0; })}) {
        const Stripe stripe{0.7, 0.0, profile};
        EXPECT_TRUE(find_ridges(stripe.field(1e-4), 1.0, core::Threads{1}).empty());
    }
}

// Hysteresis: strength falls along the line, from 1/s² in the west to a tenth of it in the east. A line that
// starts at 0.5 and goes on at 0.3 ends where the strength is 0.3: at 47 m.
TEST(Ridges, GoOnToTheSecondThreshold) {
    Stripe stripe{0.0, 0.25, [](double x) { return gauss(x, 4.0); }};
    RidgeField field = stripe.field(0.3 / 16.0);
    for (std::size_t i = 0; i < field.value.size(); ++i)
        field.value[i] *= static_cast<float>(1.0 - 0.9 * field.grid.centre({0, i % 60}).easting / 60.0);
    const auto ridges = find_ridges(field, 0.5 / 0.3, core::Threads{1});
    ASSERT_EQ(ridges.size(), 1U);
    const auto [west, east] = std::minmax(ridges[0].front().place.easting, ridges[0].back().place.easting);
    EXPECT_NEAR(west, 2.5, 0.6);
    EXPECT_NEAR(east, 46.7, 1.5);
    EXPECT_TRUE(find_ridges(field, 1.2 / 0.3, core::Threads{1}).empty());
}

// Two lines that cross: the stronger goes through, the weaker ends on it from both sides.
TEST(Ridges, EndWhereTheyMeetAStrongerOne) {
    const core::Grid grid{{0.0, 60.0}, core::Metres(1.0), 60, 60};
    RidgeField field{grid, {}, std::vector<float>(grid.size(), 0.1F / 9.0F)};
    for (std::size_t i = 0; i < grid.size(); ++i) {
        const core::PlanePoint p = grid.centre({i / 60, i % 60});
        field.value.push_back(
            static_cast<float>(gauss(p.northing - 30.2, 3.0) + 0.5 * gauss(p.easting - 29.8, 3.0)));
    }
    const auto ridges = find_ridges(field, 1.0, core::Threads{1});
    ASSERT_EQ(ridges.size(), 3U);
    EXPECT_GT(std::fabs(ridges[0].front().place.easting - ridges[0].back().place.easting), 50.0);
    for (std::size_t i = 1; i < 3; ++i) {
        const double one = std::fabs(ridges[i].front().place.northing - 30.2);
        const double other = std::fabs(ridges[i].back().place.northing - 30.2);
        EXPECT_LT(std::min(one, other), 6.0);
        EXPECT_GT(std::max(one, other), 20.0);
    }
}

TEST(Ridges, AreTheSameForAnyNumberOfThreads) {
    const Stripe stripe{1.1, 0.4, [](double x) { return gauss(x, 4.0) * (1.0 + 0.1 * std::sin(x)); }};
    const auto one = find_ridges(stripe.field(0.001), 1.0, core::Threads{1});
    const auto seven = find_ridges(stripe.field(0.001), 1.0, core::Threads{7});
    ASSERT_EQ(one.size(), seven.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
        ASSERT_EQ(one[i].size(), seven[i].size());
        for (std::size_t j = 0; j < one[i].size(); ++j)
            EXPECT_EQ(one[i][j].place, seven[i][j].place);
    }
}

}  // namespace
}  // namespace roostward::activity
