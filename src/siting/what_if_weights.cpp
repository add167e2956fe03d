#include <algorithm>
#include <array>
#include <utility>

#include "what_if_parts.hpp"

namespace roostward::siting {

namespace {

struct Weight {
    std::string_view key;
    double Weights::*weight;
};
constexpr Weight share{"weights.fitness_share", &Weights::fitness_share};
/// In the order of `fitness_part_names`.
constexpr std::array<Weight, fitness_parts> parts{
    Weight{"weights.approach", &Weights::approach}, Weight{"weights.sun", &Weights::sun},
    Weight{"weights.dark", &Weights::dark}, Weight{"weights.quiet", &Weights::quiet}};

/// The share takes no more than all.
void vary(std::vector<Trial>& trials, const Weight& of, double most, const Varied& as_planned) {
    const double from = as_planned.weights.*of.weight;
    for (const double factor : {2.0, 0.5, 0.0}) {
        const double to = std::min(most, factor * from);
        if (to == from) continue;
        Varied varied = as_planned;
        varied.weights.*of.weight = to;
        trials.push_back(trial_of(Change::weight, std::string(of.key), from, to, std::move(varied)));
    }
}

bool takes_part(std::span<const Candidate> candidates, std::size_t part) {
    return std::ranges::any_of(candidates, [part](const Candidate& tree) {
        return tree.fitness && tree.fitness->parts[part].share > 0.0;
    });
}

}  // namespace

std::vector<Trial> weight_trials(std::span<const Candidate> candidates, const Varied& as_planned) {
    std::vector<Trial> trials;
    if (as_planned.weights.fitness_share <= 0.0) return trials;
    for (std::size_t part = 0; part < fitness_parts; ++part)
        if (takes_part(candidates, part)) vary(trials, parts[part], 1e9, as_planned);
    if (!trials.empty()) vary(trials, share, 1.0, as_planned);
    return trials;
}

std::vector<Trial> spacing_trials(const Varied& as_planned) {
    std::vector<Trial> trials;
    for (const double by : {-10.0, 10.0}) {
        const double from = as_planned.choice.spacing.value(), to = std::max(0.0, from + by);
        if (to == from) continue;
        Varied varied = as_planned;
        varied.choice.spacing = core::Metres(to);
        trials.push_back(trial_of(Change::spacing, "choose.spacing_m", from, to, std::move(varied)));
    }
    return trials;
}

}  // namespace roostward::siting
