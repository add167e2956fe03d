#include "roostward/evenings/choose_posts.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "evenings/meadow.hpp"
#include "roostward/core/error.hpp"
#include "roostward/core/random.hpp"

namespace roostward::evenings {
namespace {

using core::Hours;
using core::Metres;

Posts chosen(const Meadow& meadow, const Asked& asked, unsigned threads = 1) {
    return choose_posts(meadow.ground(), meadow.known(), asked, core::Threads{threads});
}

double minutes(core::Instant from, core::Instant to) {
    return core::hours_between(from, to).value() * 60.0;
}

/// Σ (1 − exp(−E/0.3 h)) over trees, of long watches at these stations.
double covered(const Meadow& meadow, const std::vector<std::vector<std::size_t>>& stations_by_evening) {
    double sum = 0.0;
    for (const core::PlanePoint stem : meadow.stems) {
        double hours = 0.0;
        for (const auto& evening : stations_by_evening) {
            double missed = 1.0;
            for (const std::size_t s : evening)
                missed *= 1.0 - std::exp(-core::squared_distance(stem, meadow.stations.rows[s].position) /
                                         (2.0 * 40.0 * 40.0));
            hours += 1.5 * (1.0 - missed);
        }
        sum += 1.0 - std::exp(-hours / 0.3);
    }
    return sum;
}

// Greedy choice of monotone submodular gains: 1 − 1/e of the best for any places, one half where each team
// and evening has its own (Nemhauser, Wolsey & Fisher 1978; Fisher, Nemhauser & Wolsey 1978, from memory). In
// practice it comes much nearer.
TEST(ChoosePosts, ComesNearTheBestOfAllWays) {
    double least = 1.0, sum = 0.0;
    constexpr int parks = 30;
    for (int seed = 1; seed <= parks; ++seed) {
        core::RandomStream random(static_cast<std::uint64_t>(seed), "meadow");
        const auto anywhere = [&] {
            return core::PlanePoint{random.uniform(0, 400), random.uniform(0, 400)};
        };
        Meadow meadow;
        std::vector<core::PlanePoint> places;
        for (int i = 0; i < 40; ++i)
            meadow.stems.push_back(anywhere());
        while (places.size() < 8)
            if (const auto p = anywhere(); std::ranges::any_of(
                    meadow.stems, [&](auto stem) { return core::distance(stem, p) < Metres(60); }))
                places.push_back(p);
        meadow.stand_at(places);
        Asked asked = asked_for(2, 2, 1);
        asked.spacing = Metres(0.5);  // each tree a spot of its own
        const Posts posts = chosen(meadow, asked);
        std::vector<std::vector<std::size_t>> ours;
        for (const auto& evening : posts.rounds) {
            auto& stations = ours.emplace_back();
            for (const Round& round : evening)
                for (const Post& post : round.posts)
                    stations.push_back(std::stoul(posts.places[post.place].name) - 1);
        }
        double best = 0.0;
        for (std::size_t a = 0; a < 8; ++a)
            for (std::size_t b = a; b < 8; ++b)
                for (std::size_t c = 0; c < 8; ++c)
                    for (std::size_t d = c; d < 8; ++d)
                        best = std::max(best, covered(meadow, {{a, b}, {c, d}}));
        const double share = covered(meadow, ours) / best;
        least = std::min(least, share);
        sum += share;
        EXPECT_LE(share, 1.0 + 1e-12);
    }
    EXPECT_GE(least, 0.9);
    EXPECT_GE(sum / parks, 0.98);
}

TEST(ChoosePosts, TakesWalkingAndSettlingOffThePosts) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {200, 0}});
    meadow.stems = {{0, 5}, {200, 5}};
    const Posts posts = chosen(meadow, asked_for(1, 1, 2));
    const Round& round = posts.rounds[0][0];
    ASSERT_EQ(round.posts.size(), 2U);
    EXPECT_DOUBLE_EQ(round.walk.value(), 260.0);
    EXPECT_NEAR(minutes(round.posts[0].end, round.posts[1].start), 5.0 + 260.0 / 50.0, 1e-3);
    EXPECT_NEAR(round.posts[0].hours().value() * 60.0, (90.0 - 10.2) / 2.0, 1e-3);
    EXPECT_NEAR(minutes(round.posts[0].start, round.posts[1].end), 90.0, 1e-3);
}

TEST(ChoosePosts, KeepsPostsOfAQuarterOfAnHour) {
    Meadow meadow;
    std::vector<core::PlanePoint> places;
    for (int i = 0; i < 8; ++i) {
        places.push_back({i * 50.0, 0.0});
        meadow.stems.push_back({i * 50.0, 10.0});
    }
    meadow.stand_at(places);
    for (const std::optional<std::size_t> wanted : {std::optional<std::size_t>{}, {6}, {5}}) {
        const Posts posts = chosen(meadow, asked_for(2, 1, wanted));
        for (const Round& round : posts.rounds[0]) {
            EXPECT_GE(round.posts.size(), 2U);
            for (const Post& post : round.posts)
                EXPECT_GE(post.hours().value() * 60.0, 15.0 - 1e-6);
        }
    }
}

TEST(ChoosePosts, NobodyMovesByAFewSteps) {
    Meadow meadow;
    for (int i = 0; i < 6; ++i)
        meadow.stems.push_back({i * 5.0, 10.0});
    meadow.stand_at({{0, 0}, {6, 0}, {12, 0}, {18, 0}, {24, 0}});
    EXPECT_EQ(chosen(meadow, asked_for(1, 1, 3)).rounds[0][0].posts.size(), 1U);
}

TEST(ChoosePosts, ARoundStaysOnOneBank) {
    Meadow meadow;
    meadow.water = {"water.geojson", {{{}, {{{100, -3000}, {100, 3000}}}, {}}}};
    meadow.stand_at({{40, 0}, {160, 0}, {40, 80}});
    meadow.stems = {{40, 5}, {40, -5}, {160, 5}, {160, -5}, {160, 15}, {40, 85}, {40, 75}};
    const Posts posts = chosen(meadow, asked_for(1, 1, 2));
    const Round& round = posts.rounds[0][0];
    ASSERT_EQ(round.posts.size(), 2U);
    for (const Post& post : round.posts)
        EXPECT_LT(posts.places[post.place].position.easting, 100.0) << "there is no bridge";
}

TEST(ChoosePosts, TwoTeamsDoNotCountTheSamePass) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {0, 0}});
    meadow.stems = {{0, 0}};
    Asked asked = asked_for(2, 2, 1);
    asked.min_watch = Hours(2.0);
    const Posts posts = chosen(meadow, asked);
    EXPECT_EQ(posts.share_after, (std::vector<double>{0.0, 1.0})) << "1.5 h an evening, not 3 h";
}

TEST(ChoosePosts, TellsSharesAndTheCornerLeftUnwatched) {
    Meadow meadow;
    meadow.stand_at({{0, 0}});
    meadow.stems = {{0, 10}, {10, 0}, {300, 300}, {310, 300}};
    const Posts posts = chosen(meadow, asked_for(1, 1));
    EXPECT_EQ(posts.share_before, 0.0);
    EXPECT_EQ(posts.share_after, std::vector<double>{0.5});
    EXPECT_EQ(posts.unwatched_trees, 2U);
    ASSERT_TRUE(posts.unwatched_toward);
    EXPECT_NEAR(posts.unwatched_toward->value(), 45.0, 2.0);
    const Post& post = posts.rounds[0][0].posts[0];
    EXPECT_EQ(post.why.because, Because::new_ground);
    EXPECT_EQ(post.why.trees, 2U);
    ASSERT_TRUE(post.view) << "all trees stand to the north-east";
    EXPECT_EQ(post.view->width, core::Degrees(180));
    EXPECT_LE(core::turn_between(post.view->look, core::Degrees(45)).value(), 45.0);
}

TEST(ChoosePosts, LooksAllRoundWhereTreesStandAllRound) {
    Meadow meadow;
    meadow.stand_at({{0, 0}});
    meadow.stems = {{0, 20}, {20, 0}, {0, -20}, {-20, 0}};
    EXPECT_FALSE(chosen(meadow, asked_for(1, 1)).rounds[0][0].posts[0].view);
}

TEST(ChoosePosts, EyesSeeLessAsItDarkens) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {100, 0}, {200, 0}});
    meadow.stems = {{0, 5}, {100, 5}, {200, 5}};
    Asked asked = asked_for(1, 1, 3);
    asked.teams[0].seen_by = "eye";
    asked.teams[0].farthest_seen = Metres(40.0);
    const auto posts = chosen(meadow, asked).rounds[0][0].posts;
    ASSERT_EQ(posts.size(), 3U);
    // On 1 June the sun sets at 51.5° N, 0° E, shortly after 20:05 UTC and stands at −6° some 48 min later.
    EXPECT_GT(posts[0].farthest_seen, Metres(38.0));
    EXPECT_LT(posts[1].farthest_seen, posts[0].farthest_seen);
    EXPECT_GT(posts[2].farthest_seen, Metres(13.0));
    EXPECT_LT(posts[2].farthest_seen, Metres(25.0));
}

TEST(ChoosePosts, WhoWasWatchedEarlyIsWatchedLateTheNextTime) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {100, 0}});
    meadow.stems = {{0, 5}, {100, 5}};
    const Posts posts = chosen(meadow, asked_for(4, 1, 2));
    for (std::size_t e = 1; e < 4; ++e)
        EXPECT_NE(posts.rounds[e][0].posts[0].place, posts.rounds[e - 1][0].posts[0].place) << e;
    KnownTrees known = meadow.known();
    known.held = {{{0, 0}, Hours(0.0), Hours(0.6), Metres(40.0)}};
    const Posts next = choose_posts(meadow.ground(), known, asked_for(1, 1, 2), core::Threads{1});
    EXPECT_EQ(next.places[next.rounds[0][0].posts[1].place].position, (core::PlanePoint{0, 0}));
}

/// Watched for three hours on three evenings.
void settle(TreeKnown& tree, double an_hour, double deviation) {
    tree.watched = Hours(3.0);
    tree.evenings = 3;
    tree.passes = belief_of(an_hour, deviation);
}

TEST(ChoosePosts, ReturnsToWhereTheChoiceHangs) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {300, 0}, {600, 0}});
    meadow.stems = {{0, 5}, {300, 5}, {600, 5}};
    KnownTrees known = meadow.known();
    settle(known.trees[0], 20.0, 1.0);
    settle(known.trees[1], 8.0, 4.0);
    settle(known.trees[2], 0.5, 0.3);
    known.trees[0].chosen = true;
    known.trees[1].chosen = true;
    settle(known.trees.emplace_back(known.trees[1]), 7.0, 4.0);
    known.trees.back().tree = 3;
    known.trees.back().stem = {340, 5};
    known.trees.back().chosen = false;
    Asked asked = asked_for(1, 1, 1);
    asked.sites = 2;
    const Posts posts = choose_posts(meadow.ground(), known, asked, core::Threads{1});
    EXPECT_EQ(posts.places[0].name, "2") << "trees 1 and 3 may change places";
    ASSERT_EQ(posts.sites.size(), 2U);
    EXPECT_EQ(posts.sites[0].confirmed, Confirmed::not_tried);
    EXPECT_EQ(posts.sites[1].confirmed, Confirmed::confirmed);
    EXPECT_NE(posts.rounds[0][0].posts[0].why.because, Because::new_ground);
    EXPECT_EQ(posts.share_before, 1.0);
}

TEST(ChoosePosts, GoesToNewGroundThatPromisesMore) {
    Meadow meadow;
    meadow.stand_at({{0, 0}, {300, 0}});
    meadow.stems = {{0, 5}, {300, 5}};
    KnownTrees known = meadow.known();
    settle(known.trees[0], 8.0, 1.0);
    known.trees[0].chosen = true;
    known.trees[1].passes = belief_of(8.0, 10.0);
    Asked asked = asked_for(1, 1, 1);
    asked.sites = 1;
    const Posts posts = choose_posts(meadow.ground(), known, asked, core::Threads{1});
    EXPECT_EQ(posts.places[0].name, "2");
    EXPECT_EQ(posts.rounds[0][0].posts[0].why.because, Because::new_ground);
}

TEST(ChoosePosts, AWallOfCrownsIsWalkedRound) {
    Meadow meadow;
    meadow.stand_at({{10, 50}, {90, 50}});
    meadow.stems = {{60, 50}, {61, 62}, {59, 38}};
    const std::string through = chosen(meadow, asked_for(1, 1, 1)).places[0].name;
    EXPECT_EQ(through, "2") << "the nearer";
    core::Raster canopy;
    canopy.grid = {{0, 100}, Metres(1), 100, 100};
    canopy.values.assign(canopy.grid.size(), 0.0F);
    canopy.known.assign(canopy.grid.size(), 1);
    for (std::size_t row = 0; row < 100; ++row)
        for (std::size_t column = 68; column < 86; ++column)
            canopy.values[canopy.grid.index({row, column})] = 6.0F;
    meadow.canopy_height = canopy;
    EXPECT_EQ(chosen(meadow, asked_for(1, 1, 1)).places[0].name, "1");
}

TEST(ChoosePosts, IsTheSameForAnyNumberOfThreads) {
    core::RandomStream random(7, "meadow");
    Meadow meadow;
    for (int i = 0; i < 300; ++i)
        meadow.stems.push_back({random.uniform(0, 500), random.uniform(0, 500)});
    const Posts one = chosen(meadow, asked_for(3, 2)), four = chosen(meadow, asked_for(3, 2), 4);
    ASSERT_EQ(one.places.size(), four.places.size());
    for (std::size_t p = 0; p < one.places.size(); ++p)
        EXPECT_EQ(one.places[p].position, four.places[p].position);
    EXPECT_EQ(one.share_after, four.share_after);
    for (std::size_t e = 0; e < 3; ++e)
        for (std::size_t t = 0; t < 2; ++t) {
            ASSERT_EQ(one.rounds[e][t].posts.size(), four.rounds[e][t].posts.size());
            for (std::size_t i = 0; i < one.rounds[e][t].posts.size(); ++i) {
                EXPECT_EQ(one.rounds[e][t].posts[i].place, four.rounds[e][t].posts[i].place);
                EXPECT_EQ(one.rounds[e][t].posts[i].start, four.rounds[e][t].posts[i].start);
            }
        }
}

TEST(ChoosePosts, MoreTeamsThanPlacesAreTold) {
    Meadow meadow;
    meadow.stand_at({{0, 0}});
    meadow.stems = {{0, 5}};
    try {
        (void)chosen(meadow, asked_for(1, 2));
        FAIL();
    } catch (const core::Error& error) {
        EXPECT_NE(std::string(error.what()).find("2 teams are more than the 1 places"), std::string::npos);
    }
}

}  // namespace
}  // namespace roostward::evenings
