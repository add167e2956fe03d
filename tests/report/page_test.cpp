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

// Two evenings of 2 × 3 cells of 50 m. Shades go by the root: a quarter
// of the most begins at shade 3 of 7.
TEST(Page, ShowsEachEveningOnOneScale) {
    plan::Plan plan = a_plan();
    plan.survey.evenings.push_back(
        {core::Date{std::chrono::year(2026), std::chrono::June, std::chrono::day(11)}});
    const core::Grid grid{{500000.0, 5700100.0}, core::Metres(50.0), 2, 3};
    plan.evening_surfaces = {{grid, {0, 0, 625, 625, 625, 625}, {1, 1, 1, 0, 1, 1}},
                             {grid, {2500, 0, 0, 0, 0, 0}, {1, 0, 0, 0, 0, 0}}};
    const std::string html = page(plan, {"1.2.3", "", {}, {}});
    EXPECT_NE(html.find(R"(<path class="shade-0" d="M0 0h2"/><path class="shade-3" d="M2 0h1M1 1h2"/></g>)"),
              std::string::npos);
    EXPECT_NE(html.find(R"~(scale(50.000)"><path class="shade-6" d="M0 0h1"/></g>)~"), std::string::npos);
    const std::string key = html.substr(html.find("Kilometres flown per hectare and hour, roughly: 0 <svg"));
    const std::string end = key.substr(0, key.find("</p>"));
    EXPECT_TRUE(end.ends_with("</svg> <data value=\"3\">3</data>"))
        << end << ": 2.5 km, rounded to whole ones";
}

plan::Plan with_reason(const char* rule, const char* who) {
    plan::Plan plan = a_plan();
    trees::Reason reason;
    reason.rule = rule;
    reason.who = who;
    reason.state = trees::State::settle_first;
    plan.candidates[1].verdict = {trees::State::settle_first, {reason}, {}, {}};
    return plan;
}

// A box is planned on no tree in which animals may live: which way it would face is not told.
TEST(Page, TellsNoFacingsOfARoost) {
    const auto facings = [](const plan::Plan& plan) {
        const std::string html = page(plan, {"1.2.3", "", {}, {}});
        const std::size_t at = html.find("\"facings\":");
        return html.substr(at, html.find("],\"", at) - at + 1);
    };
    EXPECT_EQ(facings(with_reason("roost near", "licensed bat person")), "\"facings\":[[158,68],[]]");
    EXPECT_EQ(facings(with_reason("own hollow", "licensed bat person")), "\"facings\":[[158,68],[]]");
    EXPECT_EQ(facings(with_reason("safety outdated", "arborist")), "\"facings\":[[158,68],[158,68]]");
}

// "Ranks in it cannot be told apart" is said of two trees or more.
TEST(Page, TellsNoGroupOfOne) {
    plan::Plan plan = a_plan();
    plan.candidates[0].group = 1;
    EXPECT_NE(page(plan, {"1.2.3", "", {}, {}}).find("\"group\":[null]"), std::string::npos);
    plan.candidates[1].verdict.state = trees::State::can_be_chosen;
    plan.candidates[1].rank = 2;
    plan.ranked = {0, 1};
    plan.candidates[1].group = 1;
    EXPECT_NE(page(plan, {"1.2.3", "", {}, {}}).find("\"group\":[\"A\",\"A\"]"), std::string::npos);
}

TEST(Page, HoldsRoundedFlightsOnly) {
    plan::Plan plan = a_plan();
    plan.candidates[0].flights = {34.2187, false, activity::Range{22.02, 57.91}};
    const std::string html = page(plan, {"1.2.3", "", {}, {}});
    EXPECT_NE(html.find("\"flights\":[35,null],\"low\":[20,null],\"high\":[60,null]"), std::string::npos);
    EXPECT_NE(html.find("about 35 (20 to 60) an hour within 20 m"), std::string::npos);
    EXPECT_EQ(html.find("34.2"), std::string::npos);
    plan.candidates[0].flights = {0.9, false, activity::Range{0.0, 12.0}};
    EXPECT_NE(page(plan, {"1.2.3", "", {}, {}}).find("\"flights\":[-2,null]"), std::string::npos)
        << "less than two, and not none";
}

// The image of an orthophoto: pixels of 0.5 m, from 10 m to the west of the ground.
TEST(Page, HoldsTheBasemapInItself) {
    const core::Picture picture{{{499790.0, 5700300.0}, core::Metres(0.5), 2, 3}, "image/webp", {1, 2, 3}};
    const std::string html = page(a_plan(), {"1.2.3", "", {}, {}}, picture);
    EXPECT_NE(html.find(R"("basemap":{"west":-10,"north":500,"cell":0.5,"rows":2,"columns":3,)"
                        R"("image":"data:image/webp;base64,AQID"})"),
              std::string::npos);
    EXPECT_EQ(a_page().find("\"basemap\":"), std::string::npos);
}

TEST(Page, LeavesNoSlotOpen) {
    const std::string html = a_page();
    EXPECT_EQ(std::string_view(html).substr(html.find("<body>")).find("{{"), std::string_view::npos);
}

}  // namespace
}  // namespace roostward::report
