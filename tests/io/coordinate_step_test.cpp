#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "io/reading_site.hpp"

// A minute of latitude is a nautical mile of 1852 m, to 0.5 % (International Hydrographic Conference 1929),
// so that 0.0001° is 11.1 m.
namespace roostward::io {
namespace {

/// Thirty passes some metres from one another, their coordinates written with so many decimals.
std::string passes(int decimals) {
    std::string text = "time,lon,lat\n";
    for (int i = 0; i < 30; ++i)
        text += fmt::format("2026-06-09T21:{:02}:16,{:.{}f},{:.{}f}\n", 31 + i % 29, -1.89567 + 7.3e-5 * i,
                            decimals, 52.29823 + 6.7e-5 * i, decimals);
    return text;
}

TEST(CoordinateStep, IsFoundInMetresOfThePlaneAndTold) {
    testing::ReadingSite site;
    site.put("passes.csv", passes(4));
    const siting::Inputs inputs = site.read();
    EXPECT_NEAR(inputs.passes.step.value(), 11.1, 0.06);
    EXPECT_TRUE(site.found("coordinates rounded to a step"));
}

TEST(CoordinateStep, IsNoneWhereAllDigitsWereGiven) {
    testing::ReadingSite site;
    site.put("passes.csv", passes(7));
    EXPECT_EQ(site.read().passes.step.value(), 0.0);
    EXPECT_FALSE(site.found("coordinates rounded to a step"));
}

TEST(CoordinateStep, NeedsEnoughPlacesToShow) {
    testing::ReadingSite site;
    site.put("passes.csv",
             "time,lon,lat\n2026-06-09T21:36:16,-1.8956,52.2982\n2026-06-09T21:37:16,-1.8957,52.2983\n");
    EXPECT_EQ(site.read().passes.step.value(), 0.0);
}

}  // namespace
}  // namespace roostward::io
