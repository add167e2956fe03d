#include "roostward/siting/flight_figures.hpp"

#include <gtest/gtest.h>

#include "two_stations.hpp"

namespace roostward::siting {
namespace {

std::vector<Candidate> with_figures(const Site& site) {
    Ranked ranked(site);
    give_flight_figures(ranked.candidates, site.inventory, site.survey, site.settings, core::Threads{1});
    return ranked.candidates;
}

TEST(FlightFigures, EveryWatchedTreeHasARangeOnOneEveningToo) {
    for (const unsigned evenings : {1U, 2U, 5U}) {
        for (const Candidate& tree : with_figures(Site(evenings))) {
            if (!tree.activity.watched) continue;
            ASSERT_TRUE(tree.flights.range && tree.flight_range);
            EXPECT_LE(tree.flights.range->low, tree.flights.per_hour);
            EXPECT_GE(tree.flights.range->high, tree.flights.per_hour);
            EXPECT_LE(tree.flight_range->low, tree.activity.flight_density);
            EXPECT_GE(tree.flight_range->high, tree.activity.flight_density);
        }
    }
}

// 35 m from the station and its flights: watched for most of three hours, and nothing came within 20 m.
TEST(FlightFigures, WhereNothingCamePastThereIsOnlyAHighEnd) {
    Site site(3);
    site.add_tree({35.0, 20.0});
    const Candidate tree = with_figures(site).back();
    ASSERT_TRUE(tree.activity.watched);
    EXPECT_TRUE(tree.flights.none_seen);
    EXPECT_EQ(tree.flights.per_hour, 0.0);
    EXPECT_EQ(tree.flights.range->low, 0.0);
    EXPECT_GT(tree.flights.range->high, 0.0);
    EXPECT_GT(tree.activity.flight_density, 0.0) << "it leans on the mean";
}

TEST(FlightFigures, MoreEveningsMakeNarrowerRanges) {
    const auto width = [](unsigned evenings) {
        const Candidate tree = with_figures(Site(evenings)).front();
        return tree.flights.range->high / tree.flights.range->low;
    };
    EXPECT_GT(width(1), 1.3 * width(6));
}

}  // namespace
}  // namespace roostward::siting
