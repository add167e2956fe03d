#include "roostward/report/sheets.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "one_site.hpp"
#include "roostward/report/open_matters.hpp"
#include "roostward/report/qr_code.hpp"

namespace roostward::report {
namespace {

using testing::one_site;

std::string sheets_of(const plan::Plan& plan) {
    return sheets(plan, WaysThere(plan));
}

std::size_t count_of(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

/// One site of which all is told.
plan::Plan told() {
    plan::Plan plan = one_site();
    trees::Tree& tree = plan.trees.rows[0];
    tree.owner = "council";
    tree.permission = trees::Permission::given;
    tree.hazard = trees::Hazard::improbable;
    tree.inspected = core::Date(std::chrono::year(2026), std::chrono::month(3), std::chrono::day(1));
    for (const char* matter : {"power lines", "planned works", "roads", "lamps", "protected trees", "hollows",
                               "roosts", "ownership"})
        plan.checks.push_back({matter, true, {}});
    trees::AvoidLayer line;
    line.reason = "overhead power line";
    line.within = core::Metres(10);
    plan.surroundings.avoid = {line};
    plan.candidates[0].avoid_distances = {core::Metres(34.4)};
    return plan;
}

// The order in which a climber needs them.
TEST(ClimbersSheet, HasItsPartsInOrder) {
    const std::string html = sheets_of(told());
    std::size_t last = 0;
    for (const char* part : {"Boxes 1 and 2",
                             "<bdi>T7</bdi>",
                             "<bdi>Tilia cordata</bdi>",
                             "trunk 41 cm through",
                             "Photo of the tree",
                             "At the watch place gate",
                             "52.00000, -3.00000 (WGS 84)",
                             "STOP: LOOK BEFORE YOU CLIMB",
                             "Yes, from council.",
                             "2026-03-01: failure improbable.",
                             "Nearest overhead power line: 34 m from the crown's edge (over 10 m wanted).",
                             "Nests",
                             "Holes",
                             "Put boxes up from September to February",
                             ">4.5</data> m</b>",
                             "south-south-east</b> 158°",
                             "<b>east</b> 90°",
                             "2.5 m free below the entrance",
                             "Let the trunk grow",
                             "If unsafe",
                             "Hung",
                             "Not hung, because",
                             "Height, m",
                             "Faces, °",
                             "Date",
                             "Photo",
                             "Initials",
                             "geo:52.00000,-3.00000"}) {
        const std::size_t at = html.find(part, last);
        ASSERT_NE(at, std::string::npos) << part << " after\n" << html.substr(last, 300);
        last = at;
    }
    EXPECT_EQ(html.find("NOT READY"), std::string::npos);
}

TEST(ClimbersSheet, IsNotReadyWhereSomethingIsOpen) {
    const auto with = [](auto spoil) {
        plan::Plan plan = told();
        spoil(plan);
        return sheets_of(plan);
    };
    const std::vector<std::pair<std::string, std::string>> expected{
        {with([](plan::Plan& plan) { plan.trees.rows[0].permission.reset(); }),
         "Nobody has a yes from council"},
        {with([](plan::Plan& plan) { plan.trees.rows[0].permission = trees::Permission::asked; }),
         "Asked and not answered: council."},
        {with([](plan::Plan& plan) { plan.trees.rows[0].inspected.reset(); }),
         "A qualified arborist inspects"},
        {with([](plan::Plan& plan) { plan.checks[0].checked = false; }), "Ask the network owner"},
        {with([](plan::Plan& plan) { plan.checks[5].checked = false; }), "Nobody has looked for holes"},
        {with([](plan::Plan& plan) { plan.checks[3].checked = false; }), "Not checked: lamps."}};
    for (const auto& [html, words] : expected) {
        EXPECT_NE(html.find("STOP: NOT READY"), std::string::npos) << words;
        EXPECT_NE(html.find(words), std::string::npos) << words;
        EXPECT_EQ(count_of(html, "<strong>OPEN</strong>"), 1U) << words;
    }
}

TEST(ClimbersSheet, NamesTheNextTreeIfThisOneIsUnsafe) {
    plan::Plan plan = told();
    plan.reserves.of_sites = {std::nullopt};
    EXPECT_NE(sheets_of(plan).find("take no other tree"), std::string::npos);
    plan.reserves.of_sites = {siting::Reserve{1, siting::Nearness::near_by, core::Metres(12)}};
    std::string html = sheets_of(plan);
    EXPECT_NE(
        html.find("The next tree is T8: 12 m south of the watch place gate; 12 m south of tree T7 (51.99989, "
                  "-3.00000); the same height, boxes face SSE and E. It is NOT READY either: ask first."),
        std::string::npos)
        << html.substr(html.find("If unsafe"), 300);
    const std::string id = plan.trees.rows[1].id;
    const core::PlanePoint stem = plan.trees.rows[1].stem;
    plan.trees.rows[1] = plan.trees.rows[0];
    plan.trees.rows[1].id = id;
    plan.trees.rows[1].stem = stem;
    EXPECT_NE(sheets_of(plan).find("It is ready on paper"), std::string::npos);
}

TEST(ClimbersSheet, SaysWhereTheNextTreeIsThatOfAnotherSiteToo) {
    plan::Plan plan = told();
    plan.trees.rows.push_back(plan.trees.rows[1]);
    plan.candidates.push_back(plan.candidates[1]);
    plan.candidates[1].site = 2;
    plan.chosen.push_back(1);
    const siting::Reserve reserve{2, siting::Nearness::near_by, core::Metres(12)};
    plan.reserves.of_sites = {reserve, reserve};
    const std::string html = sheets_of(plan);
    const std::size_t second = html.find("site 2 of 2");
    EXPECT_LT(html.find("It is also the next tree of site 2: agree who takes it, for only one can."), second);
    EXPECT_GT(html.find("It is also the next tree of site 1: agree who takes it, for only one can."), second);
}

TEST(Matters, SayWhoSettlesThem) {
    plan::Plan plan = told();
    plan.checks.clear();
    plan.trees.rows[0].permission.reset();
    plan.trees.rows[0].owner.clear();
    plan.trees.rows[0].hazard.reset();
    std::vector<std::string> people;
    for (const Matter& matter : matters_of(plan, 0))
        people.push_back(matter.who);
    EXPECT_EQ(people, (std::vector<std::string>{
                          "owner", "arborist", "network owner", "", "licensed bat person", "", "tree officer",
                          "tree officer", "surveyor, after dark", "tree officer", "licensed bat person"}));
    EXPECT_EQ(matters_of(plan, 0).front().text,
              "Nobody has a yes from the owner, who is not named. Get it in writing.");
}

TEST(Matters, KeepNamesToALine) {
    plan::Plan plan = told();
    plan.trees.rows[0].owner = std::string(10'000, 'x');
    EXPECT_EQ(matters_of(plan, 0).front().text, "Yes, from " + std::string(49, 'x') + "….");
}

TEST(OwnersLetters, AreOneAnOwner) {
    plan::Plan plan = told();
    plan.trees.rows.push_back(plan.trees.rows[1]);
    plan.candidates.push_back(plan.candidates[1]);
    plan.trees.rows[2].id = "T9";
    plan.trees.rows[2].owner = "council";
    for (const std::size_t tree : {1U, 2U}) {
        plan.candidates[tree].site = tree + 1;
        plan.chosen.push_back(tree);
    }
    const std::string html = sheets_of(plan);
    EXPECT_EQ(count_of(html, "class=\"paper letter\""), 2U);
    EXPECT_NE(html.find("To council"), std::string::npos);
    EXPECT_NE(html.find("may we hang 2 boxes on each of 2 trees (T7 and T9)?"), std::string::npos);
    EXPECT_NE(html.find("To whoever owns these trees"), std::string::npos);
    EXPECT_NE(html.find("may we hang 2 boxes on one tree (T8)?"), std::string::npos);
    EXPECT_EQ(html.find("has said yes already"), std::string::npos) << "T9 was not asked";
}

TEST(CommitteeTable, TellsWhatIsOpenAndByWhom) {
    plan::Plan plan = told();
    plan.trees.rows[0].cost = 85;
    const std::string ready = sheets_of(plan);
    EXPECT_NE(ready.find("<data value=\"85.00\">"), std::string::npos);
    EXPECT_NE(ready.find("Nothing else on paper; the climber looks again."), std::string::npos);
    plan.trees.rows[0].permission.reset();
    const std::string open = sheets_of(plan);
    const std::string table = open.substr(open.find("class=\"paper committee\""));
    EXPECT_NE(table.find("Nobody has a yes from council. Get it in writing. (owner)"), std::string::npos)
        << table;
    EXPECT_EQ(table.find("for every tree"), std::string::npos);
    plan.checks[3].checked = false;
    const std::string dark = sheets_of(plan);
    EXPECT_NE(
        dark.find("Still to settle for every tree, and by whom:</p><ul><li>Not checked: lamps. (surveyor, "
                  "after dark)"),
        std::string::npos);
    for (const char* words : {"SSE, E", "1 and 2", "Cost", "Looked after by"})
        EXPECT_NE(table.find(words), std::string::npos) << words;
}

// The tree's own column first, then the site file, else a blank.
TEST(CommitteeTable, TellsWhoLooksAfterTheBoxes) {
    plan::Plan plan = told();
    const auto last_cell = [&plan] {
        const std::string html = sheets_of(plan);
        const std::size_t begin = html.find("data-title=\"Looked after by\"");
        return begin == std::string::npos ? html.substr(html.find("class=\"paper committee\""))
                                          : html.substr(begin, html.find("</td>", begin) - begin);
    };
    EXPECT_EQ(last_cell().find("Friends"), std::string::npos);
    EXPECT_EQ(sheets_of(plan).find("year five:</span> <bdi>"), std::string::npos);
    plan.settings.looked_after_by = "Friends <of> the Park";
    EXPECT_NE(last_cell().find("<bdi>Friends &lt;of&gt; the Park</bdi>"), std::string::npos) << last_cell();
    EXPECT_NE(sheets_of(plan).find("year five:</span> <bdi>Friends &lt;of&gt; the Park</bdi>"),
              std::string::npos);
    plan.trees.rows[0].looked_after_by = "the school";
    EXPECT_NE(last_cell().find("<bdi>the school</bdi>"), std::string::npos) << last_cell();
    EXPECT_EQ(sheets_of(plan).find("Friends"), std::string::npos);
}

TEST(Sheets, SayWhatNobodyCheckedOnEveryPage) {
    plan::Plan plan = told();
    plan.checks[0].checked = false;
    EXPECT_EQ(count_of(sheets_of(plan), "Nobody has checked: power lines. Check before anyone climbs."), 3U);
    EXPECT_EQ(count_of(sheets_of(told()), "were all looked up in files"), 3U);
}

TEST(Sheets, HoldAnyTextAsText) {
    plan::Plan plan = told();
    for (std::string* text : {&plan.trees.rows[0].id, &plan.trees.rows[0].species, &plan.trees.rows[0].owner,
                              &plan.settings.site_name, &plan.surroundings.avoid[0].reason})
        *text = "<script>\"'&";
    const std::string html = sheets_of(plan);
    EXPECT_EQ(html.find("<script"), std::string::npos);
    EXPECT_GE(count_of(html, "&lt;script&gt;&quot;'&amp;"), 8U);
}

TEST(Sheets, SayThatNothingIsToBeHung) {
    plan::Plan plan = told();
    plan.chosen.clear();
    EXPECT_EQ(sheets_of(plan).find("<article"), std::string::npos);
}

// RFC 5870, section 3: latitude, a comma, longitude.
TEST(GeoUri, PutsLatitudeFirst) {
    EXPECT_EQ(geo_uri({core::Degrees(-1.8983299), core::Degrees(52.2992904)}), "geo:52.29929,-1.89833");
}

/// Whether the square at a column and row is dark, by the path of the code.
bool is_dark(const std::string& svg, int column, int row) {
    return svg.find("M" + std::to_string(column) + " " + std::to_string(row) + "h") != std::string::npos;
}

// ISO/IEC 18004: a finder pattern of 7 by 7 in three corners, four light squares all round the code.
TEST(QrCode, HasItsFindersAndItsQuietZone) {
    const std::string svg = qr_code("geo:52.299290,-1.898330", "<a>");
    EXPECT_NE(svg.find("aria-label=\"&lt;a&gt;\""), std::string::npos);
    constexpr int side = 25;  // version 2 holds 26 bytes at level M
    EXPECT_NE(svg.find("viewBox=\"0 0 33 33\""), std::string::npos) << svg.substr(0, 200);
    for (const auto& [left, top] : {std::pair{4, 4}, {4 + side - 7, 4}, {4, 4 + side - 7}})
        for (int y = 0; y < 7; ++y)
            for (int x = 0; x < 7; ++x) {
                const int ring = std::min({x, y, 6 - x, 6 - y});
                EXPECT_EQ(is_dark(svg, left + x, top + y), ring != 1) << x << " " << y;
            }
    for (int i = 0; i < 33; ++i)
        EXPECT_FALSE(is_dark(svg, i, 3) || is_dark(svg, 3, i)) << i;
}

}  // namespace
}  // namespace roostward::report
