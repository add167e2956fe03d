#include "roostward/siting/what_if.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <utility>
#include <vector>

#include "siting/two_stations.hpp"

namespace roostward::siting {
namespace {

/// The site with everything that a table is made from.
struct Tried {
    Ranked ranked;
    trees::Surroundings around;
    trees::Judge judge;
    Hanging hanging{{core::Metres(4.5), {}, core::Metres(3), 1, {}}, core::Degrees(52), {}, {}, {}};

    explicit Tried(const Site& site, trees::Surroundings surroundings = {})
        : ranked(site, trees::judge(site.inventory, surroundings, site.settings.suitability, {1})),
          around(std::move(surroundings)),
          judge(site.inventory, around, site.settings.suitability) {}

    [[nodiscard]] WhatIfTable table(unsigned threads = 1) const {
        return what_if(ranked.candidates, ranked.data(), {judge, around, hanging, {}}, ranked.site.settings,
                       core::Threads{threads});
    }
};

/// The only line of that subject whose value becomes `to`.
const WhatIf& line_of(const WhatIfTable& table, const std::string& subject, double to) {
    for (const WhatIf& line : table.lines)
        if (line.subject == subject && std::get<double>(line.to.value()) == to) return line;
    throw std::out_of_range(subject);
}

using Numbers = std::vector<std::size_t>;

TEST(WhatIf, NamesWhatTheChoiceHangsOn) {
    const Site site(4);
    const Tried tried(site);
    ASSERT_TRUE(tried.ranked.candidates[3].site) << "Ben's evenings make a site";
    const std::size_t bens = *tried.ranked.candidates[3].site;
    const WhatIfTable table = tried.table();
    const WhatIf* const evening = strongest(table, Change::evening);
    ASSERT_NE(evening, nullptr);
    EXPECT_EQ(evening->subject, core::to_text(site.survey.evenings[2]));
    EXPECT_EQ(evening->lost, Numbers{bens}) << "used on one of three evenings is too little";
    EXPECT_TRUE(evening->came.empty()) << "no other tree has enough flight and distance";
    const WhatIf* const station = strongest(table, Change::station);
    EXPECT_EQ(station->subject, "B");
    EXPECT_NEAR(*station->share, 24.0 / 36.0, 1e-12);
    EXPECT_EQ(station->lost, Numbers{bens});
    EXPECT_EQ(strongest(table, Change::observer)->subject, "Ben");
}

TEST(WhatIf, LeavesOutTheOnlyEveningAndObserver) {
    const Site site(1);
    const Tried tried(site);
    const WhatIfTable table = tried.table();
    EXPECT_EQ(strongest(table, Change::evening), nullptr);
    EXPECT_NE(strongest(table, Change::station), nullptr);
}

// The tree 8 m from Ben's has more flight than Ada's: it comes in where sites may stand 5 m apart.
TEST(WhatIf, StepsTheSpacing) {
    Site site(4);
    site.add_tree({408.0, 0.0});
    site.settings.choice.spacing = core::Metres(15.0);
    const Tried tried(site);
    ASSERT_TRUE(tried.ranked.candidates[0].site);
    const WhatIfTable table = tried.table();
    const WhatIf& closer = line_of(table, "choose.spacing_m", 5.0);
    EXPECT_EQ(closer.lost, Numbers{*tried.ranked.candidates[0].site});
    EXPECT_EQ(closer.came, Numbers{5});
    EXPECT_TRUE(line_of(table, "choose.spacing_m", 25.0).changes_nothing());
}

// A trunk of 22 cm becomes fit at 20 cm, one of 27 cm unfit at 30 cm.
TEST(WhatIf, StepsARuleToBothSidesAndLetsTreesIn) {
    Site site(4);
    site.inventory.columns.add(trees::TreeField::dbh);
    for (trees::Tree& tree : site.inventory.rows)
        tree.dbh = core::Centimetres(50);
    site.inventory.rows[3].dbh = core::Centimetres(22);
    site.inventory.rows[4].dbh = core::Centimetres(27);
    const Tried tried(site);
    ASSERT_TRUE(tried.ranked.candidates[4].site);
    const WhatIfTable table = tried.table();
    const WhatIf& looser = line_of(table, "suitability.min_dbh_cm", 20.0);
    EXPECT_EQ(looser.lost, Numbers{*tried.ranked.candidates[4].site});
    EXPECT_EQ(looser.came, Numbers{3});
    const WhatIf& stricter = line_of(table, "suitability.min_dbh_cm", 30.0);
    EXPECT_EQ(stricter.lost, looser.lost);
    EXPECT_TRUE(stricter.came.empty());
}

TEST(WhatIf, HasNoLineForARuleThatHasNothingToGoBy) {
    const Site site(4);
    const Tried tried(site);
    for (const WhatIf& line : tried.table().lines)
        EXPECT_TRUE(line.change != Change::rule || line.subject == "activity.min_watch_hours")
            << line.subject;
}

// What stands 8 m from the crown is too near at 10 m, and far enough at 5 m.
TEST(WhatIf, StepsTheDistanceFromALayerToAvoid) {
    Site site(4);
    site.inventory.rows[3].crown_radius = core::Metres(2);
    trees::Surroundings around;
    around.avoid.push_back({"lines.geojson",
                            "overhead power line",
                            core::Metres(10),
                            trees::State::settle_first,
                            "network owner",
                            {{{}, {{{390, -50}, {390, 50}}}, {}}},
                            "avoid[0]"});
    const Tried tried(site, around);
    ASSERT_FALSE(tried.ranked.candidates[3].can_be_chosen());
    const WhatIfTable table = tried.table();
    EXPECT_EQ(line_of(table, "avoid[0].within_m", 5.0).came, Numbers{3});
    EXPECT_TRUE(line_of(table, "avoid[0].within_m", 15.0).changes_nothing());
}

// By hand: Ben's tree has the evidence (5 · 1 + 3/6)/6 = 0.917, and a road beside it takes 40 % of that:
// 0.55. Its neighbour has 0.6 of the flight and evidence 0.59, and loses nothing.
TEST(WhatIf, WeighsPartsAnewAsAPlanWould) {
    Site site(4);
    site.add_tree({408.0, 0.0});
    site.settings.profile.utilities.road = Sourced<Curve>{{{{0, 0}, {100, 1}}}, {}};
    Tried tried(site);
    for (Candidate& tree : tried.ranked.candidates)
        tree.road_distance = core::Metres(100);
    tried.ranked.candidates[3].road_distance = core::Metres(0);
    tried.ranked.choose_anew();
    ASSERT_TRUE(tried.ranked.candidates[5].site);
    const WhatIfTable table = tried.table();
    EXPECT_TRUE(line_of(table, "weights.fitness_share", 0.8).changes_nothing());
    for (const auto& [subject, to] :
         {std::pair("weights.fitness_share", 0.2), std::pair("weights.fitness_share", 0.0),
          std::pair("weights.quiet", 0.0)}) {
        EXPECT_EQ(line_of(table, subject, to).lost, Numbers{*tried.ranked.candidates[5].site}) << subject;
        EXPECT_EQ(line_of(table, subject, to).came, Numbers{3}) << subject;
    }
}

// The same two trees by the same road, but Ben's is too thin. Let in, it has the road like any other and
// stays behind; with the middle taken for what nobody measured it would come out ahead.
TEST(WhatIf, MeasuresTheTreesThatComeIn) {
    Site site(4);
    site.add_tree({408.0, 0.0});
    site.settings.profile.utilities.road = Sourced<Curve>{{{{1, 0}, {9, 1}}}, {}};
    site.settings.suitability.roads.near = core::Metres(0);
    site.inventory.columns.add(trees::TreeField::dbh);
    for (trees::Tree& tree : site.inventory.rows) {
        tree.dbh = core::Centimetres(50);
        tree.crown_radius = core::Metres(0);
    }
    site.inventory.rows[3].dbh = core::Centimetres(22);
    trees::Surroundings around;
    around.roads = {"roads.geojson", {{{}, {{{399, -50}, {399, 50}}}, {}}}};
    Tried tried(site, around);
    measure_distances(tried.ranked.candidates, site.inventory, around, site.settings.suitability, {1});
    tried.ranked.choose_anew();
    ASSERT_TRUE(tried.ranked.candidates[5].site);
    EXPECT_TRUE(line_of(tried.table(), "suitability.min_dbh_cm", 20.0).changes_nothing());
}

TEST(WhatIf, IsTheSameForAnyNumberOfThreads) {
    const Site site(5);
    const Tried tried(site);
    const WhatIfTable one = tried.table(1);
    for (const unsigned threads : {2U, 7U}) {
        const WhatIfTable many = tried.table(threads);
        ASSERT_EQ(one.lines.size(), many.lines.size());
        for (std::size_t i = 0; i < one.lines.size(); ++i) {
            EXPECT_EQ(one.lines[i].subject, many.lines[i].subject);
            EXPECT_EQ(one.lines[i].lost, many.lines[i].lost);
            EXPECT_EQ(one.lines[i].came, many.lines[i].came);
        }
    }
}

}  // namespace
}  // namespace roostward::siting
