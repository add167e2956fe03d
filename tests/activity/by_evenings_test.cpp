#include "roostward/activity/by_evenings.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/effort.hpp"
#include "roostward/activity/evening_likelihood.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/core/random.hpp"

namespace roostward {
namespace {

using activity::EveningLikelihood;
using core::PlanePoint;
using survey::Survey;

constexpr core::Threads one_thread{1};
constexpr double pi = std::numbers::pi;

double log_likelihood(const Survey& survey, double h, double shrink, core::Threads threads = one_thread) {
    const std::vector<core::Hours> shrinks{core::Hours(shrink)};
    return EveningLikelihood(survey, 1).at(core::Metres(h), shrinks, threads).front();
}

/// Evenings with stations at places that differ, of 25–40 m.
Survey watched_evenings(unsigned evenings, core::RandomStream& random) {
    Survey survey;
    for (unsigned day = 1; day <= evenings; ++day) {
        survey.evenings.push_back(examples::evening(day));
        for (int i = 0; i < 2; ++i) {
            const double east = random.uniform(40.0, 160.0), north = random.uniform(40.0, 110.0);
            survey.watches.push_back(
                examples::watch({{east, north}}, random.uniform(0.5, 1.5), random.uniform(25.0, 40.0), day));
            survey.watch_evening.push_back(day - 1);
        }
    }
    return survey;
}

/// Flights about a route along northing 75, seen at every evening's watches in turn: points, straight pieces
/// and bent tracks.
void add_flights(Survey& survey, std::size_t count, core::RandomStream& random) {
    for (std::size_t i = 0; i < count; ++i) {
        const auto watch = static_cast<std::uint32_t>(random.below(survey.watches.size()));
        const double east = random.uniform(20.0, 180.0), north = 75.0 + 6.0 * random.normal();
        geo::Line path{{east, north}};
        if (i % 3 != 0)
            path.push_back({east + random.uniform(10.0, 40.0), north + random.uniform(-9.0, 9.0)});
        if (i % 3 == 2) path.push_back({path.back().easting + 5.0, north - random.uniform(5.0, 30.0)});
        const double length = path.size() > 1 ? geo::length_of(path).value() : 30.0;
        survey.flights.push_back(examples::flight(path, length, 1.0 + static_cast<double>(random.below(2)),
                                                  survey.watch_evening[watch]));
        survey.flights.back().watch = watch;
    }
}

/// The definition in double precision, with nothing left out: exact kernels at exact places, Simpson's rule
/// of 0.5 m along flights, sums over squares of 1 m for the expected number.
class Twin {
 public:
    explicit Twin(const Survey& survey) : survey_(survey) {
        for (std::size_t w = 0; w < survey.watches.size(); ++w) {
            Survey alone;
            alone.evenings = survey.evenings;
            alone.watches = {survey.watches[w]};
            alone.watch_evening = {survey.watch_evening[w]};
            efforts_.emplace_back(alone, core::Metres(1.0));
            lengths_.push_back(length_of(w));
        }
        lay_nodes();
        lay_squares();
    }

    /// One value a τ.
    std::vector<double> at(double h, const std::vector<double>& shrinks) const {
        const activity::FlightDensity density(survey_, {core::Metres(h), core::Hours(1.0)}, {});
        const auto near = density.at(nodes_, core::Threads{2}), far = density.at(squares_, core::Threads{2});
        std::vector<double> sums;
        for (const double shrink : shrinks) {
            double sum = 0.0;
            for (std::size_t i = 0; i < nodes_.size(); ++i)
                sum += weights_[i] * std::log(rate(near, i, evening_[i], shrink));
            for (std::size_t i = 0; i < squares_.size(); ++i)
                for (std::size_t n = 0; n < survey_.evenings.size(); ++n)
                    sum -= observable_[i * survey_.evenings.size() + n] * rate(far, i, n, shrink);
            sums.push_back(sum);
        }
        return sums;
    }

 private:
    double length_of(std::size_t watch) const {
        double animals = 0.0, metres = 0.0, all_metres = 0.0, all_ranges = 0.0;
        double of_watch = 0.0;
        for (const auto& f : survey_.flights) {
            if (*f.watch == watch) of_watch += f.count;
            if (!f.placed) continue;
            all_metres += f.count * f.length.value();
            all_ranges += f.count * survey_.watches[*f.watch].range.value();
            if (*f.watch != watch) continue;
            animals += f.count;
            metres += f.count * f.length.value();
        }
        const double each =
            animals > 0.0 ? metres / animals : survey_.watches[watch].range.value() * all_metres / all_ranges;
        return of_watch > 0.0 ? each * of_watch / animals : each;
    }

    double mean_rate(std::size_t evening) const {
        double metres = 0.0, watched = 0.0;
        for (const auto& f : survey_.flights)
            if (f.evening != evening) metres += f.count * f.length.value();
        for (std::size_t w = 0; w < survey_.watches.size(); ++w)
            if (survey_.watch_evening[w] != evening)
                for (const double hours : efforts_[w].integrals())
                    watched += hours;
        if (survey_.even_effort())
            watched =
                geo::area_of(survey_.even_ground).value() * static_cast<double>(survey_.evenings.size() - 1);
        return metres / watched;
    }

    double rate(const activity::EveningTable& table, std::size_t point, std::size_t evening,
                double shrink) const {
        double flown = 0.0, smoothed = 0.0;
        for (std::size_t n = 0; n < table.evenings; ++n) {
            if (n == evening) continue;
            flown += table.flown[table.at(point, n)];
            smoothed += table.smoothed[table.at(point, n)];
        }
        const double mean = mean_rate(evening);
        return std::max((flown + shrink * mean) / (smoothed + shrink), 1e-6 * mean);
    }

    void lay_nodes() {
        const auto add = [this](PlanePoint p, double weight, std::uint32_t n) {
            nodes_.push_back(p);
            weights_.push_back(weight);
            evening_.push_back(n);
        };
        for (const auto& f : survey_.flights) {
            if (!f.placed) continue;
            if (f.path.size() == 1) add(f.path.front(), f.count, f.evening);
            for (std::size_t i = 1; i < f.path.size(); ++i) {
                const double part = core::distance(f.path[i - 1], f.path[i]).value();
                const int panels = 2 * static_cast<int>(std::ceil(part));
                for (int k = 0; k <= panels; ++k) {
                    const double t = k / static_cast<double>(panels);
                    const double simpson = k == 0 || k == panels ? 1.0 : k % 2 ? 4.0 : 2.0;
                    add({f.path[i - 1].easting + t * (f.path[i].easting - f.path[i - 1].easting),
                         f.path[i - 1].northing + t * (f.path[i].northing - f.path[i - 1].northing)},
                        f.count * part / f.length.value() * simpson / (3.0 * panels), f.evening);
                }
            }
        }
    }

    void lay_squares() {
        const std::size_t evenings = survey_.evenings.size();
        double animals = 0.0, metres = 0.0;
        std::vector<double> of_evening(evenings, 0.0), metres_of_evening(evenings, 0.0);
        for (const auto& f : survey_.flights) {
            animals += f.count;
            metres += f.count * f.length.value();
            of_evening[f.evening] += f.count;
            metres_of_evening[f.evening] += f.count * f.length.value();
        }
        for (double east = -249.5; east < 450.0; east += 1.0) {
            for (double north = -249.5; north < 400.0; north += 1.0) {
                const PlanePoint p{east, north};
                std::vector<double> of_square(evenings, 0.0);
                for (std::size_t w = 0; w < efforts_.size(); ++w)
                    of_square[survey_.watch_evening[w]] +=
                        efforts_[w].of_view(efforts_[w].views().front(), p).watched *
                        survey_.watches[w].hours().value() / lengths_[w];
                for (std::size_t n = 0; survey_.even_effort() && n < evenings; ++n)
                    if (geo::covers(survey_.even_ground, p))
                        of_square[n] =
                            of_evening[n] > 0.0 ? of_evening[n] / metres_of_evening[n] : animals / metres;
                if (std::ranges::all_of(of_square, [](double hours) { return hours < 1e-9; })) continue;
                squares_.push_back(p);
                observable_.insert(observable_.end(), of_square.begin(), of_square.end());
            }
        }
    }

    const Survey& survey_;
    std::vector<activity::Effort> efforts_;
    std::vector<double> lengths_;
    std::vector<PlanePoint> nodes_, squares_;
    std::vector<double> weights_, observable_;
    std::vector<std::uint32_t> evening_;
};

/// Walks and fields of view beside stations, some flights only heard, an evening on which nothing flew.
Survey mixed() {
    core::RandomStream random(31, "mixed");
    Survey survey = watched_evenings(3, random);
    survey.watches[1].path = {{30, 60}, {90, 95}, {170, 80}};
    survey.watches[2].view = survey::FieldOfView{core::Degrees(70), core::Degrees(100)};
    survey.watches[4].view = survey::FieldOfView{core::Degrees(200), core::Degrees(250)};
    add_flights(survey, 60, random);
    for (std::size_t i = 0; i < 60; i += 10)
        survey.flights[i].placed = false;
    survey.evenings.push_back(examples::evening(4));
    survey.watches.push_back(examples::watch({{100, 80}}, 1.0, 30.0, 4));
    survey.watch_evening.push_back(3);
    return survey;
}

Survey stations() {
    core::RandomStream random(32, "stations");
    Survey survey = watched_evenings(3, random);
    add_flights(survey, 60, random);
    return survey;
}

Survey even() {
    Survey survey = stations();
    survey.watches.clear();
    survey.watch_evening.clear();
    for (auto& flight : survey.flights)
        flight.watch.reset();
    geo::Polygon ground;
    ground.outer = {{-10, -5}, {230, -5}, {230, 90}, {190, 90}, {190, 150}, {-10, 150}, {-10, -5}};
    survey.even_ground = {ground};
    return survey;
}

double observations(const Survey& survey) {
    double animals = 0.0;
    for (const auto& flight : survey.flights)
        if (flight.placed) animals += flight.count;
    return animals;
}

struct Best {
    double h = 0.0, shrink = 0.0, value = -1e300;
    void take(double at_h, double at_shrink, double log_likelihood) {
        if (log_likelihood > value) *this = {at_h, at_shrink, log_likelihood};
    }
};

struct TwinCase {
    const char* name;
    Survey (*survey)();
    double an_observation;  ///< how far differences may be off
};

void PrintTo(const TwinCase& c, std::ostream* out) {
    *out << c.name;
}

class AgainstTheTwin : public testing::TestWithParam<TwinCase> {};

// Cells of h/2.5 give kernels to 1e-4 of their peak. Where effort jumps the twin's own squares of 1 m miss
// about as much of a slanted edge as they add, a few 1e-4 of the ground.
TEST_P(AgainstTheTwin, LogLikelihoodsDifferAlike) {
    const Survey survey = GetParam().survey();
    const Twin twin(survey);
    const std::vector<double> shrinks{0.05, 0.4, 3.0};
    const std::vector<core::Hours> hours{core::Hours(0.05), core::Hours(0.4), core::Hours(3.0)};
    const EveningLikelihood likelihood(survey, 1);
    const double near = GetParam().an_observation * observations(survey);
    std::optional<double> base;
    Best direct_best, our_best;
    for (const double h : {3.0, 8.0, 20.0, 60.0}) {
        const auto direct = twin.at(h, shrinks);
        const auto ours = likelihood.at(core::Metres(h), hours, one_thread);
        if (!base) base = ours[0] - direct[0];
        for (std::size_t k = 0; k < shrinks.size(); ++k) {
            EXPECT_NEAR(ours[k] - direct[k], *base, near) << "h " << h << ", shrink " << shrinks[k];
            direct_best.take(h, shrinks[k], direct[k]);
            our_best.take(h, shrinks[k], ours[k]);
        }
    }
    EXPECT_EQ(our_best.h, direct_best.h);
    EXPECT_EQ(our_best.shrink, direct_best.shrink);
}

INSTANTIATE_TEST_SUITE_P(Surveys, AgainstTheTwin,
                         testing::Values(TwinCase{"stations", stations, 1e-4},
                                         TwinCase{"walks, fields of view, heard", mixed, 5e-4},
                                         TwinCase{"even ground", even, 2e-3}));

// The homogeneous Poisson process: log L = N log λ − λ A (Diggle 2013, Statistical Analysis of Spatial and
// Spatio-Temporal Point Patterns; Baddeley, Rubak & Turner 2015, Spatial Point Patterns). With τ without end
// λ is the others' mean rate everywhere, and A of an evening is 2πρ² hours for each metre a pass stands for.
TEST(LogLikelihood, OfAConstantRateIsTheHomogeneousPoissonOne) {
    const double range = 30.0, length = 20.0;
    Survey survey;
    const double hours[] = {1.5, 0.5, 1.0};
    const std::size_t counts[] = {9, 4, 7};
    core::RandomStream random(33, "constant");
    for (std::uint32_t n = 0; n < 3; ++n) {
        survey.evenings.push_back(examples::evening(n + 1));
        survey.watches.push_back(examples::watch({{100, 100}}, hours[n], range, n + 1));
        survey.watch_evening.push_back(n);
        for (std::size_t i = 0; i < counts[n]; ++i) {
            const double east = random.uniform(50.0, 150.0), north = random.uniform(50.0, 150.0);
            survey.flights.push_back(examples::flight({{east, north}}, length, 1.0, n));
            survey.flights.back().watch = n;
        }
    }
    double expected = 0.0;
    for (std::size_t n = 0; n < 3; ++n) {
        double flown = 0.0, watched = 0.0;
        for (std::size_t other = 0; other < 3; ++other) {
            if (other == n) continue;
            flown += static_cast<double>(counts[other]) * length;
            watched += hours[other] * 2.0 * pi * range * range;
        }
        const double rate = flown / watched;
        expected += static_cast<double>(counts[n]) * std::log(rate) -
                    rate * hours[n] * 2.0 * pi * range * range / length;
    }
    // The ground beyond 4.5 ranges, e^(-4.5²/2) = 4e-5 of it, is left out: 20 passes times that.
    EXPECT_NEAR(log_likelihood(survey, 10.0, 1e7), expected, 20.0 * 5e-5);
}

activity::EveningSearch search(const Survey& survey, core::Threads threads = one_thread) {
    return activity::search_by_evenings(survey, {}, threads);
}

/// Flights about parallel routes, `spread` metres to either side, all alike on every evening: 60 m long along
/// the route, watched from the middle.
Survey about_routes(double spread, std::size_t count) {
    core::RandomStream random(34, "routes");
    Survey survey;
    for (std::uint32_t n = 0; n < 4; ++n) {
        survey.evenings.push_back(examples::evening(n + 1));
        survey.watches.push_back(examples::watch({{0, 0}}, 1.0, 80.0, n + 1));
        survey.watch_evening.push_back(n);
    }
    while (survey.flights.size() < count) {
        const double east = random.uniform(-250.0, 250.0);
        const double route = 120.0 * static_cast<double>(random.below(3)) - 120.0;
        const double north = route + spread * random.normal();
        if (random.uniform() >= std::exp(-(east * east + north * north) / (2.0 * 80.0 * 80.0))) continue;
        const auto evening = static_cast<std::uint32_t>(random.below(4));
        survey.flights.push_back(
            examples::flight({{east - 30.0, north}, {east + 30.0, north}}, 60.0, 1.0, evening));
        survey.flights.back().watch = evening;
    }
    return survey;
}

// For one dimension and a normal density of standard deviation s the best Gaussian bandwidth is
// 1.06 s n^(-1/5) (Silverman 1986, Density Estimation, eq. 3.28). Across three routes n is a third of the
// flights of three evenings. Likelihood asks for less smoothing in the tails, so half to twice of it.
TEST(ByEvenings, FollowsTheSpreadOfRoutes) {
    double before = 0.0;
    for (const double spread : {8.0, 14.0, 24.0}) {
        const auto found = search(about_routes(spread, 600));
        ASSERT_TRUE(found.found());
        const double silverman = 1.06 * spread * std::pow(600.0 * 0.75 / 3.0, -0.2);
        EXPECT_GT(found.h.value(), 0.5 * silverman) << spread;
        EXPECT_LT(found.h.value(), 2.0 * silverman) << spread;
        EXPECT_EQ(found.h_bound, activity::Bound::none);
        EXPECT_GT(found.h.value(), before);
        before = found.h.value();
    }
}

TEST(ByEvenings, KeepsTheCurveWithItsTopAtZero) {
    const auto found = search(about_routes(6.0, 300));
    ASSERT_GE(found.trials.size(), 5U);
    for (std::size_t i = 0; i < found.trials.size(); ++i) {
        const auto& trial = found.trials[i];
        EXPECT_LE(trial.support, 0.0);
        EXPECT_EQ(trial.support == 0.0, trial.h == found.h);
        EXPECT_TRUE(i == 0 || found.trials[i - 1].h < trial.h);
    }
}

// A quasi-likelihood of dispersion 5 (Wedderburn 1974, Biometrika 61) and a log-normal prior about 6 m whose
// standard deviation is ½.
TEST(ByEvenings, SupportIsTheQuasiLikelihoodWithAPrior) {
    const Survey survey = about_routes(6.0, 300);
    activity::Settings settings;
    settings.shrink = core::Hours(0.4);
    const auto found = activity::search_by_evenings(survey, settings, one_thread);
    const auto support = [&](core::Metres h) {
        return log_likelihood(survey, h.value(), 0.4) / 5.0 - 2.0 * std::pow(std::log(h.value() / 6.0), 2);
    };
    const double top = support(found.h);
    ASSERT_GE(found.trials.size(), 5U);
    for (const auto& trial : found.trials)
        EXPECT_NEAR(trial.support, support(trial.h) - top, 1e-9 * std::fabs(top)) << trial.h.value();
}

// A handful of passes can be explained by nearly any h: alone they would send it far off.
TEST(ByEvenings, LeansOnWhatIsUsualWherePassesAreFew) {
    const Survey few = about_routes(24.0, 12), many = about_routes(24.0, 2400);
    const auto of_few = search(few), of_many = search(many);
    ASSERT_TRUE(of_few.found() && of_many.found());
    EXPECT_LT(std::fabs(std::log(of_few.h / activity::usual_h)), 0.5);
    const double silverman = 1.06 * 24.0 * std::pow(2400.0 * 0.75 / 3.0, -0.2);
    EXPECT_GT(of_many.h.value(), 0.5 * silverman);
}

TEST(ByEvenings, SearchesOnlyWhatIsNotGiven) {
    const Survey survey = about_routes(6.0, 300);
    activity::Settings settings;
    settings.bandwidth = core::Metres(11.0);
    const auto shrink_only = activity::choose_bandwidth(survey, settings, one_thread);
    EXPECT_EQ(shrink_only.h, core::Metres(11.0));
    EXPECT_EQ(shrink_only.h_by, activity::FoundBy::number);
    EXPECT_EQ(shrink_only.shrink_by, activity::FoundBy::evenings);
    settings.bandwidth = activity::ByEvenings{};
    settings.shrink = core::Hours(0.7);
    const auto h_only = activity::choose_bandwidth(survey, settings, one_thread);
    EXPECT_EQ(h_only.h_by, activity::FoundBy::evenings);
    EXPECT_EQ(h_only.shrink, core::Hours(0.7));
    EXPECT_EQ(h_only.shrink_by, activity::FoundBy::number);
    settings.bandwidth = activity::RuleOfThumb{};
    settings.shrink = activity::ByEvenings{};
    const auto thumb = activity::choose_bandwidth(survey, settings, one_thread);
    EXPECT_EQ(thumb.h_by, activity::FoundBy::rule_of_thumb);
    EXPECT_EQ(thumb.shrink, settings.min_watch);
    EXPECT_FALSE(thumb.search);
}

// One evening foretells nothing, nor does one on which alone something flew: what is usual, and it is said.
TEST(ByEvenings, FallsBackToWhatIsUsual) {
    Survey survey = about_routes(6.0, 100);
    for (auto& flight : survey.flights)
        flight.evening = *(flight.watch = 0);
    const auto quiet = activity::choose_bandwidth(survey, {}, one_thread);
    EXPECT_EQ(quiet.h, activity::usual_h);
    EXPECT_EQ(quiet.h_by, activity::FoundBy::usual);
    EXPECT_EQ(quiet.shrink, core::Hours(0.25));
    ASSERT_EQ(activity::doubts_of(quiet).size(), 1U);
    EXPECT_EQ(activity::doubts_of(quiet).front().kind, "not found by evenings");
    const auto alone = examples::one_evening(survey.flights, {survey.watches.front()});
    EXPECT_EQ(search(alone).why_not, "only one evening counts");
}

// Points that repeat to the digit have no narrowest kernel: the floor, and a finding. Told the step, they are
// moved about within it, and h cannot fall below half of it.
TEST(ByEvenings, RoundedCoordinates) {
    Survey survey = about_routes(6.0, 400);
    for (auto& flight : survey.flights) {
        const double east = 0.5 * (flight.path.front().easting + flight.path.back().easting);
        flight.path = {{20.0 * std::round(east / 20.0), 20.0 * std::round(flight.path[0].northing / 20.0)}};
    }
    activity::Bandwidth told;
    told.search = search(survey);
    EXPECT_EQ(told.search->h_bound, activity::Bound::low);
    const auto doubts = activity::doubts_of(told);
    ASSERT_FALSE(doubts.empty());
    EXPECT_EQ(doubts.front().kind, "bandwidth at the end of its range");
    for (auto& flight : survey.flights)
        flight.step = core::Metres(20.0);
    const auto found = search(survey);
    EXPECT_GE(found.h, core::Metres(10.0));
    EXPECT_LT(found.h, core::Metres(30.0));
}

TEST(ByEvenings, AFewRoughPlacesDoNotWidenTheBandwidth) {
    Survey survey = about_routes(6.0, 400);
    const core::Metres fine = search(survey).h;
    ASSERT_LT(fine, core::Metres(12.5));
    for (std::size_t i = 0; i < survey.flights.size(); i += 10)
        survey.flights[i].step = core::Metres(25.0);
    EXPECT_LT(search(survey).h, core::Metres(12.5));
    for (auto& flight : survey.flights)
        flight.step = core::Metres(25.0);
    EXPECT_GE(search(survey).h, core::Metres(12.5));
}

TEST(ByEvenings, AllFlightsAtOnePlace) {
    Survey survey = about_routes(6.0, 50);
    for (auto& flight : survey.flights)
        flight.path = {{10.0, 20.0}};
    const auto found = search(survey);
    ASSERT_TRUE(found.found());
    EXPECT_EQ(found.h, core::Metres(2.0));
    EXPECT_EQ(found.h_bound, activity::Bound::low);
}

TEST(ByEvenings, SameBitsForOneTwoAndSevenThreads) {
    const Survey survey = mixed();
    const auto one = search(survey);
    for (const unsigned count : {2U, 7U}) {
        const auto other = search(survey, core::Threads{count});
        EXPECT_EQ(one.h, other.h);
        EXPECT_EQ(one.shrink, other.shrink);
        ASSERT_EQ(one.trials.size(), other.trials.size());
        for (std::size_t i = 0; i < one.trials.size(); ++i)
            EXPECT_EQ(one.trials[i].support, other.trials[i].support);
    }
}

}  // namespace
}  // namespace roostward
