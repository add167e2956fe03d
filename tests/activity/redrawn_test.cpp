#include "roostward/activity/redrawn.hpp"

#include <gtest/gtest.h>

#include "roostward/core/random.hpp"

namespace roostward::activity {
namespace {

/// Of so many evenings, some watched too briefly to count and some without flight.
EveningTable random_table(std::size_t evenings) {
    core::RandomStream random(3, "table");
    EveningTable table;
    table.rows = 40;
    table.evenings = evenings;
    for (std::size_t i = 0; i < table.rows * evenings; ++i) {
        table.flown.push_back(random.uniform(0.0, 0.2));
        table.watched.push_back(random.uniform(0.0, 0.5));
        table.smoothed.push_back(random.uniform(0.0, 0.5));
        table.used.push_back(random.uniform() < 0.5 ? 0 : 2);
    }
    return table;
}

// The twin takes one re-draw of one point at a time. Draws of 3 evenings (10) and of 9 (13) fill no whole
// block.
TEST(Redrawn, EqualsOneReDrawAtATimeToTheBit) {
    for (const std::size_t evenings : {3U, 9U}) {
        survey::Survey survey;
        survey.evenings.resize(evenings);
        const FlightDensity density(survey, {core::Metres(8.0), core::Hours(0.4)}, {});
        const EveningTable table = random_table(evenings);
        const auto draws = draw_evenings(evenings, 1, 13);
        const Redraws redraws(density, draws);
        RedrawnPoint redrawn(redraws);
        ASSERT_EQ(redraws.size(), draws.size());
        for (std::size_t point = 0; point < table.rows; ++point) {
            redrawn.look_at(table, point);
            std::vector<double> rates(draws.size()), hardly(draws.size());
            redrawn.rates(core::Hours(0.4), rates);
            redrawn.rates(core::Hours(0.05), hardly);
            for (std::size_t d = 0; d < draws.size(); ++d) {
                const PointActivity one =
                    density.summarise(table, point, draws[d].times, redraws.mean_rate(d));
                const PointActivity ours = redrawn.in(d);
                EXPECT_EQ(ours.flight_density, one.flight_density);
                EXPECT_EQ(rates[d], one.flight_density);
                EXPECT_EQ(hardly[d], FlightDensity::rate(one.flown, one.smoothed, redraws.mean_rate(d),
                                                         core::Hours(0.05)));
                EXPECT_EQ(redrawn.evenings_watched()[d], one.evenings_watched);
                EXPECT_EQ(redrawn.evenings_used()[d], one.evenings_used);
                EXPECT_EQ(ours.flown, one.flown);
                EXPECT_EQ(ours.smoothed, one.smoothed);
                EXPECT_EQ(ours.watch_hours, one.watch_hours);
                EXPECT_EQ(ours.evenings_watched, one.evenings_watched);
                EXPECT_EQ(ours.evenings_used, one.evenings_used);
                EXPECT_EQ(ours.watched, one.watched);
            }
        }
    }
}

}  // namespace
}  // namespace roostward::activity
