#include "roostward/evenings/known_trees.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <utility>

#include "foretold.hpp"
#include "roostward/core/by_square.hpp"

namespace roostward::evenings {

namespace {

/// Coefficient of variation of a rate from one evening to the next: enough to want an evening again.
constexpr double evening_spread = 0.6;
/// The same of what is foretold about the truth.
constexpr double foretold_spread = 1.3;
/// Of the mean rate, for trees of which nothing is foretold: people watch where they hope for much.
constexpr double unforetold = 0.5;
/// Hours of an evening from which it counts as one on which a tree was watched.
constexpr double long_enough = 0.05;
/// Trees this close are foretold the same.
constexpr core::Metres foretold_square{12.0};

/// What one pass typically adds to the metres flown per m² on its own course: its metres lie on its piece as
/// densely as it says, and aside as a Gaussian of width h, of which 1/(2√π h) is the mean.
double one_pass_of(const survey::Survey& survey, core::Metres h) {
    double sum = 0.0;
    std::size_t passes = 0;
    for (const survey::Flight& flight : survey.flights) {
        if (!flight.place_was_seen() || flight.path.size() < 2) continue;
        sum += survey::laid_on_path(flight);
        ++passes;
    }
    const double along = passes > 0 ? sum / static_cast<double>(passes) : 1.0;
    return along / (2.0 * std::sqrt(std::numbers::pi) * h.value());
}

TreeKnown unwatched(std::size_t tree, const trees::Inventory& inventory, const trees::Settings& suitability) {
    const trees::Tree& row = inventory.rows[tree];
    TreeKnown known;
    known.tree = tree;
    known.stem = row.stem;
    known.crown_radius = trees::crown_of(row, suitability);
    return known;
}

std::vector<HeldPost> held_posts(const survey::Survey& survey) {
    std::map<core::Evening, core::Instant> begins;
    for (const survey::Watch& watch : survey.watches) {
        const auto [known, fresh] = begins.try_emplace(watch.evening, watch.start);
        if (!fresh) known->second = std::min(known->second, watch.start);
    }
    std::vector<HeldPost> held;
    for (const survey::Watch& watch : survey.watches) {
        if (watch.path.size() != 1) continue;
        const core::Instant begin = begins.at(watch.evening);
        held.push_back({watch.path.front(), core::hours_between(begin, watch.start),
                        core::hours_between(begin, watch.end), watch.range});
    }
    return held;
}

/// Of trees that nobody watched: flight density that is foretold them, one a tree.
std::vector<double> foretold_at(const std::vector<core::PlanePoint>& stems, const survey::Survey& survey,
                                core::Metres h, core::Threads threads) {
    const core::Squares squares = core::by_square(stems, foretold_square);
    std::vector<core::PlanePoint> middles(squares.size());
    for (std::size_t s = 0; s < squares.size(); ++s) {
        const double share = 1.0 / static_cast<double>(squares.members(s).size());
        for (const std::size_t i : squares.members(s)) {
            middles[s].easting += share * stems[i].easting;
            middles[s].northing += share * stems[i].northing;
        }
    }
    const auto felt = foretold(survey, activity::Effort(survey, h), middles, threads);
    std::vector<double> all(stems.size());
    for (std::size_t s = 0; s < squares.size(); ++s)
        for (const std::size_t i : squares.members(s))
            all[i] = felt[s];
    return all;
}

/// `one_pass`: see above.
Belief belief_of_watched(const activity::PointActivity& activity, core::Hours shrink, double one_pass) {
    const double mean = activity.flight_density / one_pass;
    const double hours = (activity.smoothed + shrink).value();
    const double evenings = std::max(1.0, static_cast<double>(activity.evenings_watched));
    return belief_of(mean,
                     std::sqrt(mean / hours + evening_spread * evening_spread * mean * mean / evenings));
}

}  // namespace

KnownTrees unwatched_trees(std::span<const trees::Verdict> verdicts, const trees::Inventory& inventory,
                           const trees::Settings& suitability) {
    KnownTrees all;
    for (std::size_t i = 0; i < verdicts.size(); ++i)
        if (verdicts[i].state <= trees::State::settle_first)
            all.trees.push_back(unwatched(i, inventory, suitability));
    return all;
}

KnownTrees watched_in_vain(KnownTrees unwatched, const survey::Survey& survey) {
    const activity::Effort effort(survey, core::Metres(0.0));
    std::vector<double> flown(survey.evenings.size()), watched(flown.size()), smoothed(flown.size());
    for (TreeKnown& tree : unwatched.trees) {
        std::ranges::fill(watched, 0.0);
        effort.add_at(tree.stem, flown.data(), watched.data(), smoothed.data());
        tree.watched = core::Hours(std::accumulate(watched.begin(), watched.end(), 0.0));
        tree.evenings = static_cast<std::size_t>(
            std::ranges::count_if(watched, [](double hours) { return hours >= long_enough; }));
    }
    unwatched.held = held_posts(survey);
    return unwatched;
}

KnownTrees known_trees(std::span<const siting::Candidate> candidates, const trees::Inventory& inventory,
                       const trees::Settings& suitability, const survey::Survey& survey,
                       const activity::Bandwidth& bandwidth, double mean_rate, core::Threads threads) {
    KnownTrees all;
    all.held = held_posts(survey);
    const double one_pass = one_pass_of(survey, bandwidth.h);
    std::vector<core::PlanePoint> unseen;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const siting::Candidate& candidate = candidates[i];
        if (candidate.verdict.state == trees::State::ruled_out) continue;
        TreeKnown& known = all.trees.emplace_back(unwatched(i, inventory, suitability));
        known.watched = candidate.activity.watch_hours;
        known.evenings = candidate.activity.evenings_watched;
        known.chosen = candidate.site.has_value();
        if (!candidate.activity.watched)
            unseen.push_back(known.stem);
        else if (candidate.activity.flight_density > 0.0)
            known.passes = belief_of_watched(candidate.activity, bandwidth.shrink, one_pass);
    }
    const std::vector<double> hoped = foretold_at(unseen, survey, bandwidth.h, threads);
    std::size_t next = 0;
    for (TreeKnown& known : all.trees) {
        if (candidates[known.tree].activity.watched) continue;
        const double mean = (unforetold * mean_rate + hoped[next++]) / one_pass;
        if (mean > 0.0) known.passes = belief_of(mean, foretold_spread * mean);
    }
    return all;
}

}  // namespace roostward::evenings
