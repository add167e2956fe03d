#include <gtest/gtest.h>

#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

std::string point(double lon, const std::string& time) {
    const std::string stamp = time.empty() ? "" : "<time>" + time + "</time>";
    return "<trkpt lat=\"52.2982\" lon=\"" + std::to_string(lon) + "\">" + stamp + "</trkpt>";
}

std::string segment(const std::string& points) {
    return "<trkseg>" + points + "</trkseg>";
}

std::string gpx(const std::string& tracks) {
    return "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"test\" "
           "xmlns=\"http://www.topografix.com/GPX/1/1\">" +
           tracks + "</gpx>";
}

// GPX 1.1 schema: a track holds segments, times are UTC. Europe/London is an hour ahead of UTC in June.
TEST(Gpx, EverySegmentIsAWatchOnFoot) {
    ReadingSite site;
    site.put("walk.gpx",
             gpx("<trk><name>round</name>" +
                 segment(point(-1.8960, "2026-06-09T20:30:00Z") + point(-1.8950, "2026-06-09T20:50:00Z")) +
                 segment(point(-1.8940, "2026-06-09T21:10:00Z") + point(-1.8930, "") +
                         point(-1.8920, "2026-06-09T21:40:00Z")) +
                 "</trk>"));
    site.file.watches = source_of("watches", site.folder / "walk.gpx");
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.watches.rows.size(), 2U);
    const survey::Watch& first = inputs.watches.rows[0];
    EXPECT_EQ(first.name, "round, part 1");
    EXPECT_EQ(core::to_text(first.start), "2026-06-09T20:30:00Z");
    EXPECT_NEAR(first.hours().value(), 20.0 / 60.0, 1e-12);
    EXPECT_EQ(first.evening, (core::Evening{std::chrono::year(2026) / 6 / 9}));
    EXPECT_EQ(first.range.value(), 20.0);
    EXPECT_EQ(inputs.watches.rows[1].path.size(), 3U);
    // A thousandth of a degree at 52.2982° N is 68.2 m; the gap between the segments is not walked.
    EXPECT_NEAR(geo::length_of(first.path).value(), 68.2, 0.1);
    EXPECT_TRUE(site.found("how far was not told") && site.found("points without time"));
}

// Found by the fuzzer: the points of the inner track belong to no segment that GDAL tells of.
TEST(Gpx, ATrackInsideAnotherIsRefused) {
    ReadingSite site;
    site.put("walk.gpx", gpx("<trk/><trk><trkseg>" + point(-1.8960, "2026-06-09T20:30:00Z") + "<trk/>" +
                             point(-1.8950, "2026-06-09T20:50:00Z") + "</trkseg></trk>"));
    site.file.watches = source_of("watches", site.folder / "walk.gpx");
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, core::Fault::inputs) << stop.text;
    EXPECT_NE(stop.text.find("stands inside another"), std::string::npos) << stop.text;
}

// Found by the fuzzer: GDAL takes "-inf" for a number of seconds.
TEST(Gpx, WhatIsNoTimeIsNone) {
    ReadingSite site;
    site.put("walk.gpx",
             gpx("<trk>" +
                 segment(point(-1.8970, "2026-06-09T20:20:-inf0Z") + point(-1.8960, "2026-06-09T20:30:00Z") +
                         point(-1.8950, "2026-06-09T20:50:00Z")) +
                 "</trk>"));
    site.file.watches = source_of("watches", site.folder / "walk.gpx");
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.watches.rows.size(), 1U);
    EXPECT_EQ(core::to_text(inputs.watches.rows[0].start), "2026-06-09T20:30:00Z");
    EXPECT_TRUE(site.found("points without time"));
}

TEST(Gpx, UselessSegmentsAreSetAside) {
    ReadingSite site;
    site.put("walk.gpx",
             gpx("<trk>" + segment("") + "</trk><trk>" + segment(point(-1.8960, "2026-06-09T20:30:00Z")) +
                 segment(point(-1.8960, "") + point(-1.8950, "")) +
                 segment(point(-1.8960, "1901-12-13T20:45:52Z") + point(-1.8950, "1901-12-13T20:55:52Z")) +
                 segment(point(-1.8960, "2026-06-09T20:30:00Z") + point(-1.8950, "2026-06-09T20:30:00Z")) +
                 segment(point(-1.8960, "2026-06-09T08:30:00Z") + point(-1.8950, "2026-06-09T20:31:00Z")) +
                 segment(point(-1.8960, "2026-06-09T20:30:00Z") + point(-1.8950, "2026-06-09T20:50:00Z")) +
                 "</trk>"));
    site.file.watches = source_of("watches", site.folder / "walk.gpx");
    site.file.max_bad_share = 0.9;
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.watches.read, 7U);
    ASSERT_EQ(inputs.watches.rows.size(), 1U);
    EXPECT_EQ(inputs.watches.rows[0].row, 7U);
    for (const char* kind : {"segment without a path", "segment without times", "clock not set",
                             "watch of no length", "watch of over 12 hours"}) {
        EXPECT_TRUE(site.found(kind)) << kind;
    }
}

// Our own rule: a track slower than 2.5 m/s for over 10 min is a person walking.
TEST(Gpx, AsFlightsPeopleAreSetAside) {
    ReadingSite site;
    site.put("flights.gpx",
             gpx("<trk>" +
                 segment(point(-1.8960, "2026-06-09T20:30:00Z") + point(-1.8950, "2026-06-09T20:50:00Z")) +
                 segment(point(-1.8960, "2026-06-09T20:30:00Z") + point(-1.8950, "2026-06-09T20:30:10Z")) +
                 "</trk>"));
    site.file.tracks = source_of("tracks", site.folder / "flights.gpx");
    site.file.max_bad_share = 0.5;
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.tracks.rows.size(), 1U);
    EXPECT_EQ(inputs.tracks.rows[0].row, 2U);
    EXPECT_TRUE(site.found("a person walking"));
}

TEST(Gpx, WaypointsArePasses) {
    ReadingSite site;
    site.put("passes.gpx",
             gpx("<wpt lat=\"52.2982\" lon=\"-1.8956\"><time>2026-06-09T20:36:16Z</time></wpt>"));
    site.file.passes = source_of("passes", site.folder / "passes.gpx");
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.passes.rows.size(), 1U);
    EXPECT_EQ(core::to_text(*inputs.passes.rows[0].time), "2026-06-09T20:36:16Z");
}

}  // namespace
}  // namespace roostward::io
