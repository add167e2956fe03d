#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

struct TallySite : ReadingSite {
    explicit TallySite(std::string_view text, const std::string& name = "tallies.csv") {
        put(name, text);
        file.tallies = source_of("tallies", folder / name);
        file.max_bad_share = 1.0;
        inputs = read();
        testing::expect_nothing_lost(inputs, findings);
    }
    siting::Inputs inputs;
};

TEST(Tallies, AreReadAsPeopleWriteThem) {
    const TallySite site(
        "watch,date,start,end,count,along,share,both_ways,behaviour\n"
        "avenue,2026-06-09,21:30,22:30,12,creek,mostly,,\n"
        "avenue,2026-06-09,,,7,creek,60 %,no,commuting\n"
        "avenue,,,,0,,,,\n"
        ",2026-06-09,21:30,22:30,3,creek,75,yes,\n"
        "avenue,2026-06-09,23:30,00:30,3,creek,0.2,yes,feeding\n"
        "avenue,,21:30,22:30,3,creek,,,\n");
    EXPECT_TRUE(site.findings.empty());
    const auto& rows = site.inputs.tallies.rows;
    ASSERT_EQ(rows.size(), 6U);
    EXPECT_EQ(rows[0].along, "creek");
    EXPECT_EQ(core::to_text(*rows[0].start), "2026-06-09T20:30:00Z");
    EXPECT_EQ(core::to_text(*rows[0].end), "2026-06-09T21:30:00Z");
    std::vector<double> shares, counts;
    for (const auto& row : rows) {
        shares.push_back(row.share);
        counts.push_back(row.count);
    }
    EXPECT_EQ(shares, (std::vector<double>{0.75, 0.6, 1.0, 0.75, 0.2, 1.0}));
    EXPECT_EQ(counts, (std::vector<double>{12, 7, 0, 3, 3, 3}));
    EXPECT_TRUE(rows[0].both_ways);
    EXPECT_FALSE(rows[1].both_ways);
    EXPECT_FALSE(rows[1].start);
    EXPECT_EQ(core::to_text(*rows[1].evening), "2026-06-09");
    EXPECT_FALSE(rows[2].evening) << "the watch knows";
    EXPECT_EQ(core::to_text(*rows[4].end), "2026-06-09T23:30:00Z") << "past midnight";
    EXPECT_EQ(rows[4].behaviour, survey::Behaviour::foraging);
    EXPECT_EQ(rows[5].start, rows[0].start) << "the date is the watch's";
}

struct BadTally {
    const char* row;
    const char* kind;
    bool used;
};

TEST(Tallies, ThatCannotBeUsedAreSetAside) {
    const std::string header = "watch,date,start,end,count,along,share,both_ways\n";
    for (const BadTally& bad :
         {BadTally{"avenue,,,,,creek,,", "no count", false},
          BadTally{"avenue,,,,several,creek,,", "not a number", false},
          BadTally{"avenue,,,,-3,creek,,", "impossible count", false},
          BadTally{"bridge,,21:30,22:30,3,creek,,", "time without a date", false},
          BadTally{"avenue,2026-06-09,21:30,,3,creek,,", "no start or end", false},
          BadTally{"avenue,2026-06-09,21:30,21:30,3,creek,,", "ends before it starts", false},
          BadTally{",2026-06-09,,,3,creek,,", "no watch", false},
          BadTally{"avenue,,,,3,creek,lots,", "unknown share", false},
          BadTally{"avenue,,,,3,creek,101 %,", "unknown share", false},
          BadTally{"avenue,,,,3,creek,,perhaps", "unknown both_ways", true},
          BadTally{"avenue,,,,3,,half,", "share of no route", true}}) {
        const TallySite site(header + bad.row + "\navenue,,,,1,,,\n");
        EXPECT_TRUE(site.found(bad.kind)) << bad.row;
        EXPECT_EQ(site.findings.size(), 1U) << bad.row;
        EXPECT_EQ(site.inputs.tallies.rows.size(), bad.used ? 2U : 1U) << bad.row;
    }
}

TEST(Tallies, AcrossAGateHaveTwoPosts) {
    const TallySite site(
        "watch,count,lon1,lat1,lon2,lat2\n"
        "avenue,40,-1.8960,52.2980,-1.8960,52.2981\n"
        "avenue,3,,,,\n"
        "avenue,5,-1.8960,52.2980,,\n"
        "avenue,6,-1.8960,52.2980,-1.8960,52.2980\n"
        "avenue,7,52.2980,-1.8960,52.2981,-1.8960\n"
        "avenue,8,-1.8960,52.2979,-1.8960,52.2980\n");
    const auto& rows = site.inputs.tallies.rows;
    ASSERT_EQ(rows.size(), 3U);
    ASSERT_EQ(rows[0].gate.size(), 2U);
    // A ten-thousandth of a degree of latitude at 52.3° is 11.13 m on the ellipsoid of WGS 84.
    EXPECT_NEAR(core::distance(rows[0].gate[0], rows[0].gate[1]).value(), 11.13, 0.02);
    EXPECT_TRUE(rows[1].gate.empty());
    EXPECT_EQ(rows[2].count, 8.0) << "in the order of the file";
    for (const char* kind : {"no coordinates", "line without length", "swapped coordinates"})
        EXPECT_TRUE(site.found(kind)) << kind;
}

TEST(Tallies, AGateMayBeDrawn) {
    const TallySite site(R"({"type":"FeatureCollection","features":[
      {"type":"Feature","properties":{"watch":"avenue","count":40},
       "geometry":{"type":"LineString","coordinates":[[-1.8960,52.2980],[-1.8960,52.2981]]}},
      {"type":"Feature","properties":{"watch":"avenue","count":3},"geometry":null},
      {"type":"Feature","properties":{"watch":"avenue","count":3},
       "geometry":{"type":"LineString","coordinates":[[-1.8960,52.2980],[-1.8960,52.2981],[-1.8960,52.2982]]}}]})",
                         "tallies.geojson");
    ASSERT_EQ(site.inputs.tallies.rows.size(), 2U);
    EXPECT_EQ(site.inputs.tallies.rows[0].gate.size(), 2U);
    EXPECT_TRUE(site.found("not a gate"));
}

TEST(Tallies, AloneAreEnoughAndNoneAreNot) {
    ReadingSite site;
    site.file.passes.reset();
    site.put("tallies.csv", "watch,count\navenue,3\n");
    site.file.tallies = source_of("tallies", site.folder / "tallies.csv");
    EXPECT_EQ(site.read().tallies.rows.size(), 1U);
    site.put("tallies.csv", "watch,count\n");
    EXPECT_EQ(site.stop().fault, core::Fault::inputs);
}

}  // namespace
}  // namespace roostward::io
