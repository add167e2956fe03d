#include "roostward/siting/certainty.hpp"

#include <gtest/gtest.h>

#include <numeric>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/siting/choice.hpp"
#include "roostward/siting/redraws.hpp"

namespace roostward::siting {
namespace {

using core::PlanePoint;

/// Two stations 400 m apart, Ada's and Ben's, on `evenings` evenings. Past Ada's trees animals fly every
/// evening, past Ben's on the last two alone.
struct Site {
    survey::Survey survey;
    trees::Inventory inventory;
    Settings settings;

    explicit Site(unsigned evenings) {
        for (unsigned day = 1; day <= evenings; ++day) {
            survey.evenings.push_back(examples::evening(day));
            add_watch({0, 0}, "A", "Ada", day);
            add_watch({400, 0}, "B", "Ben", day);
            add_flights({0, 5}, day, 2 * (day - 1), 3);
            if (day + 2 > evenings) add_flights({400, 5}, day, 2 * (day - 1) + 1, 12);
        }
        for (const double easting : {0.0, 15.0, 60.0, 400.0, 415.0})
            add_tree({easting, 0.0});
        settings.choice.sites = 2;
        settings.choice.spacing = core::Metres(30.0);
        settings.activity.min_watch = core::Hours(0.25);
    }

    void add_watch(PlanePoint place, const std::string& name, const std::string& observer, unsigned day) {
        survey.watches.push_back(examples::watch({place}, 1.0, 40.0, day));
        survey.watches.back().name = name;
        survey.watches.back().observer = observer;
        survey.watch_evening.push_back(day - 1);
    }
    void add_flights(PlanePoint place, unsigned day, std::uint32_t watch, int count) {
        for (int i = 0; i < count; ++i) {
            survey.flights.push_back(examples::flight({place}, 40.0, 1.0, day - 1));
            survey.flights.back().watch = watch;
        }
    }
    void add_tree(PlanePoint stem) {
        inventory.rows.emplace_back();
        inventory.rows.back().stem = stem;
    }
    [[nodiscard]] std::vector<PlanePoint> stems() const {
        std::vector<PlanePoint> stems;
        for (const trees::Tree& tree : inventory.rows)
            stems.push_back(tree.stem);
        return stems;
    }
};

/// A site ranked and chosen by all its data.
struct Ranked {
    const Site& site;
    activity::FlightDensity density;
    activity::EveningTable table;
    std::vector<Candidate> candidates;

    explicit Ranked(const Site& of)
        : site(of),
          density(of.survey, {core::Metres(8.0), core::Hours(0.4)}, of.settings.activity),
          table(density.at(of.stems(), core::Threads{1})) {
        std::vector<trees::Verdict> verdicts(of.inventory.rows.size());
        candidates = candidates_of(verdicts, density.summarise(table), of.settings.activity.min_watch);
        score_and_rank(candidates, of.inventory);
        choose(candidates, of.inventory, of.settings.choice);
    }
    [[nodiscard]] Certainty certainty(unsigned threads = 1) {
        return how_sure(candidates, {site.inventory, site.survey, density, table}, site.settings,
                        core::Threads{threads});
    }
};

TEST(Certainty, NamesWhatTheChoiceHangsOn) {
    const Site site(4);
    Ranked ranked(site);
    ASSERT_TRUE(ranked.candidates[3].site) << "Ben's evenings make a site";
    const std::size_t bens = *ranked.candidates[3].site;
    const Certainty certainty = ranked.certainty();
    ASSERT_EQ(certainty.strongest.size(), 3U);
    const Influence& evening = certainty.strongest[0];
    EXPECT_EQ(evening.source, Source::evening);
    EXPECT_EQ(evening.name, core::to_text(site.survey.evenings[2]));
    EXPECT_EQ(evening.sites_lost, std::vector{bens}) << "used on one of three evenings is too little";
    const Influence& station = certainty.strongest[1];
    EXPECT_EQ(station.name, "B");
    EXPECT_NEAR(station.share, 24.0 / 36.0, 1e-12);
    EXPECT_EQ(station.sites_lost, std::vector{bens});
    EXPECT_EQ(certainty.strongest[2].name, "Ben");
}

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

TEST(Certainty, RangesHoldTheEstimateAndNeedThreeEvenings) {
    for (const unsigned evenings : {2U, 3U, 5U}) {
        const Site site(evenings);
        Ranked ranked(site);
        static_cast<void>(ranked.certainty());
        for (const Candidate& candidate : ranked.candidates) {
            EXPECT_EQ(candidate.flight_range.has_value(),
                      evenings >= 3 && candidate.activity.evenings_watched >= 3);
            if (!candidate.flight_range) continue;
            EXPECT_LE(candidate.flight_range->low, candidate.activity.flight_density);
            EXPECT_GE(candidate.flight_range->high, candidate.activity.flight_density);
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
