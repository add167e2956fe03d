#include "evening_model.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <numbers>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/random.hpp"

namespace roostward::activity {

namespace {

constexpr double pi = std::numbers::pi;
constexpr std::size_t most_blurs = 4;

bool is_observation(const survey::Flight& flight) {
    return flight.place_was_seen() && !flight.path.empty() && flight.metres() > 0.0;
}

/// Neighbouring accuracies share a blur where there are many. Returns which blur each accuracy has.
std::map<double, std::uint32_t> lay_blurs(const survey::Survey& survey, std::vector<Blur>& blurs) {
    std::map<double, double> metres;
    double total = 0.0;
    for (const auto& flight : survey.flights) {
        if (!is_observation(flight)) continue;
        metres[flight.accuracy.value()] += flight.metres();
        total += flight.metres();
    }
    const std::size_t group = std::max<std::size_t>((metres.size() + most_blurs - 1) / most_blurs, 1);
    std::map<double, std::uint32_t> which;
    for (const auto& [accuracy, share] : metres) {
        if (which.size() % group == 0) blurs.push_back({0.0, 0.0});
        blurs.back().accuracy += share * accuracy * accuracy;
        blurs.back().share += share;
        which[accuracy] = static_cast<std::uint32_t>(blurs.size() - 1);
    }
    for (Blur& blur : blurs) {
        blur.accuracy = std::sqrt(blur.accuracy / blur.share);
        blur.share /= total;
    }
    return which;
}

void lay_stretches(const survey::Survey& survey, std::uint64_t seed, EveningModel& model) {
    const auto blur_of = lay_blurs(survey, model.blurs);
    core::RandomStream random(seed, "rounded coordinates");
    for (const auto& flight : survey.flights) {
        if (!is_observation(flight)) continue;
        const double half_step = 0.5 * flight.step.value();
        const double east = half_step * random.uniform(-1.0, 1.0);
        const double north = half_step * random.uniform(-1.0, 1.0);
        const auto moved = [&](core::PlanePoint p) {
            return core::PlanePoint{p.easting + east, p.northing + north};
        };
        Stretch stretch;
        stretch.evening = flight.evening;
        stretch.blur = blur_of.at(flight.accuracy.value());
        const double laid = survey::laid_on_path(flight);
        const auto add = [&](core::PlanePoint from, core::PlanePoint to, double metres) {
            stretch.from = moved(from);
            stretch.to = moved(to);
            stretch.metres = flight.count * metres;
            stretch.observations = stretch.metres / flight.length.value();
            model.stretches.push_back(stretch);
        };
        if (flight.path.size() == 1) add(flight.path.front(), flight.path.front(), laid);
        for (std::size_t i = 0; i + 1 < flight.path.size(); ++i)
            if (flight.path[i] != flight.path[i + 1])
                add(flight.path[i], flight.path[i + 1],
                    laid * core::distance(flight.path[i], flight.path[i + 1]).value());
    }
    std::ranges::stable_sort(model.stretches, {}, &Stretch::evening);
}

/// The metres that one observation stands for, from what was observed.
struct MeanLength {
    double animals = 0.0, metres = 0.0;
    void add(const survey::Flight& flight) {
        animals += flight.count;
        metres += flight.metres();
    }
    [[nodiscard]] double or_else(double metres_each) const {
        return animals > 0.0 ? metres / animals : metres_each;
    }
};

/// One a watch: the metres that an observation stands for, over the share of its animals whose place was
/// seen.
std::vector<double> lengths_of(const survey::Survey& survey) {
    std::vector<MeanLength> own(survey.watches.size());
    std::vector<double> animals(survey.watches.size(), 0.0);
    double metres = 0.0, ranges = 0.0;
    for (const auto& flight : survey.flights) {
        if (!flight.watch) continue;
        animals[*flight.watch] += flight.count;
        if (!is_observation(flight)) continue;
        own[*flight.watch].add(flight);
        metres += flight.metres();
        ranges += flight.count * survey.watches[*flight.watch].range.value();
    }
    const double to_range = ranges > 0.0 ? metres / ranges : 1.0;
    std::vector<double> lengths;
    for (std::size_t w = 0; w < own.size(); ++w) {
        const double seen = animals[w] > 0.0 ? own[w].animals / animals[w] : 1.0;
        lengths.push_back(own[w].or_else(to_range * survey.watches[w].range.value()) / seen);
    }
    return lengths;
}

/// Calls `add(place, share)` for a station, or along a walk for Gauss–Legendre nodes of two on stretches of
/// at most one range.
template <class Add>
void along(const geo::Line& path, double range, const Add& add) {
    const double length = geo::length_of(path).value();
    if (path.size() == 1 || length == 0.0) return add(path.front(), 1.0);
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const double part = core::distance(path[i], path[i + 1]).value();
        const double panels = std::max(1.0, std::ceil(part / range));
        for (std::size_t panel = 0; panel < static_cast<std::size_t>(panels); ++panel) {
            const auto k = static_cast<double>(panel);
            for (const double node : {-0.5 * std::numbers::inv_sqrt3, 0.5 * std::numbers::inv_sqrt3}) {
                const double t = (k + 0.5 + node) / panels;
                add({path[i].easting + t * (path[i + 1].easting - path[i].easting),
                     path[i].northing + t * (path[i + 1].northing - path[i].northing)},
                    0.5 * part / (panels * length));
            }
        }
    }
}

/// Returns ∫ E_n, hours · m², one an evening.
std::vector<double> lay_spots(const survey::Survey& survey, EveningModel& model) {
    std::vector<double> unplaced(survey.watches.size(), 0.0);
    for (const auto& flight : survey.flights)
        if (!flight.place_was_seen() && flight.watch) unplaced[*flight.watch] += flight.metres();
    const std::vector<double> lengths = lengths_of(survey);
    std::vector<double> effort(survey.evenings.size(), 0.0);
    for (std::size_t w = 0; w < survey.watches.size(); ++w) {
        const auto& watch = survey.watches[w];
        Spot spot;
        spot.range = watch.range.value();
        spot.per_metre = 1.0 / lengths[w];
        spot.evening = survey.watch_evening[w];
        if (watch.view) {
            spot.middle = (90.0 - watch.view->look.value()) * pi / 180.0;
            spot.half = 0.5 * watch.view->width.value() * pi / 180.0;
        }
        model.has_edges = model.has_edges || spot.has_edges();
        const double hours = watch.hours().value();
        const double integral = hours * 2.0 * std::min(spot.half, pi) * spot.range * spot.range;
        if (integral <= 0.0) continue;
        effort[spot.evening] += integral;
        spot.unplaced_rate = unplaced[w] / integral;
        model.unplaced = model.unplaced || unplaced[w] > 0.0;
        along(watch.path, spot.range, [&](core::PlanePoint place, double share) {
            spot.place = place;
            spot.hours = hours * share;
            model.spots.push_back(spot);
        });
    }
    std::ranges::stable_sort(model.spots, {}, &Spot::evening);
    return effort;
}

std::vector<double> lay_even_ground(const survey::Survey& survey, EveningModel& model) {
    std::vector<MeanLength> of_evening(survey.evenings.size());
    MeanLength of_all;
    for (const auto& flight : survey.flights) {
        if (!is_observation(flight)) continue;
        of_evening[flight.evening].add(flight);
        of_all.add(flight);
    }
    for (const MeanLength& length : of_evening)
        model.even_per_metre.push_back(1.0 / length.or_else(of_all.or_else(1.0)));
    model.even_ground = survey.even_ground;
    model.has_edges = true;
    return std::vector<double>(survey.evenings.size(), geo::area_of(survey.even_ground).value());
}

/// What the others' mean is; says why where an evening has nothing to be foretold from.
void take_mean_rates(const survey::Survey& survey, const std::vector<double>& effort, EveningModel& model) {
    std::vector<double> metres(survey.evenings.size(), 0.0);
    for (const auto& flight : survey.flights)
        metres[flight.evening] += flight.metres();
    for (std::size_t n = 0; n < metres.size(); ++n) {
        double flown = 0.0, watched = 0.0;
        for (std::size_t other = 0; other < metres.size(); ++other) {
            if (other == n) continue;
            flown += metres[other];
            watched += effort[other];
        }
        model.mean_rate.push_back(watched > 0.0 ? flown / watched : 0.0);
    }
    if (survey.evenings.size() < 2) model.why_not = core::said("evenings.only_one");
    if (model.stretches.empty()) model.why_not = core::said("evenings.no_place");
    if (!model.why_not.empty()) return;
    for (const Stretch& stretch : model.stretches)
        if (model.mean_rate[stretch.evening] <= 0.0) model.why_not = core::said("evenings.flights_on_one");
}

}  // namespace

EveningModel model_of(const survey::Survey& survey, std::uint64_t seed) {
    EveningModel model;
    model.evenings = survey.evenings.size();
    lay_stretches(survey, seed, model);
    const std::vector<double> effort =
        survey.even_effort() ? lay_even_ground(survey, model) : lay_spots(survey, model);
    take_mean_rates(survey, effort, model);
    return model;
}

}  // namespace roostward::activity
