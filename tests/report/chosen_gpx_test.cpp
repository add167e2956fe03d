#include "roostward/report/chosen_gpx.hpp"

#include <gtest/gtest.h>

#include "one_site.hpp"

namespace roostward::report {
namespace {

TEST(ChosenGpx, TellsEachSiteWithItsBoxes) {
    const std::string gpx = chosen_gpx(testing::one_site(), {"1.0", core::Instant{}});
    for (const char* part : {"<time>1970-01-01T00:00:00Z</time>",
                             "<wpt lat=\"52.0000000\" lon=\"-3.0000000\">", "<name>Site 1, tree T7</name>",
                             "<cmt>Entrance 4.5 m up: box 1 faces SSE (158°), box 2 faces E (90°).</cmt>",
                             "<desc>At the watch place gate; 12 m north of tree T8. Entrance 4.5 m up"})
        EXPECT_NE(gpx.find(part), std::string::npos) << part << "\n" << gpx;
}

// XML 1.0, productions 2 and 14: which characters may stand in text at all, and which only escaped.
TEST(ChosenGpx, HoldsAnyTextAsText) {
    plan::Plan plan = testing::one_site();
    plan.trees.rows[0].id = "</name><x a=\"1\">&\x01\xFF\xEF\xBF\xBF\r";
    const std::string gpx = chosen_gpx(plan, {"1.0", core::Instant{}});
    EXPECT_NE(
        gpx.find("tree &lt;/name&gt;&lt;x a=&quot;1&quot;&gt;&amp;\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD&#13;"
                 "</name>"),
        std::string::npos)
        << gpx;
}

// The schema bounds longitude below 180.
TEST(ChosenGpx, WritesTheDateLineAsWest) {
    plan::Plan plan = testing::one_site();
    plan.planning_crs = geo::wgs84();
    plan.trees.rows[0].stem = {180.0, -17.0};
    const std::string gpx = chosen_gpx(plan, {"1.0", core::Instant{}});
    EXPECT_NE(gpx.find("<wpt lat=\"-17.0000000\" lon=\"-180.0000000\">"), std::string::npos) << gpx;
}

}  // namespace
}  // namespace roostward::report
