#include <gtest/gtest.h>

#include <algorithm>

#include "survey/notes.hpp"

namespace roostward::survey {
namespace {

using namespace notes;
using Kinds = std::vector<std::string>;

std::ptrdiff_t placed(const Matched& seen) {
    return std::ranges::count_if(seen.survey.flights, [](const Flight& flight) { return flight.placed; });
}

/// Three passes where the watch stands, two elsewhere.
Notes recorder() {
    Notes notes;
    notes.watches.rows = {watch("oak", {0, 0}, 1), watch("lane", {500, 0}, 1)};
    for (int i = 0; i < 3; ++i)
        notes.passes.rows.push_back(pass("oak", {0.6, 0.8}, 1, i));
    notes.passes.rows.push_back(pass("oak", {20, 0}, 1, 10));
    notes.passes.rows.push_back(pass("lane", {500, 0}, 1, 10));
    return notes;
}

TEST(Heard, PlacesOfTheWatchItselfAreNone) {
    const Matched seen = recorder().match();
    EXPECT_EQ(placed(seen), 2) << "one pass overhead may be true, and so may the one elsewhere";
    EXPECT_EQ(kinds(seen), Kinds{"many passes at few points"});
    EXPECT_EQ(seen.findings[0].value, "3 of 4 passes of oak");
    EXPECT_EQ(seen.set_aside("passes"), 0U);
}

TEST(Heard, AloneTellsNoTreeFromAnother) {
    Notes notes;
    notes.watches.rows = {watch("oak", {0, 0}, 1)};
    notes.passes.rows = {pass("oak", {0, 0}, 1, 1)};
    notes.passes.rows[0].place_of = PlaceOf::recorder;
    EXPECT_EQ(kinds(notes.match()), (Kinds{"heard somewhere in view", "no flight has a place"}));
    notes.passes.rows.push_back(pass("oak", {10, 0}, 1, 2));
    EXPECT_EQ(kinds(notes.match()), Kinds{"heard somewhere in view"});
}

TEST(Heard, UnlessMostLieElsewhereOrTheyAreSaidToBeTheAnimals) {
    Notes elsewhere = recorder();
    for (int i = 0; i < 2; ++i)
        elsewhere.passes.rows.push_back(pass("oak", {20, 5}, 1, 20 + i));
    EXPECT_EQ(placed(elsewhere.match()), 7);
    Notes farther = recorder();
    for (int i = 0; i < 3; ++i)
        farther.passes.rows[static_cast<std::size_t>(i)].position = {0.8, 0.8};
    EXPECT_EQ(placed(farther.match()), 5) << "1 m is inclusive, and 1.13 m is farther";
    Notes told = recorder();
    for (auto& one : told.passes.rows)
        one.place_of = PlaceOf::animal;
    EXPECT_EQ(placed(told.match()), 5);
    EXPECT_TRUE(told.match().findings.empty());
}

TEST(Heard, ManyAtFewOtherPointsAreDoubtedAndKept) {
    Notes notes = recorder();
    notes.passes.rows.clear();
    for (int i = 0; i < 20; ++i)
        notes.passes.rows.push_back(pass("oak", {i < 16 ? 30.0 : 10.0 + i, i % 4 * 5.0}, 1, i));
    EXPECT_EQ(placed(notes.match()), 20);
    EXPECT_EQ(kinds(notes.match()), Kinds{"many passes at few points"});
    for (auto& one : notes.passes.rows)
        one.accuracy = core::Metres(7.2);
    EXPECT_TRUE(notes.match().findings.empty()) << "squares and marks are told with their accuracy";
}

TEST(Feeding, CountsOnceInFiveMinutes) {
    Notes notes;
    notes.watches.rows = {watch("oak", {0, 0}, 1), watch("lane", {500, 0}, 1)};
    for (const int minute : {0, 1, 4, 5, 30})
        notes.passes.rows.push_back(pass("oak", {10.0 + minute, 0}, 1, minute));
    notes.passes.rows.push_back(pass("lane", {510, 0}, 1, 1));
    for (auto& one : notes.passes.rows)
        one.behaviour = Behaviour::foraging;
    const Matched seen = notes.match();
    double animals = 0.0;
    for (const Flight& flight : seen.survey.flights)
        animals += flight.count;
    EXPECT_NEAR(animals, 4.0, 1e-12) << "0 to 4 are one; 5 begins anew; the lane is another watch";
    EXPECT_EQ(kinds(seen), Kinds{"feeding counted once"});
    EXPECT_EQ(seen.findings[0].value, "3 passes as 1");
    notes.settings.feeding_once = std::chrono::minutes(0);
    EXPECT_EQ(notes.match().survey.flights[0].count, 1.0);
}

TEST(Feeding, OfATallyCountsOnceInFiveMinutes) {
    Notes notes;
    notes.watches.rows = {watch("oak", {0, 0}, 1)};
    notes.tallies.rows = {tally("oak", 40)};
    notes.tallies.rows[0].behaviour = Behaviour::foraging;
    EXPECT_DOUBLE_EQ(notes.match().survey.flights.at(0).count, 12.0);
}

}  // namespace
}  // namespace roostward::survey
