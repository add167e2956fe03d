#include "roostward/siting/make_up.hpp"

#include <algorithm>

#include "roostward/siting/measures.hpp"

namespace roostward::siting {

namespace {

struct Measured {
    std::optional<double> value;
    std::string_view unit;
};

template <class Quantity>
std::optional<double> number(const std::optional<Quantity>& quantity) {
    return quantity ? std::optional(quantity->value()) : std::nullopt;
}

/// In the order of `fitness_part_names`.
std::array<Measured, fitness_parts> measured(const Candidate& candidate) {
    const trees::Light light = candidate.verdict.light.value_or(trees::Light{});
    return {Measured{number(candidate.approach_clear), "m"},
            {candidate.sun ? std::optional(candidate.sun->summer_half.value()) : std::nullopt, "h"},
            light.lux ? Measured{number(light.lux), "lx"} : Measured{number(light.lamp), "m to a lamp"},
            {number(candidate.road_distance), "m"}};
}

std::optional<activity::Range> flight_range(const Candidate& candidate, double reference, double weight) {
    if (!candidate.flight_range || reference <= 0.0) return std::nullopt;
    const auto worth = [&](double density) { return weight * std::min(1.0, density / reference); };
    return activity::Range{worth(candidate.flight_range->low), worth(candidate.flight_range->high)};
}

std::vector<ScorePart> evidence_of(const Candidate& candidate, const trees::Tree& tree, double reference) {
    const auto parts = evidence_parts({tree, candidate.activity, reference});
    const auto& [flight, evenings] = parts;
    return {{flight.name, 1e4 * candidate.activity.flight_density, "m/ha/h", flight.utility, flight.weight,
             flight.weight * flight.utility, flight_range(candidate, reference, flight.weight)},
            {evenings.name, candidate.activity.evenings_used, "evenings", evenings.utility, evenings.weight,
             evenings.weight * evenings.utility, std::nullopt}};
}

}  // namespace

std::vector<ScorePart> make_up(const Candidate& candidate, const trees::Tree& tree, double reference,
                               const Settings& settings) {
    std::vector<ScorePart> parts = evidence_of(candidate, tree, reference);
    if (!candidate.fitness) return parts;
    const auto values = measured(candidate);
    const double at_stake = candidate.evidence * settings.weights.fitness_share;
    for (std::size_t i = 0; i < fitness_parts; ++i) {
        const FitnessPart& part = candidate.fitness->parts[i];
        if (part.share <= 0.0) continue;
        std::optional<activity::Range> range;
        if (!part.utility) range = activity::Range{-at_stake * part.takes(0.0), -at_stake * part.takes(1.0)};
        parts.push_back({fitness_part_names[i], values[i].value, values[i].unit, part.utility,
                         settings.weights.fitness_share * part.share, -at_stake * part.takes(), range});
    }
    return parts;
}

}  // namespace roostward::siting
