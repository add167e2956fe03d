// What cannot be is set aside and never becomes a fault; what is odd is told.
#include <gtest/gtest.h>

#include "io/reading_site.hpp"
#include "roostward/io/wind.hpp"

namespace roostward {
namespace {

using testing::expect_nothing_lost;
using testing::ReadingSite;

const core::Finding* finding_of(const ReadingSite& site, const std::string& kind) {
    const auto found = std::ranges::find(site.findings, kind, &core::Finding::kind);
    return found == site.findings.end() ? nullptr : &*found;
}

TEST(Bounds, OfACountThatNoPassHas) {
    struct Case {
        std::string count;
        const char* kind;
        bool used;
    };
    for (const Case& one :
         {Case{"40", nullptr, true}, Case{"41", "large count", true}, Case{"1000", "large count", true},
          Case{"1001", "impossible count", false}, Case{"1000000", "impossible count", false},
          Case{"1e18", "impossible count", false}, Case{"1e308", "impossible count", false},
          Case{"ten dozen dozen", "impossible count", false}}) {
        ReadingSite site;
        site.file.max_bad_share = 1.0;
        site.put("passes.csv", "time,lon,lat,count\n2026-06-09T21:36:16,-1.8956,52.2982," + one.count +
                                   "\n2026-06-09T21:40:16,-1.8956,52.2982,1\n");
        const siting::Inputs inputs = site.read();
        EXPECT_EQ(inputs.passes.rows.size(), one.used ? 2U : 1U) << one.count;
        expect_nothing_lost(inputs, site.findings);
        if (one.kind == nullptr) continue;
        const core::Finding* finding = finding_of(site, one.kind);
        ASSERT_NE(finding, nullptr) << one.count;
        EXPECT_EQ(finding->value, one.count);
        EXPECT_EQ(finding->place.row, 2U);
        EXPECT_EQ(finding->place.field, "count");
        EXPECT_NE(finding->sentence.find(one.used ? "40" : "1000"), std::string::npos) << finding->sentence;
    }
}

TEST(Bounds, OfATally) {
    ReadingSite site;
    site.file.max_bad_share = 1.0;
    site.file.tallies = testing::source_of("tallies", site.folder / "tallies.csv");
    site.put("tallies.csv", "watch,count\navenue,1e18\navenue,10001\navenue,1001\navenue,12\n");
    const siting::Inputs inputs = site.read();
    EXPECT_EQ(inputs.tallies.rows.size(), 2U);
    EXPECT_NE(finding_of(site, "impossible count"), nullptr);
    EXPECT_NE(finding_of(site, "large count"), nullptr);
    expect_nothing_lost(inputs, site.findings);
}

TEST(Bounds, OfHowFarAnybodySees) {
    ReadingSite site;
    site.put(
        "watches.csv",
        "watch,lon,lat,date,start,end,farthest_seen_m\navenue,-1.8963,52.2979,2026-06-09,21:30,22:50,500\n");
    EXPECT_EQ(site.read().watches.rows[0].range, core::Metres(250.0));
    ASSERT_NE(finding_of(site, "farther than people see"), nullptr);
    EXPECT_EQ(finding_of(site, "farther than people see")->value, "500");
}

std::string drive(double metres, int minutes) {
    return "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"t\" "
           "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk>"
           "<trkseg><trkpt lat=\"52.2979\" lon=\"-1.8963\"><time>2026-06-09T20:30:00Z</time></trkpt><trkpt "
           "lat=\"" +
           std::to_string(52.2979 + metres / 111'195.0) + "\" lon=\"-1.8963\"><time>2026-06-09T" +
           (minutes < 30 ? "20:" + std::to_string(30 + minutes) : "21:" + std::to_string(minutes - 20)) +
           ":00Z</time></trkpt></trkseg></trk></gpx>";
}

TEST(Bounds, OfSpeeds) {
    ReadingSite site;
    site.file.max_bad_share = 1.0;
    site.file.watches->further = {{"walk.gpx", (site.folder / "walk.gpx").string()}};
    site.put("walk.gpx", drive(1200.0, 20));
    EXPECT_EQ(site.read().watches.rows.size(), 2U);
    EXPECT_EQ(finding_of(site, "faster than walking"), nullptr) << "1 m/s";
    site.put("walk.gpx", drive(6000.0, 20));
    EXPECT_EQ(site.read().watches.rows.size(), 2U);
    EXPECT_NE(finding_of(site, "faster than walking"), nullptr) << "5 m/s";
    site.put("walk.gpx", drive(18'000.0, 20));
    const siting::Inputs inputs = site.read();
    EXPECT_EQ(inputs.watches.rows.size(), 1U) << "15 m/s";
    ASSERT_NE(finding_of(site, "impossible speed"), nullptr);
    EXPECT_EQ(finding_of(site, "impossible speed")->place.file, "walk.gpx");
    expect_nothing_lost(inputs, site.findings);
}

TEST(Bounds, OfAFlightFollowed) {
    ReadingSite site;
    site.file.max_bad_share = 1.0;
    site.file.tracks = testing::source_of("tracks", site.folder / "tracks.geojson");
    const auto track = [](double metres) {
        return R"({"type":"Feature","properties":{"time":"2026-06-09T21:40:00"},"geometry":{"type":"LineString","coordinates":[[-1.8956,52.2982],[-1.8956,)" +
               std::to_string(52.2982 + metres / 111'195.0) + "]]}}";
    };
    site.put("tracks.geojson", R"({"type":"FeatureCollection","features":[)" + track(200.0) + "," +
                                   track(5000.0) + "," + track(30'000.0) + "]}");
    const siting::Inputs inputs = site.read();
    EXPECT_EQ(inputs.tracks.rows.size(), 2U);
    EXPECT_NE(finding_of(site, "long flight"), nullptr);
    EXPECT_NE(finding_of(site, "impossible length"), nullptr);
    expect_nothing_lost(inputs, site.findings);
}

// Middles of the classes of the Beaufort scale (WMO-No. 8, volume I, table 5.1, from memory): 3 is 3.4 to 5.4
// m/s, 4 is 5.5 to 7.9, 1 is 0.3 to 1.5. A knot is 1852 m, a mile 1609.344 m an hour.
TEST(Wind, IsReadAsPeopleWriteIt) {
    struct Case {
        const char* written;
        double speed;
    };
    for (const Case& one : {Case{"F3", 4.4},
                            Case{"f 3", 4.4},
                            Case{"Bft 3", 4.4},
                            Case{"3 Bft", 4.4},
                            Case{"Bf. 3", 4.4},
                            Case{"Beaufort 4", 6.7},
                            Case{"4 Beaufort", 6.7},
                            Case{"force 4", 6.7},
                            Case{"Windstärke 4", 6.7},
                            Case{"F3-4", 5.55},
                            Case{"Force 3 to 4", 5.55},
                            Case{"light air", 0.9},
                            Case{"Light breeze", 2.45},
                            Case{"gentle breeze", 4.4},
                            Case{"calm", 0.1},
                            Case{"breezy", 6.7},
                            Case{"gale", 18.95},
                            Case{"F0", 0.1},
                            Case{"F12", 32.7},
                            Case{"12 km/h", 3.33333},
                            Case{"10 mph", 4.4704},
                            Case{"5 kn", 2.57222}}) {
        const auto speed = io::wind_in_words(one.written);
        ASSERT_TRUE(speed) << one.written;
        EXPECT_NEAR(speed->value(), one.speed, 1e-4) << one.written;
    }
    for (const char* other : {"3", "2.5", "3 m/s", "F13", "F", "NW", "", "nice", "F3x", "-3 km/h"})
        EXPECT_FALSE(io::wind_in_words(other)) << other;
}

TEST(Wind, InWordsIsToldAndUsed) {
    ReadingSite site;
    site.put("watches.csv",
             "watch,lon,lat,date,start,end,farthest_seen_m,wind_ms\navenue,-1.8963,52.2979,2026-06-09,21:30,"
             "22:50,70,F3\n"
             "lane,-1.8963,52.2979,2026-06-10,21:30,22:50,70,3\n");
    const siting::Inputs inputs = site.read();
    EXPECT_NEAR(inputs.watches.rows[0].wind->value(), 4.4, 1e-9);
    EXPECT_EQ(inputs.watches.rows[1].wind, core::MetresPerSecond(3.0));
    ASSERT_NE(finding_of(site, "wind in words"), nullptr);
    EXPECT_EQ(finding_of(site, "wind in words")->value, "F3");
}

}  // namespace
}  // namespace roostward
