#include "roostward/siting/fitness.hpp"

#include <algorithm>
#include <numeric>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

namespace {

using Utility = std::optional<double>;

template <class Quantity>
Utility utility_of(const std::optional<Sourced<Curve>>& curve, const std::optional<Quantity>& measured) {
    return curve && measured ? Utility(curve->value.at(measured->value())) : std::nullopt;
}

const std::optional<Sourced<Curve>>& sun_curve(const Settings& settings) {
    const Utilities& utilities = settings.profile.utilities;
    return settings.climate.hot() ? utilities.sun_hot : utilities.sun;
}

Utility approach(const Candidate& tree, const Settings& settings) {
    return utility_of(settings.profile.utilities.approach, tree.approach_clear);
}

Utility sun(const Candidate& tree, const Settings& settings) {
    return tree.sun ? utility_of(sun_curve(settings), std::optional(tree.sun->summer_half)) : std::nullopt;
}

/// By light where the lamps have numbers, else by distance; where no lamp is near it is dark.
Utility dark(const Candidate& tree, const Settings& settings) {
    const auto& light = tree.verdict.light;
    if (!light) return std::nullopt;
    const Utilities& utilities = settings.profile.utilities;
    return light->lux ? utility_of(utilities.lux, light->lux) : utility_of(utilities.lamp, light->lamp);
}

Utility quiet(const Candidate& tree, const Settings& settings) {
    return utility_of(settings.profile.utilities.road, tree.road_distance);
}

/// One thing that makes a place better or worse. To add one: a function, its line here, a weight, a utility
/// in the profiles.
struct Part {
    double Weights::*weight;
    bool (*has_curve)(const Settings&);
    Utility (*utility)(const Candidate&, const Settings&);
    std::string_view needs;  ///< the key of what to give
};
constexpr std::array<Part, fitness_parts> parts{
    Part{&Weights::approach, [](const Settings& s) { return s.profile.utilities.approach.has_value(); },
         approach, "fitness.needs.approach"},
    Part{&Weights::sun, [](const Settings& s) { return sun_curve(s).has_value(); }, sun, "fitness.needs.sun"},
    Part{&Weights::dark, [](const Settings& s) { return s.profile.utilities.lux.has_value(); }, dark,
         "fitness.needs.dark"},
    Part{&Weights::quiet, [](const Settings& s) { return s.profile.utilities.road.has_value(); }, quiet,
         "fitness.needs.quiet"}};

/// The weights of the parts that take part, 0 for the others.
using Shares = std::array<double, fitness_parts>;

Fitness fitness_of(const Candidate& tree, const Settings& settings, const Shares& shares) {
    const double all = std::accumulate(shares.begin(), shares.end(), 0.0);
    Fitness fitness{1.0, 1.0, 1.0, {}};
    for (std::size_t i = 0; i < fitness_parts; ++i) {
        if (shares[i] <= 0.0) continue;
        FitnessPart& part = fitness.parts[i];
        part = {shares[i] / all, parts[i].utility(tree, settings)};
        fitness.low -= part.takes(0.0);
        fitness.middle -= part.takes();
        fitness.high -= part.takes(1.0);
    }
    return fitness;
}

core::Finding takes_no_part(std::size_t part) {
    const std::string_view name = fitness_part_names[part];
    return {
        core::Severity::note,
        {},
        "takes no part in the score",
        std::string(name),
        core::said("finding.takes_no_part", {{"needs", core::said(parts[part].needs)}, {"weight", name}})};
}

}  // namespace

core::Findings measure_fitness(std::vector<Candidate>& candidates, const Settings& settings) {
    Shares shares{};
    core::Findings without_values;
    for (std::size_t part = 0; part < fitness_parts; ++part) {
        const double weight = settings.weights.*parts[part].weight;
        if (weight <= 0.0 || !parts[part].has_curve(settings)) continue;
        const bool any = std::ranges::any_of(candidates, [&](const Candidate& tree) {
            return tree.may_hold_a_box() && parts[part].utility(tree, settings);
        });
        if (any)
            shares[part] = weight;
        else
            without_values.push_back(takes_no_part(part));
    }
    if (std::ranges::all_of(shares, [](double share) { return share <= 0.0; })) return without_values;

    const double share = settings.weights.fitness_share;
    const auto kept = [share](double fitness) { return 1.0 - share + share * fitness; };
    for (Candidate& tree : candidates) {
        if (!tree.may_hold_a_box()) continue;
        const Fitness fitness = fitness_of(tree, settings, shares);
        tree.fitness = fitness;
        tree.kept = {kept(fitness.low), kept(fitness.middle), kept(fitness.high)};
    }
    return without_values;
}

}  // namespace roostward::siting
