#include <algorithm>
#include <map>
#include <utility>

#include "contention.hpp"
#include "evidence.hpp"
#include "roostward/siting/choice.hpp"
#include "roostward/siting/line_offsets.hpp"
#include "roostward/siting/redraws.hpp"
#include "what_if_parts.hpp"

namespace roostward::siting {

namespace {

using trees::State;

/// Those with the largest `key`; of equals the first.
template <class Key>
void keep_largest(std::vector<std::size_t>& trees, const Key& key) {
    std::ranges::stable_sort(trees, [&key](std::size_t a, std::size_t b) { return key(a) > key(b); });
    trees.resize(std::min(trees.size(), most_taking_part));
}

struct TakingPart {
    std::vector<std::size_t> trees;  ///< ascending
    std::size_t left_out = 0;
};

/// By index of the tree.
std::map<std::size_t, double> flight_at(const Evidenced& data, const std::vector<std::size_t>& trees,
                                        core::Threads threads) {
    const auto activity = data.density.summarise(data.density.at(stems_of(data.inventory, trees), threads));
    std::map<std::size_t, double> flight;
    for (std::size_t k = 0; k < trees.size(); ++k)
        flight.emplace_hint(flight.end(), trees[k], activity[k].flight_density);
    return flight;
}

/// The trees that could be chosen if one limit were another, which takes one reason away at most.
TakingPart taking_part(std::span<const Candidate> candidates, const Evidenced& data, core::Hours least_watch,
                       core::Threads threads) {
    std::vector<std::size_t> musts, choosable, others, hardly_watched;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const Candidate& tree = candidates[i];
        if (tree.wish == Wish::must)
            musts.push_back(i);
        else if (tree.can_be_chosen())
            choosable.push_back(i);
        else if (tree.verdict.reasons.size() > 1)
            continue;
        else if (tree.activity.watched)
            others.push_back(i);
        else if (tree.activity.watch_hours >= least_watch)
            hardly_watched.push_back(i);
    }
    const std::size_t all = musts.size() + choosable.size() + others.size() + hardly_watched.size();
    keep_largest(choosable, [&](std::size_t i) { return -static_cast<double>(*candidates[i].rank); });
    keep_largest(others, [&](std::size_t i) { return candidates[i].activity.flight_density; });
    const auto flight = flight_at(data, hardly_watched, threads);
    keep_largest(hardly_watched, [&](std::size_t i) { return flight.at(i); });
    std::vector<std::size_t> trees;
    for (const auto& kept : {musts, choosable, others, hardly_watched})
        trees.insert(trees.end(), kept.begin(), kept.end());
    std::ranges::sort(trees);
    return {trees, all - trees.size()};
}

/// As it was before it was scored.
Candidate unscored(const Candidate& tree) {
    Candidate same;
    same.verdict.light = tree.verdict.light;
    same.activity = tree.activity;
    same.flight_line = tree.flight_line;
    same.approach_clear = tree.approach_clear;
    same.sun = tree.sun;
    same.road_distance = tree.road_distance;
    same.wish = tree.wish;
    return same;
}

/// The trees that take part, apart from all others, so that the choice can be made anew.
class Excerpt {
 public:
    Excerpt(std::span<const Candidate> candidates, const Evidenced& data, const Judged& judged,
            std::vector<std::size_t> trees, core::Threads threads)
        : data_(data),
          judged_(judged),
          trees_(std::move(trees)),
          table_(data.density.at(stems_of(data.inventory, trees_), threads)) {
        inventory_.columns = data.inventory.columns;
        for (const std::size_t tree : trees_) {
            inventory_.rows.push_back(data.inventory.rows[tree]);
            candidates_.push_back(unscored(candidates[tree]));
            is_measured_.push_back(candidates[tree].may_hold_a_box());
        }
    }

    /// What the trees would be.
    [[nodiscard]] std::vector<State> states(const Varied& varied) const {
        std::vector<State> states = judged_.judge.states(trees_, varied.limits);
        const auto activity = data_.density.summarise(table_, varied.min_watch);
        for (std::size_t k = 0; k < states.size(); ++k)
            if (!activity[k].watched) states[k] = std::max(states[k], State::not_watched);
        return states;
    }

    /// Measures the trees that come in where any of these are their states.
    void measure_newcomers(const std::vector<std::vector<State>>& states, core::Threads threads) {
        std::vector<std::size_t> newcomers;
        for (std::size_t k = 0; k < trees_.size(); ++k)
            if (!is_measured_[k] && std::ranges::any_of(states, [k](const std::vector<State>& of) {
                    return of[k] == State::can_be_chosen;
                }))
                newcomers.push_back(k);
        if (newcomers.empty()) return;
        trees::Inventory inventory;
        std::vector<Candidate> measured;
        for (const std::size_t k : newcomers) {
            inventory.rows.push_back(inventory_.rows[k]);
            measured.push_back(candidates_[k]);
            measured.back().activity.watched = true;
        }
        measure_line_offsets(measured, inventory, judged_.flight_lines, threads);
        measure_distances(measured, inventory, judged_.around, judged_.judge.limits().settings, threads);
        measure_ways_in(measured, inventory, judged_.around, judged_.hanging, threads);
        for (std::size_t n = 0; n < newcomers.size(); ++n)
            candidates_[newcomers[n]] = unscored(measured[n]);
    }

    /// Indices into all trees, site 1 first.
    [[nodiscard]] std::vector<std::size_t> chosen(const std::vector<State>& states, const Varied& varied,
                                                  Settings settings) const {
        std::vector<Candidate> cast = candidates_;
        const auto activity = data_.density.summarise(table_, varied.min_watch);
        for (std::size_t k = 0; k < cast.size(); ++k) {
            cast[k].verdict.state = states[k];
            cast[k].activity = activity[k];
        }
        settings.weights = varied.weights;
        settings.choice = varied.choice;
        static_cast<void>(measure_fitness(cast, settings));
        score_and_rank(cast, inventory_);
        std::vector<std::size_t> chosen;
        for (const std::size_t k :
             best_apart(contenders_among(cast, settings.choice), inventory_, settings.choice))
            chosen.push_back(trees_[k]);
        return chosen;
    }

 private:
    /// What must be chosen is, as long as it can hold a box.
    [[nodiscard]] std::vector<Contender> contenders_among(std::vector<Candidate>& cast,
                                                          const ChoiceSettings& choice) const {
        std::vector<Contender> contenders;
        for (std::size_t k = 0; k < cast.size(); ++k) {
            if (!cast[k].may_hold_a_box()) cast[k].wish = Wish::none;
            const bool joins =
                cast[k].rank && cast[k].enough_evidence && may_join(cast[k], inventory_.rows[k], choice);
            if (joins || cast[k].wish == Wish::must) contenders.push_back(contender_of(cast, k));
        }
        return contenders;
    }

    const Evidenced& data_;
    const Judged& judged_;
    std::vector<std::size_t> trees_;  ///< ascending
    activity::EveningTable table_;    ///< a row for each of them
    trees::Inventory inventory_;
    std::vector<Candidate> candidates_;
    std::vector<bool> is_measured_;
};

core::Hours least_watch(const std::vector<Trial>& trials, core::Hours as_planned) {
    core::Hours least = as_planned;
    for (const Trial& trial : trials)
        least = std::min(least, trial.varied.min_watch);
    return least;
}

}  // namespace

WhatIfTable chosen_for(std::vector<Trial> trials, std::span<const Candidate> candidates,
                       const Evidenced& data, const Judged& judged, const Settings& settings,
                       core::Threads threads) {
    const auto [trees, left_out] =
        taking_part(candidates, data, least_watch(trials, settings.activity.min_watch), threads);
    Excerpt excerpt(candidates, data, judged, trees, threads);
    std::vector<std::vector<State>> states(trials.size());
    const auto for_each_trial = [&](const auto& act) {
        core::parallel_for(trials.size(), 1, threads, [&act](std::size_t i, std::size_t) { act(i); });
    };
    for_each_trial([&](std::size_t i) { states[i] = excerpt.states(trials[i].varied); });
    excerpt.measure_newcomers(states, threads);
    for_each_trial([&](std::size_t i) {
        tell_changes(trials[i].line, candidates, data.inventory,
                     excerpt.chosen(states[i], trials[i].varied, settings));
    });
    const Varied as_planned{settings.weights, settings.choice, judged.judge.limits(),
                            settings.activity.min_watch};
    WhatIf nothing;
    tell_changes(nothing, candidates, data.inventory,
                 excerpt.chosen(excerpt.states(as_planned), as_planned, settings));
    WhatIfTable table{{}, trees.size(), left_out, nothing.changes_nothing()};
    for (Trial& trial : trials)
        table.lines.push_back(std::move(trial.line));
    return table;
}

}  // namespace roostward::siting
