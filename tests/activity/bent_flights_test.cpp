#include "roostward/activity/bent_flights.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/core/random.hpp"

namespace roostward {
namespace {

using core::PlanePoint;
using survey::Survey;

constexpr core::Threads one_thread{1};
constexpr double pi = std::numbers::pi;
constexpr double degree = pi / 180.0;
constexpr double piece = 40.0;  // metres

/// A pass seen at a place, with a straight piece at an angle from east, radians.
survey::Flight pass(PlanePoint at, double angle) {
    const double east = 0.5 * piece * std::cos(angle), north = 0.5 * piece * std::sin(angle);
    return examples::flight(
        {{at.easting - east, at.northing - north}, {at.easting + east, at.northing + north}}, 100.0);
}

Survey bent(std::vector<survey::Flight> flights) {
    Survey survey;
    survey.evenings = {examples::evening(1)};
    survey.flights = std::move(flights);
    return activity::bend_flights(std::move(survey), one_thread);
}

PlanePoint middle(const geo::Line& path) {
    return path[path.size() / 2];
}

/// From the middle a little ahead.
double angle_of(const geo::Line& path) {
    const PlanePoint from = middle(path), to = path[path.size() / 2 + 1];
    return std::atan2(to.northing - from.northing, to.easting - from.easting);
}

/// Passes about a circle of 100 m, both ways, places to 4 m and bearings to 15° (standard deviations).
std::vector<survey::Flight> about_a_circle(std::size_t count) {
    core::RandomStream random(35, "circle");
    std::vector<survey::Flight> flights;
    for (std::size_t i = 0; i < count; ++i) {
        const double at = random.uniform(0.0, 2.0 * pi), radius = 100.0 + 4.0 * random.normal();
        const double way = random.uniform() < 0.5 ? 0.5 * pi : -0.5 * pi;
        flights.push_back(
            pass({radius * std::cos(at), radius * std::sin(at)}, at + way + 15.0 * degree * random.normal()));
    }
    return flights;
}

TEST(BentFlights, GoStraightOnWithNobodyNear) {
    const Survey survey = bent({pass({10, 20}, 0.0), pass({500, 20}, 0.3)});
    const geo::Line& path = survey.flights[0].path;
    ASSERT_EQ(path.size(), 9U);
    for (std::size_t i = 0; i < path.size(); ++i) {
        EXPECT_NEAR(path[i].easting, 10.0 + (static_cast<double>(i) - 4.0) / 8.0 * 2.0 * piece, 1e-9);
        EXPECT_NEAR(path[i].northing, 20.0, 1e-9);
    }
    EXPECT_EQ(survey.flights[0].length, core::Metres(100.0));
    EXPECT_NEAR(angle_of(survey.flights[1].path), 0.3, 1e-12);
}

// At one place only bearings tell the slope: their mean, weighted by cos⁸, with a slope of 0 known to 0.5 and
// each bearing to 6 m in 20 m (the weighted least squares of one unknown). A pass turns once where it is, and
// once more at the end of its first part.
TEST(BentFlights, TurnToTheMeanBearing) {
    const std::vector<double> angles{0.1, 0.35, -0.2, 0.5 + pi, 1.3};
    std::vector<survey::Flight> flights;
    for (const double angle : angles)
        flights.push_back(pass({37, -12}, angle));
    const Survey survey = bent(flights);
    for (std::size_t i = 0; i < angles.size(); ++i) {
        double turned = angles[i];
        for (int turn = 0; turn < 2; ++turn) {
            double slopes = 0.0, weights = std::pow(6.0 / 20.0 / 0.5, 2);
            for (const double other : angles) {
                const double weight = std::pow(std::cos(other - turned), 8);
                slopes += weight * std::tan(other - turned);
                weights += weight;
            }
            turned += std::atan(slopes / weights);
        }
        EXPECT_NEAR(std::remainder(angle_of(survey.flights[i].path) - turned, 2.0 * pi), 0.0, 0.01) << i;
    }
}

// The way is told by places too: passes along a line whose bearings are all off by 20° to the left.
TEST(BentFlights, FollowPlacesWhereBearingsAreOff) {
    std::vector<survey::Flight> flights;
    for (int i = -40; i <= 40; ++i)
        flights.push_back(pass({5.0 * i, 0.0}, 20.0 * degree));
    const Survey survey = bent(flights);
    EXPECT_GT(0.5 * 2.0 * piece * std::sin(20.0 * degree), 13.0);
    for (std::size_t i = 20; i < 61; ++i)
        EXPECT_LT(std::abs(survey.flights[i].path.back().northing), 5.0) << i;
}

// One pass 10 m beside a line that many fly: it comes back to it, by e⁻¹ in 30 m.
TEST(BentFlights, ComeBackToTheMiddleOfTheOthers) {
    std::vector<survey::Flight> flights;
    for (int i = -60; i <= 60; ++i)
        flights.push_back(pass({2.5 * i, 0.0}, 0.0));
    flights.push_back(pass({0.0, 10.0}, 0.0));
    const geo::Line path = bent(flights).flights.back().path;
    EXPECT_EQ(middle(path), (PlanePoint{0.0, 10.0}));
    for (std::size_t i = 0; i < path.size(); ++i)
        EXPECT_NEAR(path[i].northing, 10.0 * std::exp(-std::abs(path[i].easting) / 30.0), 1.0) << i;
}

// Straight pieces leave a circle by the sagitta and by their bearings' errors; bent ones should leave it by
// less than their places do, 4 m.
TEST(BentFlights, FollowACircle) {
    const auto flights = about_a_circle(400);
    const Survey survey = bent(flights);
    double straight_off = 0.0, bent_off = 0.0;
    const auto squared_off = [](PlanePoint p) {
        return std::pow(std::hypot(p.easting, p.northing) - 100.0, 2);
    };
    for (std::size_t i = 0; i < flights.size(); ++i) {
        const geo::Line& as_noted = flights[i].path;
        const PlanePoint at{0.5 * (as_noted[0].easting + as_noted[1].easting),
                            0.5 * (as_noted[0].northing + as_noted[1].northing)};
        const PlanePoint straight_end{at.easting + 2.0 * (as_noted[1].easting - at.easting),
                                      at.northing + 2.0 * (as_noted[1].northing - at.northing)};
        straight_off += squared_off(straight_end);
        bent_off += squared_off(survey.flights[i].path.back());
        EXPECT_NEAR(core::distance(middle(survey.flights[i].path), at).value(), 0.0, 1e-9);
        EXPECT_GT(std::cos(angle_of(survey.flights[i].path) -
                           std::atan2(as_noted[1].northing - at.northing, as_noted[1].easting - at.easting)),
                  0.0)
            << "turned about";
    }
    const auto count = static_cast<double>(flights.size());
    EXPECT_GT(std::sqrt(straight_off / count), 12.0);
    EXPECT_LT(std::sqrt(bent_off / count), 4.0);
}

// cos⁸ of a right angle is 0.
TEST(BentFlights, DoNotMixWhereRoutesCross) {
    std::vector<survey::Flight> flights;
    for (int i = -10; i <= 10; ++i) {
        flights.push_back(pass({5.0 * i, 0.0}, 0.0));
        flights.push_back(pass({0.0, 7.0 * i}, 0.5 * pi));
    }
    const Survey survey = bent(flights);
    for (std::size_t i = 0; i < flights.size(); ++i)
        for (const PlanePoint p : survey.flights[i].path)
            EXPECT_NEAR(i % 2 == 0 ? p.northing : p.easting, 0.0, 1e-9);
}

TEST(BentFlights, LeaveTheOthersAsTheyAre) {
    std::vector<survey::Flight> others{pass({0, 0}, 0.6), pass({0, 0}, 0.6), pass({0, 0}, 0.6),
                                       pass({0, 0}, 0.6)};
    others[0].noted_in = survey::NotedIn::tracks;
    others[1].behaviour = survey::Behaviour::foraging;
    others[2].placed = false;
    others[3].path = {{0, 0}};
    std::vector<survey::Flight> flights = others;
    flights.push_back(pass({0, 0}, 0.2));
    const Survey survey = bent(flights);
    for (std::size_t i = 0; i < others.size(); ++i)
        EXPECT_EQ(survey.flights[i].path, others[i].path) << i;
    EXPECT_NEAR(angle_of(survey.flights.back().path), 0.2, 1e-12);
    EXPECT_TRUE(bent({}).flights.empty());
}

TEST(BentFlights, SameBitsForOneTwoAndSevenThreads) {
    Survey survey;
    survey.flights = about_a_circle(2000);
    const Survey one = activity::bend_flights(survey, one_thread);
    for (const unsigned count : {2U, 7U}) {
        const Survey other = activity::bend_flights(survey, core::Threads{count});
        for (std::size_t i = 0; i < one.flights.size(); ++i)
            ASSERT_EQ(one.flights[i].path, other.flights[i].path);
    }
}

}  // namespace
}  // namespace roostward
