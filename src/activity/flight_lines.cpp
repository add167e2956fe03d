#include "roostward/activity/flight_lines.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>
#include <numbers>

#include "line_contrast.hpp"
#include "line_facts.hpp"
#include "line_noise.hpp"
#include "line_path.hpp"
#include "line_profiles.hpp"
#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/evening_watch.hpp"
#include "roostward/activity/ridges.hpp"
#include "square_means.hpp"

namespace roostward::activity {

namespace {

constexpr float per_hectare = 1e4F;
/// Less makes ridges at the edge of watched ground, where flights and hours are few.
constexpr core::Hours least_shrink{0.3};
/// Cells in h: the first serves, and is no finer than the pictures' cells unless those are too coarse.
constexpr double cells_per_width = 5.0, least_cells_per_width = 2.0;

// Set on parks with known truth; DEVELOPERS.md has the figures.
/// Standard errors of a constant rate that a ridge's strength reaches where it starts, and all along. They
/// only draw the ridge: whether it is a line is for its flights against those beside it.
constexpr double starts_at = 3.0, goes_on_at = 1.0;
/// Surroundings reach this many h; a line is at least as long.
constexpr double surroundings = 3.0, shortest = 3.0;
/// Lines that chance alone may show in a survey, if ridges were not laid where flights happen to lie: they
/// are, so it is far below the one in ten that is hoped for.
constexpr double most_by_chance = 0.001;
/// Where few ridges are seen, few flights were: no handful of them makes a line.
constexpr double fewest_tried = 10.0;
/// A round spot has 2.8, whatever its size: a Gaussian as far as three of its widths.
constexpr double least_elongation = 3.5;
constexpr double least_steady = 0.6;
constexpr core::Metres close_by{10.0};
constexpr core::Metres tolerance{1.0};
constexpr std::size_t most_draws = 100;

/// A tally would only show the line that somebody drew.
bool shows_no_line(const survey::Flight& flight) {
    return flight.behaviour == survey::Behaviour::foraging || flight.noted_in == survey::NotedIn::tallies;
}

survey::Survey without_those(const survey::Survey& survey) {
    survey::Survey flying{survey.evenings, {}, survey.watches, survey.watch_evening, survey.even_ground};
    std::ranges::copy_if(survey.flights, std::back_inserter(flying.flights), std::not_fn(shows_no_line));
    return flying;
}

template <class T>
T quantile(std::vector<T> values, double share) {
    const auto at = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size()));
    std::ranges::nth_element(values, values.begin() + at);
    return values[static_cast<std::size_t>(at)];
}

/// A round spot has ridges too, as long as it is wide: length of the part with at least half of the upper
/// quartile's value, which a spot on the way hardly lifts, in widths √(value/strength) across.
double elongation(const Ridge& ridge, const RidgeField& field) {
    std::vector<float> values;
    for (const RidgePoint& point : ridge)
        values.push_back(field.value[point.cell]);
    const float least = 0.5F * quantile(values, 0.75);
    double length = 0.0;
    std::vector<double> widths;
    for (std::size_t i = 0; i < ridge.size(); ++i) {
        if (values[i] < least) continue;
        widths.push_back(std::sqrt(static_cast<double>(values[i]) / ridge[i].strength));
        if (i > 0) length += core::distance(ridge[i - 1].place, ridge[i].place).value();
    }
    return length / quantile(std::move(widths), 0.5);
}

/// Chance of so many standard errors and more.
double chance_of(double standard_errors) {
    return 0.5 * std::erfc(standard_errors / std::numbers::sqrt2);
}

struct Candidate {
    FlightLine line;
    Ridge ridge;
};

std::string letters(std::size_t i) {
    const std::string last(1, static_cast<char>('A' + i % 26));
    return i < 26 ? last : letters(i / 26 - 1) + last;
}

/// One search, with what its steps share.
class Search {
 public:
    Search(const survey::Survey& flying, Bandwidth bandwidth, const Settings& settings, core::Threads threads)
        : flying_(flying),
          settings_(settings),
          h_(bandwidth.h),
          close_(std::max(bandwidth.h, close_by)),
          threads_(threads),
          density_(flying, held(std::move(bandwidth)), on_own_grid(settings, h_)),
          noise_(flying, h_),
          surfaces_(density_.surfaces(threads)),
          places_(places_of(flying)) {
        lay_field();
    }

    [[nodiscard]] std::vector<FlightLine> run() const {
        std::vector<Candidate> candidates = candidates_on_all_data();
        LineProfiles profiles(density_, noise_, close_);
        for (const Candidate& candidate : candidates)
            profiles.add(candidate.ridge, h_, doubts_along(candidate.ridge));
        profiles.measure(threads_);
        const auto draws = draw_evenings(profiles.evenings(), settings_.seed, most_draws);
        std::vector<FlightLine> lines;
        for (std::size_t i = 0; i < candidates.size(); ++i) {
            FlightLine& line = candidates[i].line;
            line.steady = profiles.steady(i, draws);
            if (line.steady < least_steady) continue;
            std::vector<std::uint8_t> watched;
            for (std::size_t n = 0; n < profiles.evenings(); ++n)
                watched.push_back(
                    profiles.hours(i, n) >= enough_on_an_evening(settings_.min_watch).value() ? 1 : 0);
            line.flight_density = mean_along(candidates[i].ridge);
            tell_flights(line, places_by(line.path, places_, close_), flying_, watched);
            if (line.evenings_used > 0) lines.push_back(std::move(line));
        }
        return lines;
    }

 private:
    static Bandwidth held(Bandwidth bandwidth) {
        bandwidth.shrink = std::max(bandwidth.shrink, least_shrink);
        return bandwidth;
    }

    static Settings on_own_grid(Settings settings, core::Metres h) {
        settings.cell = std::max(h / cells_per_width, std::min(settings.cell, h / least_cells_per_width));
        return settings;
    }

    void lay_field() {
        const core::Raster& density = surfaces_.flight_density;
        const core::Grid& grid = density.grid;
        field_ = {grid, std::vector<float>(grid.size()),
                  std::vector<float>(grid.size(), std::numeric_limits<float>::infinity())};
        rate_.assign(grid.size(), 0.0F);
        const SquareMeans means(density);
        const auto half = static_cast<std::size_t>(surroundings * (h_ / grid.cell));
        for (std::size_t i = 0; i < grid.size(); ++i) {
            field_.value[i] = density.values[i] / per_hectare;
            const auto hours = static_cast<double>(surfaces_.watch_hours.values[i]);
            if (hours < 2.0 * settings_.min_watch.value()) continue;
            const double rate = means.about({i / grid.columns, i % grid.columns}, half) / per_hectare;
            rate_[i] = static_cast<float>(rate);
            field_.least[i] =
                static_cast<float>(goes_on_at * noise_.deviation(rate, hours, density_.bandwidth().shrink));
        }
    }

    /// Ridges that are long enough and stand out from the ground beside them. The more are tried, the more
    /// each must stand out (Bonferroni's bound).
    [[nodiscard]] std::vector<Candidate> candidates_on_all_data() const {
        std::vector<Candidate> candidates;
        for (Ridge& ridge : find_ridges(field_, starts_at / goes_on_at, threads_)) {
            FlightLine line;
            for (const RidgePoint& point : ridge)
                line.path.push_back(point.place);
            line.path = simplified(line.path, tolerance);
            line.length = geo::length_of(line.path);
            if (line.length >= shortest * h_ && elongation(ridge, field_) >= least_elongation)
                candidates.push_back({std::move(line), std::move(ridge)});
        }
        const double by_chance =
            most_by_chance / std::max(fewest_tried, static_cast<double>(candidates.size()));
        std::erase_if(candidates, [&](const Candidate& candidate) {
            return chance_of(contrast_along(candidate.line.path, places_, surfaces_.watch_hours, close_)) >
                   by_chance;
        });
        return candidates;
    }

    [[nodiscard]] double mean_along(const Ridge& ridge) const {
        double sum = 0.0;
        for (const RidgePoint& point : ridge)
            sum += static_cast<double>(field_.value[point.cell]);
        return sum / static_cast<double>(ridge.size());
    }

    [[nodiscard]] std::vector<Doubt> doubts_along(const Ridge& ridge) const {
        std::vector<Doubt> doubts;
        for (const RidgePoint& point : ridge)
            doubts.push_back({static_cast<double>(rate_[point.cell]), goes_on_at});
        return doubts;
    }

    const survey::Survey& flying_;
    Settings settings_;
    core::Metres h_, close_;
    core::Threads threads_;
    FlightDensity density_;
    LineNoise noise_;
    Surfaces surfaces_;
    std::vector<Place> places_;
    RidgeField field_;
    std::vector<float> rate_;  ///< λ of a cell's surroundings, metres per m² and hour
};

}  // namespace

std::vector<FlightLine> find_flight_lines(const survey::Survey& survey, const Bandwidth& bandwidth,
                                          const Settings& settings, core::Threads threads) {
    if (std::ranges::any_of(survey.flights, shows_no_line))
        return find_flight_lines(without_those(survey), bandwidth, settings, threads);
    if (survey.flights.empty()) return {};
    std::vector<FlightLine> lines = Search(survey, bandwidth, settings, threads).run();
    std::stable_sort(lines.begin(), lines.end(), [](const FlightLine& a, const FlightLine& b) {
        return a.flight_density > b.flight_density;
    });
    for (std::size_t i = 0; i < lines.size(); ++i)
        lines[i].id = letters(i);
    return lines;
}

}  // namespace roostward::activity
