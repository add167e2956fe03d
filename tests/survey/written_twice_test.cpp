#include <gtest/gtest.h>

#include "roostward/core/random.hpp"
#include "survey/notes.hpp"

namespace roostward::survey {
namespace {

using namespace notes;

Pass noted(core::PlanePoint place, double seconds, std::string observer = {}) {
    Pass one = pass("A", place, 1, 0);
    one.time = at(1, 21, 0) + std::chrono::milliseconds(static_cast<long long>(1000.0 * seconds));
    one.bearing = core::Degrees(90.0);
    one.observer = std::move(observer);
    return one;
}

Notes an_evening() {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1)};
    return notes;
}

/// 120 flights an hour along a line, each 4 m beside it; and the same once more, 7 s later and 3 m off.
Notes written_by_two(const std::string& one, const std::string& other) {
    Notes notes = an_evening();
    core::RandomStream random(3, "an evening");
    for (int i = 0; i < 120; ++i) {
        const core::PlanePoint place{60.0 * random.uniform(-1.0, 1.0), 4.0 * random.normal()};
        const double seconds = 3580.0 * random.uniform();
        notes.passes.rows.push_back(noted(place, seconds, one));
        notes.passes.rows.push_back(noted({place.easting + 3.0, place.northing}, seconds + 7.0, other));
    }
    return notes;
}

double animals(const Matched& seen) {
    double sum = 0.0;
    for (const Flight& flight : seen.survey.flights)
        sum += flight.count;
    return sum;
}

TEST(WrittenTwice, ByTwoCountsOnce) {
    const Matched seen = written_by_two("R.K.", "T.M.").match();
    EXPECT_NEAR(animals(seen), 120.0, 8.0) << "chance brings some flights as close";
    EXPECT_EQ(static_cast<std::size_t>(animals(seen)) + seen.set_aside("passes"), 240U);
}

TEST(WrittenTwice, ByOneIsToldAndCounts) {
    const Matched seen = written_by_two("R.K.", "R.K.").match();
    EXPECT_EQ(animals(seen), 240.0);
    EXPECT_EQ(kinds(seen), std::vector<std::string>{"notes close together"});
    EXPECT_EQ(seen.findings[0].severity, core::Severity::doubtful);
    EXPECT_EQ(seen.set_aside("passes"), 0U);
}

TEST(WrittenTwice, TheSiteFileDecides) {
    Notes once = written_by_two("", "");
    once.settings.written_twice = WrittenTwice::count_once;
    EXPECT_NEAR(animals(once.match()), 120.0, 12.0);
    Notes kept = written_by_two("R.K.", "T.M.");
    kept.settings.written_twice = WrittenTwice::keep;
    EXPECT_EQ(animals(kept.match()), 240.0);
}

// 10 s, 15 m and 45° are inclusive; the second writer is needed.
TEST(WrittenTwice, WithinTheBoundsOnly) {
    const auto counted = [](const Pass& second) {
        Notes notes = an_evening();
        notes.passes.rows = {noted({0, 0}, 100, "R.K."), second};
        return animals(notes.match());
    };
    EXPECT_EQ(counted(noted({15, 0}, 110, "T.M.")), 1.0);
    EXPECT_EQ(counted(noted({15.01, 0}, 110, "T.M.")), 2.0);
    EXPECT_EQ(counted(noted({15, 0}, 110.01, "T.M.")), 2.0);
    EXPECT_EQ(counted(noted({15, 0}, 110, "R.K.")), 2.0);
    EXPECT_EQ(counted(noted({15, 0}, 110)), 2.0);
    Pass turned = noted({0, 0}, 100, "T.M.");
    turned.bearing = core::Degrees(135.0);
    EXPECT_EQ(counted(turned), 1.0);
    turned.bearing = core::Degrees(135.1);
    EXPECT_EQ(counted(turned), 2.0);
    turned.bearing.reset();
    EXPECT_EQ(counted(turned), 1.0);
}

TEST(WrittenTwice, ThreeWritersWriteOneFlight) {
    Notes notes = an_evening();
    notes.passes.rows = {noted({0, 0}, 100, "R.K."), noted({1, 0}, 101, "T.M."), noted({2, 0}, 102, "J.S."),
                         noted({3, 0}, 104, "T.M.")};
    const Matched seen = notes.match();
    EXPECT_EQ(animals(seen), 2.0) << "the second of T.M. is another flight";
    EXPECT_EQ(seen.set_aside("passes"), 2U);
}

// One writer, nothing written twice, times to the second or to the minute: over 200 busy evenings, a finding
// in few.
TEST(WrittenTwice, ABusyRouteIsSeldomToldOf) {
    for (const double clock : {1.0, 60.0}) {
        int told = 0;
        for (std::uint64_t seed = 1; seed <= 200; ++seed) {
            Notes notes = an_evening();
            core::RandomStream random(seed, "a busy route");
            for (int i = 0; i < 200; ++i)
                notes.passes.rows.push_back(noted({60.0 * random.uniform(-1.0, 1.0), 4.0 * random.normal()},
                                                  clock * std::floor(3599.0 * random.uniform() / clock)));
            told += kinds(notes.match()).empty() ? 0 : 1;
        }
        EXPECT_LE(told, 4) << "clock of " << clock << " s";
    }
}

}  // namespace
}  // namespace roostward::survey
