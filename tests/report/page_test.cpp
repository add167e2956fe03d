#include "roostward/report/page.hpp"

#include <gtest/gtest.h>

#include <string>

namespace roostward::report {
namespace {

/// 20 × 10 cells of 10 m, the western half watched; two trees that can be chosen and one far away.
plan::Plan a_plan() {
    plan::Plan plan;
    plan.planning_crs = {"EPSG:32630"};
    plan.settings.site_name = "Mill <Park>";
    plan.settings.profile.name = "Small bats";
    core::Raster& flight = plan.surfaces.flight_density;
    flight.grid = {{500000.0, 5700100.0}, core::Metres(10.0), 10, 20};
    for (std::size_t i = 0; i < flight.grid.size(); ++i) {
        flight.known.push_back(i % 20 < 10 ? 1 : 0);
        flight.values.push_back(i % 20 < 10 ? 100.0F * static_cast<float>(i % 20) : 0.0F);
    }
    const auto add = [&plan](const char* id, core::PlanePoint stem, bool watched) {
        trees::Tree tree;
        tree.id = id;
        tree.stem = stem;
        plan.trees.rows.push_back(tree);
        siting::Candidate candidate;
        candidate.activity.watched = watched;
        candidate.activity.flight_density = 0.05;
        candidate.facings =
            siting::Facings{{core::Degrees(157.5), core::Degrees(67.5)}, core::Degrees(157.5)};
        if (!watched) candidate.verdict.state = trees::State::not_watched;
        plan.candidates.push_back(candidate);
    };
    add("</script><b>", {500050.0, 5700050.0}, true);
    add("near", {500250.0, 5700050.0}, false);
    add("far", {500310.0, 5700050.0}, false);
    plan.candidates[0].rank = plan.candidates[0].site = 1;
    plan.ranked = plan.chosen = {0};
    plan.survey.evenings = {{core::Date{std::chrono::year(2026), std::chrono::June, std::chrono::day(9)}}};
    return plan;
}

std::string a_page() {
    return page(a_plan(), {"1.2.3", "roostward plan 'my park.toml'", {}, {}});
}

TEST(Page, NamesCannotEndTheDataOrStartAnElement) {
    const std::string html = a_page();
    EXPECT_EQ(html.find("</script><b>"), std::string::npos);
    EXPECT_NE(html.find("&lt;/script&gt;&lt;b&gt;"), std::string::npos);
    EXPECT_NE(html.find(R"("\u003c/script>\u003cb>")"), std::string::npos);
    EXPECT_NE(html.find("<bdi>Mill &lt;Park&gt;</bdi>"), std::string::npos);
    EXPECT_NE(html.find("roostward plan 'my park.toml'"), std::string::npos);
}

// The middles of the easternmost watched cells lie at 500,095: a tree is shown up to 500,295.
TEST(Page, ShowsTreesWithin200MetresOfWatchedGround) {
    const std::string html = a_page();
    EXPECT_NE(html.find(R"(,"near"])"), std::string::npos);
    EXPECT_EQ(html.find(R"("far")"), std::string::npos);
}

TEST(Page, LeavesNoSlotOpen) {
    const std::string html = a_page();
    EXPECT_EQ(std::string_view(html).substr(html.find("<body>")).find("{{"), std::string_view::npos);
}

}  // namespace
}  // namespace roostward::report
