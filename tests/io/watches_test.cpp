#include <gtest/gtest.h>

#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;

const std::string header =
    "watch,lon,lat,date,start,end,farthest_seen_m,range_m,look_deg,view_deg,temp_c,wind_ms,rain\n";

siting::Inputs with_watches(ReadingSite& site, const std::string& rows) {
    site.put("watches.csv", header + rows);
    site.file.max_bad_share = 0.9;
    siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    return inputs;
}

// Our own rule: an end before its start is the next day; range is half of farthest seen;
// 20 m by eye without either; all round by default.
TEST(Watches, AreReadAsWritten) {
    ReadingSite site;
    const siting::Inputs inputs =
        with_watches(site,
                     "a,-1.8963,52.2979,2026-06-09,21:30,22:50,70,,,,15,1.5,no\n"
                     "b,-1.8963,52.2979,2026-06-09,23:30,00:15,,25,90,120,15 °C,3 m/s,drizzle\n"
                     ",-1.8963,52.2979,2026-06-10,21:30,22:50,200 ft,,,360,,,0.2 mm\n"
                     "d,-1.8963,52.2979,,2026-06-10T21:30,2026-06-10T22:30,,,,,,,\n");
    ASSERT_EQ(inputs.watches.rows.size(), 4U);
    const auto& rows = inputs.watches.rows;
    EXPECT_EQ(rows[0].range.value(), 35.0);
    EXPECT_FALSE(rows[0].view);
    EXPECT_EQ(rows[0].rain, std::optional(false));
    EXPECT_EQ(rows[1].hours().value(), 0.75);
    EXPECT_EQ(rows[1].range.value(), 25.0);
    EXPECT_EQ(rows[1].view->width.value(), 120.0);
    EXPECT_EQ(rows[1].temperature->value(), 15.0);
    EXPECT_EQ(rows[1].wind->value(), 3.0);
    EXPECT_EQ(rows[1].rain, std::optional(true));
    EXPECT_EQ(core::to_text(rows[1].evening), "2026-06-09");
    EXPECT_EQ(rows[2].name, "row 4");
    EXPECT_DOUBLE_EQ(rows[2].range.value(), 30.48);
    EXPECT_FALSE(rows[2].view);
    EXPECT_EQ(rows[2].rain, std::optional(true));
    EXPECT_EQ(rows[3].range.value(), 20.0);
    EXPECT_TRUE(site.found("how far was not told"));
    EXPECT_EQ(core::to_text(*inputs.latest_date), "2026-06-10");
}

// In EPSG:32630 grid north at 1.8963° W, 52.2979° N lies 0.873° east of true north: convergence = Δλ·sin φ to
// this precision (Snyder 1987, USGS Professional Paper 1395, section 8), with Δλ = 3° − 1.8963°.
TEST(Watches, TrueBearingsBecomeGridBearings) {
    ReadingSite site;
    site.put("passes.csv", "time,lon,lat,bearing_deg\n2026-06-09T21:36:16,-1.8956,52.2982,NE\n");
    const siting::Inputs inputs =
        with_watches(site, "b,-1.8963,52.2979,2026-06-09,21:30,22:15,50,,0,120,,,\n");
    EXPECT_NEAR(inputs.watches.rows[0].view->look.value(), 360.0 - 0.873, 0.001);
    EXPECT_NEAR(inputs.passes.rows[0].bearing->value(), 45.0 - 0.873, 0.002);
}

TEST(Watches, ImpossibleOnesAreSetAside) {
    ReadingSite site;
    const siting::Inputs inputs =
        with_watches(site,
                     "a,-1.8963,52.2979,2026-06-09,21:30,22:50,70,,,,,,\n"
                     "b,-1.8963,52.2979,2026-06-09,21:30,21:30,70,,,,,,\n"
                     "c,-1.8963,52.2979,2026-06-09,09:30,22:50,70,,,,,,\n"
                     "d,-1.8963,52.2979,,2026-06-10T21:30,2026-06-10T20:30,70,,,,,,\n"
                     "e,-1.8963,52.2979,2026-06-09,21:30,,70,,,,,,\n"
                     "f,-1.8963,52.2979,2026-06-09,21:30,22:30,70,,,90,,,\n");
    EXPECT_EQ(inputs.watches.rows.size(), 1U);
    for (const char* kind : {"watch of no length", "watch of over 12 hours", "ends before it starts",
                             "no start or end", "no look_deg"}) {
        EXPECT_TRUE(site.found(kind)) << kind;
    }
}

}  // namespace
}  // namespace roostward::io
