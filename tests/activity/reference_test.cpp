#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/kernel.hpp"

// Values from outside the project. How each file was made: tests/reference/activity/SOURCE.
namespace roostward {
namespace {

using activity::Bandwidth;
using activity::EveningTable;
using activity::FlightDensity;
using core::PlanePoint;
using examples::reference_rows;
using examples::Row;

EveningTable table_at(const survey::Survey& survey, double h, const std::vector<PlanePoint>& points) {
    const Bandwidth bandwidth{core::Metres(h), core::Hours(0.0)};
    return FlightDensity(survey, bandwidth, {}).at(points, core::Threads{1});
}

geo::Polygon rectangle(const Row& west_south_east_north) {
    const double w = west_south_east_north[0], s = west_south_east_north[1];
    const double e = west_south_east_north[2], n = west_south_east_north[3];
    return {{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}, {}};
}

// Half a unit in the last place, 1.2e-16, is the rounding of the reference itself.
constexpr double rounding = 1.2e-16;

TEST(Exp, EqualsMpmath) {
    for (const Row& row : reference_rows("exp.txt"))
        EXPECT_NEAR(activity::exp_of(row[0]) / row[1], 1.0, 2e-16 + rounding) << "x " << row[0];
}

TEST(Erf, EqualsMpmath) {
    for (const Row& row : reference_rows("erf.txt"))
        EXPECT_NEAR(activity::erf_of(row[0]), row[1], 3e-16 + rounding) << "x " << row[0];
}

// The uniformly edge-corrected kernel intensity (Diggle 1985, Applied Statistics 34) at the data points,
// as R's spatstat computes it on published tree patterns.
class EdgeCorrected : public testing::TestWithParam<std::string> {};

TEST_P(EdgeCorrected, EqualsThePointPatternLibrary) {
    const std::vector<Row> rows = reference_rows(GetParam());
    core::Records<survey::Pass> passes{"pattern", "passes", {}, rows.size() - 2};
    std::vector<PlanePoint> points;
    for (std::size_t i = 2; i < rows.size(); ++i) {
        survey::Pass pass;
        pass.row = i;
        pass.position = {rows[i][0], rows[i][1]};
        pass.evening = examples::evening(1);
        points.push_back(pass.position);
        passes.rows.push_back(pass);
    }
    const survey::Matched matched = survey::match({passes, {}, {}, {}, {}}, {rectangle(rows[0])}, {});
    ASSERT_EQ(matched.survey.flights.size(), points.size());

    const Bandwidth bandwidth{core::Metres(rows[1][0]), core::Hours(0.0)};
    const FlightDensity density(matched.survey, bandwidth, {});
    const auto activity = density.summarise(density.at(points, core::Threads{1}));
    for (std::size_t i = 0; i < points.size(); ++i) {
        // A pass stands for 30 m of flight and the evening for one hour of watching.
        const double expected = rows[i + 2][2] * 30.0;
        EXPECT_NEAR(activity[i].flight_density / expected, 1.0, 1e-9) << "point " << i;
    }
}

INSTANTIATE_TEST_SUITE_P(Patterns, EdgeCorrected,
                         testing::Values("edge_corrected_spruces_3.txt", "edge_corrected_spruces_7.txt",
                                         "edge_corrected_longleaf_15.txt"));

// The ground of scripts/reference/integrals.py: a concave ring with a hole.
TEST(EvenEffort, IsTheKernelsMassOverThePolygon) {
    survey::Survey survey = examples::one_evening({examples::flight({{40, 40}}, 30)}, {});
    survey.even_ground = {{{{0, 0}, {120, 0}, {120, 40}, {70, 55}, {60, 140}, {-10, 100}, {0, 0}},
                           {{{20, 20}, {15, 50}, {45, 60}, {50, 25}, {20, 20}}}}};
    for (const Row& row : reference_rows("polygon_mass.txt")) {
        const EveningTable table = table_at(survey, row[0], {{row[1], row[2]}});
        EXPECT_NEAR(table.smoothed[0], row[3], 1e-10) << "h " << row[0] << " at " << row[1] << ' ' << row[2];
    }
}

TEST(FlownMetres, AreTheLineIntegralOfTheKernel) {
    for (const Row& row : reference_rows("segments.txt")) {
        const geo::Line piece{{row[1], row[2]}, {row[3], row[4]}};
        const double length = geo::length_of(piece).value();
        const auto survey =
            examples::one_evening({examples::flight(piece, length, 2.0)}, {examples::watch({{0, 0}}, 1, 30)});
        const EveningTable table = table_at(survey, row[0], {{row[5], row[6]}});
        const double largest = length / (2 * std::numbers::pi * row[0] * row[0]);
        EXPECT_NEAR(table.flown[0], 2.0 * row[7], 1e-9 * largest);
    }
}

TEST(SmoothedEffort, AllRound) {
    for (const Row& row : reference_rows("all_round_effort.txt")) {
        const auto survey =
            examples::one_evening({examples::flight({{0, 0}}, 30)}, {examples::watch({{0, 0}}, 1, row[0])});
        const EveningTable table = table_at(survey, row[1], {{row[2], row[3]}});
        EXPECT_NEAR(table.smoothed[0], row[4], 1e-10);
    }
}

TEST(SmoothedEffort, ThroughAFieldOfView) {
    for (const Row& row : reference_rows("sector_effort.txt")) {
        auto watch = examples::watch({{0, 0}}, 1, row[0]);
        watch.view = survey::FieldOfView{core::Degrees(row[2]), core::Degrees(row[3])};
        const auto survey = examples::one_evening({examples::flight({{0, 0}}, 30)}, {watch});
        const EveningTable table = table_at(survey, row[1], {{row[4], row[5]}});
        EXPECT_NEAR(table.smoothed[0], row[6], 1e-10)
            << "look " << row[2] << " view " << row[3] << " at " << row[4] << ' ' << row[5];
    }
}

TEST(SmoothedEffort, OfAWalk) {
    for (const Row& row : reference_rows("walked_effort.txt")) {
        const auto walk = examples::watch({{0, 0}, {60, 10}, {80, -70}, {79, -71}}, 1, row[0]);
        const auto survey = examples::one_evening({examples::flight({{0, 0}}, 30)}, {walk});
        const EveningTable table = table_at(survey, row[1], {{row[2], row[3]}});
        EXPECT_NEAR(table.watched[0], row[4], 1e-10);
        EXPECT_NEAR(table.smoothed[0], row[5], 1e-10);
    }
}

// Two pieces of 30 m x 1 and 10 m x 2 animals, written down to 0 m and to 8 m: the effort is smoothed with
// widths h and sqrt(h^2 + 2 * 8^2), weighted 30 to 20 (design decision; the integrals are SciPy's).
TEST(SmoothedEffort, IsBlurredLikeTheFlights) {
    auto vague = examples::flight({{5, 5}}, 10, 2.0);
    vague.accuracy = core::Metres(8);
    const auto survey =
        examples::one_evening({examples::flight({{0, 0}}, 30), vague}, {examples::watch({{0, 0}}, 1, 30)});
    for (const Row& row : reference_rows("accuracy_effort.txt")) {
        const EveningTable table = table_at(survey, row[0], {{row[1], row[2]}});
        EXPECT_NEAR(table.smoothed[0], row[3], 1e-10);
        EXPECT_NEAR(table.flown[0], row[4], 1e-9 * 30 / (2 * std::numbers::pi * row[0] * row[0]));
    }
}

/// Hours of effective watching around one hour of watching at the origin, all round.
double watched_at(double rho, double distance) {
    const auto survey =
        examples::one_evening({examples::flight({{0, 0}}, 30)}, {examples::watch({{0, 0}}, 1, rho)});
    return table_at(survey, 7.0, {{distance, 0}}).watched[0];
}

/// Simpson's rule with 400 intervals.
template <class Function>
double simpson(Function f, double high) {
    constexpr int intervals = 400;
    const double step = high / intervals;
    double sum = f(0.0) + f(high);
    for (int i = 1; i < intervals; ++i)
        sum += (i % 2 ? 4.0 : 2.0) * f(i * step);
    return sum * step / 3.0;
}

// Half-normal of scale 20 m (distance-sampling texts): half-width of a strip, effective radius of a point,
// and the share seen within 40 m. Printed to four decimals and six digits.
TEST(HalfNormal, StripAndPoint) {
    const auto g = [](double r) { return watched_at(20.0, r); };
    EXPECT_NEAR(simpson(g, 30.0), 21.7171, 5e-5);
    EXPECT_NEAR(simpson(g, 40.0), 23.9258, 5e-5);
    EXPECT_NEAR(simpson(g, 200.0), 25.0663, 5e-5);
    const auto ring = [&](double r) { return 2.0 * r * g(r); };
    EXPECT_NEAR(std::sqrt(simpson(ring, 200.0)), 28.2843, 5e-5);
    EXPECT_NEAR(simpson(ring, 40.0) / (40.0 * 40.0), 0.432332, 5e-7);
}

// The same effective radius is the ground that the mean rate is spread over: one flight of 30 m in one hour.
TEST(HalfNormal, MeanRateIsSpreadOverTheEffectiveRadius) {
    const auto survey =
        examples::one_evening({examples::flight({{9, 4}}, 30)}, {examples::watch({{0, 0}}, 1, 20)});
    const FlightDensity density(survey, {core::Metres(7), core::Hours(0.4)}, {});
    const double ground = 30.0 / density.mean_rate();
    EXPECT_NEAR(std::sqrt(ground / std::numbers::pi), 28.2843, 5e-5);
}

// Silverman 1986 for two dimensions: h = sigma n^(-1/6), with factors 0.6070, 0.4642 and 0.3684 at n = 20,
// 100, 400.
TEST(RuleOfThumb, Silverman) {
    for (const auto& [n, factor] : {std::pair{20, 0.6070}, {100, 0.4642}, {400, 0.3684}}) {
        // Half of the points stand `arm` west and south of the middle, half east and north, so that the
        // sample standard deviation (divisor n - 1) of each coordinate is 25 m.
        const double arm = 25.0 * std::sqrt((n - 1.0) / n);
        std::vector<survey::Flight> flights;
        for (int i = 0; i < n; ++i) {
            const double side = i % 2 ? arm : -arm;
            flights.push_back(examples::flight({{side, side}}, 30));
        }
        const auto survey = examples::one_evening(flights, {examples::watch({{0, 0}}, 1, 30)});
        EXPECT_NEAR(activity::rule_of_thumb(survey).value(), 25.0 * factor, 25.0 * 5e-5) << "n " << n;
    }
}

}  // namespace
}  // namespace roostward
