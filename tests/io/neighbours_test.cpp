#include <gtest/gtest.h>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;

TEST(Lamps, AreReadWithTheirUnits) {
    ReadingSite site;
    site.put("lamps.csv",
             "lon,lat,lumens,lux_at_10m,height (ft)\n-1.8963,52.2979,4000,,20\n-1.8960,52.2979,,12.5,\n"
             "-1.8961,52.2979,0,0,0\n-1.8962,52.2979,bright,,5\n,52.2979,,,\n");
    site.file.max_bad_share = 0.9;
    site.file.lamps = testing::source_of("lamps", site.folder / "lamps.csv");
    site.file.lamps->fields["height_m"] = {"height (ft)", "ft", {}, {}};
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    const auto& lamps = inputs.lamps.rows;
    ASSERT_EQ(lamps.size(), 4U);
    EXPECT_EQ(lamps[0].lumens, trees::Lumens(4000));
    EXPECT_FALSE(lamps[0].lux_at_10m);
    EXPECT_DOUBLE_EQ(lamps[0].height->value(), 6.096);
    EXPECT_EQ(lamps[1].lux_at_10m, trees::Lux(12.5));
    EXPECT_FALSE(lamps[2].lumens || lamps[2].lux_at_10m || lamps[2].height) << "0 means unknown";
    EXPECT_FALSE(lamps[3].lumens);
    EXPECT_TRUE(site.found("not a number"));
    EXPECT_GT(lamps[0].position.northing, 5e6) << "in the planning plane";
}

TEST(Roosts, AreReadWithDateAndCount) {
    ReadingSite site;
    site.put("roosts.csv",
             "roost,lon,lat,date,count\noak,-1.8963,52.2979,2026-06-09,4\nelm,-1.8960,52.2979,,\n");
    site.file.roosts = testing::source_of("roosts", site.folder / "roosts.csv");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    const auto& roosts = inputs.roosts.rows;
    ASSERT_EQ(roosts.size(), 2U);
    EXPECT_EQ(roosts[0].count, 4.0);
    EXPECT_EQ(core::to_text(*roosts[0].date), "2026-06-09");
    EXPECT_EQ(roosts[0].row, 2U);
    EXPECT_FALSE(roosts[1].count || roosts[1].date);
}

}  // namespace
}  // namespace roostward::io
