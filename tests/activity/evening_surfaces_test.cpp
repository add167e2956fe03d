#include "roostward/activity/evening_surfaces.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/flight_density.hpp"

namespace roostward {
namespace {

using activity::evening_surfaces;

const activity::Bandwidth spread{core::Metres(7.0), core::Hours(0.4)};
const core::Box ground{{0.0, 0.0}, {300.0, 200.0}};

/// Three evenings: on the first everybody saw something, on the second nobody did, on the third nobody
/// watched in the west.
survey::Survey three_evenings() {
    survey::Survey survey;
    for (unsigned day = 1; day <= 3; ++day) {
        survey.evenings.push_back(examples::evening(day));
        survey.watches.push_back(examples::watch({{220, 100}}, 1.5, 50.0, day));
        survey.watch_evening.push_back(day - 1);
        if (day == 3) continue;
        survey.watches.push_back(examples::watch({{60, 100}}, 1.0, 40.0, day));
        survey.watch_evening.push_back(day - 1);
    }
    for (int i = 0; i < 12; ++i) {
        survey.flights.push_back(examples::flight({{40.0 + 2 * i, 90}, {90.0 + 2 * i, 110}}, 53.0));
        survey.flights.push_back(examples::flight({{200.0 + 3 * i, 60}, {210.0, 120.0}}, 60.0, 1.0, 2));
        survey.flights.rbegin()[1].watch = 1;
        survey.flights.back().watch = 4;
    }
    for (survey::Flight& flight : survey.flights)
        flight.placed = true;
    return survey;
}

std::vector<core::Raster> made(const survey::Survey& survey, std::size_t most_cells = 4000,
                               unsigned threads = 2) {
    return evening_surfaces(survey, spread, {}, ground, most_cells, {threads});
}

/// λ of one evening: what flew on it and was seen, over its own hours; both lean on the mean of all evenings.
TEST(EveningSurfaces, AreTheFlightDensityOfEachEveningAlone) {
    const survey::Survey survey = three_evenings();
    const auto surfaces = made(survey);
    ASSERT_EQ(surfaces.size(), 3U);
    const activity::FlightDensity density(survey, spread, {});
    const std::vector<core::PlanePoint> places{surfaces[0].grid.centre({20, 15}),
                                               surfaces[0].grid.centre({22, 55})};
    const activity::EveningTable table = density.at(places, {1});
    for (std::size_t place = 0; place < places.size(); ++place)
        for (std::size_t evening = 0; evening < 3; ++evening) {
            const std::size_t at = table.at(place, evening);
            const auto shown = surfaces[evening].at(places[place]);
            ASSERT_EQ(shown.has_value(), table.watched[at] >= 0.125) << place << " " << evening;
            if (!shown) continue;
            const double wanted =
                1e4 * (table.flown[at] + 0.4 * density.mean_rate()) / (table.smoothed[at] + 0.4);
            EXPECT_NEAR(*shown, wanted, 1e-6 * wanted) << place << " " << evening;
        }
}

TEST(EveningSurfaces, AreUnknownWhereNobodyWatchedThatEvening) {
    const auto surfaces = made(three_evenings());
    const core::PlanePoint west{60.0, 100.0}, east{220.0, 100.0};
    EXPECT_TRUE(surfaces[0].at(west));
    EXPECT_TRUE(surfaces[1].at(west));
    EXPECT_FALSE(surfaces[2].at(west));
    EXPECT_TRUE(surfaces[2].at(east));
    EXPECT_GT(*surfaces[0].at(west), 5.0F * *surfaces[1].at(west));
    EXPECT_FALSE(surfaces[0].at({2.0, 198.0}));
}

TEST(EveningSurfaces, HaveFewCellsAndLoseNoFlightBetweenThem) {
    const auto fine = made(three_evenings(), 60'000), coarse = made(three_evenings(), 150);
    EXPECT_EQ(fine[0].grid.cell.value(), activity::Settings().cell.value());
    EXPECT_LE(coarse[0].grid.size(), 150U);
    EXPECT_GT(coarse[0].grid.size(), 75U);
    EXPECT_EQ(coarse[0].grid, coarse[2].grid);
    // Σ M_n over the ground is what was flown on it, however wide the cells: λ (Ē + τ) − τ λ̄ is M.
    const survey::Survey survey = three_evenings();
    const auto metres = [&](const std::vector<core::Raster>& surfaces) {
        const core::Grid& grid = surfaces[0].grid;
        activity::Bandwidth wide = spread;
        wide.h = std::max(spread.h, grid.cell);
        const activity::FlightDensity density(survey, wide, {});
        double sum = 0.0;
        for (std::size_t row = 0; row < grid.rows; ++row)
            for (std::size_t column = 0; column < grid.columns; ++column) {
                const auto value = surfaces[0].at(grid.centre({row, column}));
                const std::vector<core::PlanePoint> place{grid.centre({row, column})};
                const auto table = density.at(place, {1});
                if (value)
                    sum += 1e-4 * static_cast<double>(*value) * (table.smoothed[0] + 0.4) -
                           0.4 * density.mean_rate();
            }
        return sum * grid.cell.value() * grid.cell.value();
    };
    EXPECT_NEAR(metres(made(survey, 2000)), 12 * 53.0, 12.0);
    EXPECT_NEAR(metres(coarse), 12 * 53.0, 0.1 * 12 * 53.0);
}

TEST(EveningSurfaces, HaveTheSameBitsForAnyNumberOfThreads) {
    const survey::Survey survey = three_evenings();
    const auto one = made(survey, 4000, 1), seven = made(survey, 4000, 7);
    for (std::size_t i = 0; i < one.size(); ++i) {
        EXPECT_EQ(one[i].known, seven[i].known);
        EXPECT_EQ(
            std::memcmp(one[i].values.data(), seven[i].values.data(), one[i].values.size() * sizeof(float)),
            0);
    }
}

TEST(KnownBox, HoldsTheKnownCells) {
    core::Raster raster{
        {{10.0, 50.0}, core::Metres(2.0), 4, 5}, std::vector<float>(20), std::vector<std::uint8_t>(20)};
    EXPECT_EQ(activity::known_box(raster).south_west, (core::PlanePoint{10.0, 42.0}));
    raster.known[raster.grid.index({1, 2})] = raster.known[raster.grid.index({2, 4})] = 1;
    const core::Box box = activity::known_box(raster);
    EXPECT_EQ(box.south_west, (core::PlanePoint{14.0, 44.0}));
    EXPECT_EQ(box.north_east, (core::PlanePoint{20.0, 48.0}));
}

}  // namespace
}  // namespace roostward
