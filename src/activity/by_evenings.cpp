#include "roostward/activity/by_evenings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "roostward/activity/evening_likelihood.hpp"

namespace roostward::activity {

namespace {

constexpr double widest_h = 60.0;  // m
constexpr double least_cells = 2.0;
constexpr double least_shrink = 0.05, most_shrink = 8.0;  // hours

/// The first scan goes from the widest h down in steps of at most √2, with τ in steps of at most 2.1.
constexpr double scan_factor = 1.4142135623730951;
constexpr std::size_t scan_shrinks = 8;
/// It ends after as many h that were each worse than the one before.
constexpr int worse_to_end = 2;
/// Then the tops of parabolas are tried until h moves by under 1 %.
constexpr double near_enough = 0.01;
constexpr int most_parabolas = 6;
constexpr double shrink_step = 1.5;  ///< of τ, while h is refined

constexpr double dispersion = 5.0;   ///< of counts, relative to independent passes
constexpr double spread_of_h = 0.5;  ///< standard deviation of ln h in the prior

double prior(double h) {
    const double off = std::log(h / usual_h.value()) / spread_of_h;
    return -0.5 * off * off;
}

double rounded(double value, double digit) {
    return std::round(value / digit) * digit;
}

/// A range of h or τ, the ends included.
struct Range {
    double low, high;
    [[nodiscard]] bool is_point() const { return high <= low; }
    [[nodiscard]] Bound bound_of(double value) const {
        return is_point()      ? Bound::none
               : value <= low  ? Bound::low
               : value >= high ? Bound::high
                               : Bound::none;
    }
    /// `count` values in even steps of their logarithm, ascending, to the given digit.
    [[nodiscard]] std::vector<double> spread(std::size_t count, double digit) const {
        std::vector<double> values{low};
        for (std::size_t i = 1; i + 1 < count; ++i)
            values.push_back(rounded(
                low * std::pow(high / low, static_cast<double>(i) / static_cast<double>(count - 1)), digit));
        if (!is_point()) values.push_back(high);
        return values;
    }
    /// Values about a middle one, each `step` times the one before, inside.
    [[nodiscard]] std::vector<double> about(double middle, double step, double digit) const {
        std::vector<double> values;
        for (const double factor : {1.0 / (step * step), 1.0 / step, 1.0, step, step * step}) {
            const double value = std::clamp(rounded(middle * factor, digit), low, high);
            if (values.empty() || value > values.back()) values.push_back(value);
        }
        return values;
    }
};

/// A value of τ or h and its support.
struct Top {
    double at = 0.0;
    double value = 0.0;
};

/// The top of the parabola in the logarithm through the best of some points and its neighbours; the best
/// itself where it is the first or last.
Top top_of(const std::vector<Top>& points) {
    const auto best = std::ranges::max_element(points, {}, &Top::value);
    if (best == points.begin() || best + 1 == points.end()) return *best;
    const Top &before = *(best - 1), &after = *(best + 1);
    const double left = std::log(before.at / best->at), right = std::log(after.at / best->at);
    const double slope_left = (before.value - best->value) / left;
    const double slope_right = (after.value - best->value) / right;
    const double curve = (slope_right - slope_left) / (right - left);
    if (!(curve < 0.0)) return *best;
    const double slope = slope_left - curve * left;
    return {best->at * std::exp(-0.5 * slope / curve), best->value - 0.25 * slope * slope / curve};
}

class Search {
 public:
    Search(const EveningLikelihood& likelihood, Range h, Range shrink, core::Threads threads)
        : likelihood_(likelihood), h_(h), shrink_(shrink), threads_(threads) {}

    EveningSearch run() {
        scan();
        for (int i = 0; i < most_parabolas; ++i) {
            const double h = std::clamp(rounded(top_of(points()).at, h_digit), h_.low, h_.high);
            const auto [best_h, best] = this->best();
            const bool settled = std::fabs(h / best_h - 1.0) < near_enough;
            try_at(settled ? best_h : h, shrink_.about(best.at, settled ? fine_step : shrink_step, digit));
            if (settled && best_h == this->best().first) break;
        }
        return told();
    }

 private:
    static constexpr double h_digit = 0.01;  // m
    static constexpr double digit = 0.001;   // hours
    static constexpr double fine_step = 1.1;

    void scan() {
        const double octaves = std::log(h_.high / h_.low) / std::log(scan_factor);
        const auto steps = static_cast<std::size_t>(std::ceil(octaves)) + 1;
        std::vector<double> widths = h_.spread(steps, h_digit);
        std::ranges::reverse(widths);
        int worse = 0;
        double before = 0.0;
        for (const double h : widths) {
            try_at(h, shrink_.spread(scan_shrinks, digit));
            const double value = tried_.at(h).value;
            worse = h < widths.front() && value < before ? worse + 1 : 0;
            if (worse == worse_to_end && before < best().second.value) break;
            before = value;
        }
    }

    void try_at(double h, const std::vector<double>& shrinks) {
        std::vector<core::Hours> hours;
        hours.reserve(shrinks.size());
        for (const double shrink : shrinks)
            hours.emplace_back(shrink);
        const std::vector<double> values = likelihood_.at(core::Metres(h), hours, threads_);
        std::vector<Top> points;
        for (std::size_t k = 0; k < shrinks.size(); ++k)
            points.push_back({shrinks[k], values[k] / dispersion + prior(h)});
        tried_[h] = top_of(points);
    }

    [[nodiscard]] std::pair<double, Top> best() const {
        return *std::ranges::max_element(tried_, {}, [](const auto& trial) { return trial.second.value; });
    }

    [[nodiscard]] std::vector<Top> points() const {
        std::vector<Top> points;
        for (const auto& [h, top] : tried_)
            points.push_back({h, top.value});
        return points;
    }

    [[nodiscard]] EveningSearch told() const {
        const auto [h, top] = best();
        EveningSearch search;
        search.h = core::Metres(h);
        search.shrink = core::Hours(shrink_.is_point() ? top.at : rounded(top.at, digit));
        search.h_bound = h_.bound_of(h);
        search.shrink_bound = shrink_.bound_of(top.at);
        for (const auto& [at, trial] : tried_)
            search.trials.push_back({core::Metres(at), core::Hours(trial.at), trial.value - top.value});
        return search;
    }

    const EveningLikelihood& likelihood_;
    Range h_, shrink_;
    core::Threads threads_;
    std::map<double, Top> tried_;  ///< by h
};

/// What the coordinates of more than half of the flights were rounded to; a few rough ones among others do no
/// harm.
core::Metres usual_step(const survey::Survey& survey) {
    std::vector<core::Metres> steps;
    for (const auto& flight : survey.flights)
        if (flight.place_was_seen()) steps.push_back(flight.step);
    if (steps.empty()) return core::Metres(0.0);
    const auto half = static_cast<std::ptrdiff_t>((steps.size() - 1) / 2);
    std::ranges::nth_element(steps, steps.begin() + half);
    return steps[static_cast<std::size_t>(half)];
}

}  // namespace

EveningSearch search_by_evenings(const survey::Survey& survey, const Settings& settings,
                                 core::Threads threads) {
    const EveningLikelihood likelihood(survey, settings.seed);
    if (!likelihood.why_not().empty()) {
        EveningSearch search;
        search.why_not = likelihood.why_not();
        return search;
    }
    Range h{least_cells * settings.cell.value(), widest_h};
    Range shrink{std::max(least_shrink, settings.min_watch.value()), most_shrink};
    h.low = std::max(h.low, 0.5 * usual_step(survey).value());
    h.high = std::max(h.low, h.high);
    shrink.high = std::max(shrink.low, shrink.high);
    if (const auto* given = std::get_if<core::Metres>(&settings.bandwidth))
        h = {given->value(), given->value()};
    if (const auto* given = std::get_if<core::Hours>(&settings.shrink))
        shrink = {given->value(), given->value()};
    return Search(likelihood, h, shrink, threads).run();
}

}  // namespace roostward::activity
