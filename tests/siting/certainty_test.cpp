#include "roostward/siting/certainty.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "siting/two_stations.hpp"

namespace roostward::siting {
namespace {

// What a part is taken away from equals a survey that never had it.
TEST(Certainty, LeavingAPartOutEqualsNeverHavingHadIt) {
    const Site site(4);
    const std::vector<std::uint32_t> ada{0, 2, 4, 6}, ben{1, 3, 5, 7};
    const activity::FlightDensity whole(site.survey, {core::Metres(8.0), core::Hours(0.4)}, {});
    const activity::FlightDensity part(survey::part_of(site.survey, ada), whole);
    const activity::FlightDensity rest(survey::part_of(site.survey, ben),
                                       {core::Metres(8.0), core::Hours(0.4)}, {});
    const auto left = activity::difference(whole.at(site.stems(), core::Threads{1}),
                                           part.at(site.stems(), core::Threads{1}));
    const auto direct = rest.at(site.stems(), core::Threads{1});
    for (std::size_t i = 0; i < direct.flown.size(); ++i) {
        EXPECT_NEAR(left.flown[i], direct.flown[i], 1e-12);
        EXPECT_NEAR(left.watched[i], direct.watched[i], 1e-12);
        EXPECT_NEAR(left.smoothed[i], direct.smoothed[i], 1e-12);
        EXPECT_EQ(left.used[i], direct.used[i]);
    }
    EXPECT_NEAR(whole.mean_rate_without(part), rest.mean_rate(), 1e-15);
}

// Used on b and c of the evenings a, b, c, a tree needs two used evenings of three: 20 of 27 draws have them.
TEST(Certainty, StaysChosenCountsTheRedrawsThatChooseATree) {
    Site site(3);
    site.settings.choice.sites = 1;
    Ranked ranked(site);
    ASSERT_EQ(ranked.candidates[3].site, 1U);
    static_cast<void>(ranked.certainty());
    EXPECT_NEAR(ranked.candidates[3].stays_chosen, 20.0 / 27.0, 1e-12);
    double all = 0.0;
    for (const Candidate& candidate : ranked.candidates)
        all += candidate.stays_chosen;
    EXPECT_NEAR(all, 1.0, 1e-12);
}

// So many trees stand about Ben's that the best of a re-draw are all there: the second site, by Ada, is found
// although none of them can be it.
TEST(Certainty, LooksFurtherWhereTheBestContendersStandTogether) {
    Site site(3);
    for (int i = 1; i <= 300; ++i)
        site.add_tree({400.0 + 0.01 * i, 0.0});
    Ranked ranked(site);
    ASSERT_TRUE(ranked.candidates[0].site);
    static_cast<void>(ranked.certainty());
    EXPECT_NEAR(ranked.candidates[0].stays_chosen, 1.0, 1e-12);
}

TEST(Certainty, RangesOfScoresNeedThreeEvenings) {
    for (const unsigned evenings : {2U, 3U, 5U}) {
        const Site site(evenings);
        Ranked ranked(site);
        static_cast<void>(ranked.certainty());
        for (const Candidate& candidate : ranked.candidates) {
            EXPECT_EQ(candidate.score_range.has_value(),
                      evenings >= 3 && candidate.activity.evenings_watched >= 3);
            if (!candidate.score_range) continue;
            EXPECT_LE(candidate.score_range->low, candidate.score);
            EXPECT_GE(candidate.score_range->high, candidate.score);
            EXPECT_LE(candidate.score_range->high, 1.0);
        }
    }
}

TEST(Certainty, IsTheSameForAnyNumberOfThreads) {
    const Site site(5);
    Ranked one(site);
    static_cast<void>(one.certainty(1));
    for (const unsigned threads : {2U, 7U}) {
        Ranked many(site);
        static_cast<void>(many.certainty(threads));
        for (std::size_t i = 0; i < one.candidates.size(); ++i) {
            EXPECT_EQ(one.candidates[i].stays_chosen, many.candidates[i].stays_chosen);
            ASSERT_EQ(one.candidates[i].flight_range.has_value(),
                      many.candidates[i].flight_range.has_value());
            if (!one.candidates[i].flight_range) continue;
            EXPECT_EQ(one.candidates[i].flight_range->low, many.candidates[i].flight_range->low);
            EXPECT_EQ(one.candidates[i].score_range->high, many.candidates[i].score_range->high);
        }
    }
}

}  // namespace
}  // namespace roostward::siting
