#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

std::string feature(const std::string& properties, const std::string& type, const std::string& coordinates) {
    return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":")" + type +
           R"(","coordinates":)" + coordinates + "}}";
}

struct RoutesSite : ReadingSite {
    explicit RoutesSite(const std::string& features) {
        put("routes.geojson", R"({"type":"FeatureCollection","features":[)" + features + "]}");
        file.routes = source_of("routes", folder / "routes.geojson");
        file.max_bad_share = 1.0;
    }
};

const std::string creek_line = "[[-1.8956,52.2982],[-1.8950,52.2984],[-1.8940,52.2990]]";

TEST(Routes, AreNamedLinesInThePlanningPlane) {
    RoutesSite site(feature(R"("label":"Creek path")", "LineString", creek_line) + "," +
                    feature(R"("label":"bank")", "MultiLineString", "[" + creek_line + "]"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.routes.rows.size(), 2U);
    const survey::Route& creek = inputs.routes.rows[0];
    EXPECT_EQ(creek.name, "Creek path");
    ASSERT_EQ(creek.line.size(), 3U);
    // The first point is where the one pass of the site lies.
    EXPECT_NEAR(core::distance(creek.line[0], inputs.passes.rows[0].position).value(), 0.0, 1e-3);
    EXPECT_EQ(inputs.routes.rows[1].line, creek.line);
}

TEST(Routes, ThatCannotBeUsedAreSetAside) {
    RoutesSite site(
        feature(R"("name":"creek")", "LineString", creek_line) + "," +
        feature(R"("name":"bank")", "LineString", creek_line) + "," +
        feature(R"("name":"")", "LineString", creek_line) + "," +
        feature(R"("name":"CREEK")", "LineString", creek_line) + "," +
        feature(R"("name":"ford")", "Point", "[-1.8956,52.2982]") + "," +
        feature(R"("name":"still")", "LineString", "[[-1.8956,52.2982],[-1.8956,52.2982]]") + "," +
        feature(R"("name":"two")", "MultiLineString", "[" + creek_line + "," + creek_line + "]") + "," +
        feature(R"("name":"swapped")", "LineString", "[[52.2982,-1.8956],[52.2984,-1.8950]]"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.routes.read, 8U);
    EXPECT_EQ(inputs.routes.rows.size(), 2U);
    for (const char* kind : {"route without a name", "name used twice", "not a line", "line without length",
                             "swapped coordinates"})
        EXPECT_TRUE(site.found(kind)) << kind;
}

TEST(Routes, ATableHasNoLines) {
    ReadingSite site;
    site.put("routes.csv", "name,lon,lat\ncreek,-1.8956,52.2982\n");
    site.file.routes = source_of("routes", site.folder / "routes.csv");
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, core::Fault::inputs);
    EXPECT_NE(stop.text.find("routes are lines"), std::string::npos) << stop.text;
}

}  // namespace
}  // namespace roostward::io
