#include "choice_problem.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>
#include <utility>

namespace roostward::siting {

namespace {

bool closer(const Option& one, const Option& other, core::Metres apart) {
    return core::distance(one.stem, other.stem) < apart;
}

/// Indices of the options from west to east.
std::vector<std::uint32_t> from_west(const std::vector<Option>& options) {
    std::vector<std::uint32_t> order(options.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::sort(order, {}, [&](std::uint32_t i) { return std::pair(options[i].stem.easting, i); });
    return order;
}

/// Options of a kind share their groups, so that one can stand in for another.
class Kinds {
 public:
    explicit Kinds(const ChoiceProblem& problem) {
        std::map<std::vector<std::uint32_t>, std::size_t> known;
        for (std::size_t i = 0; i < problem.options.size(); ++i) {
            std::vector<std::uint32_t> groups;
            groups.reserve(problem.limits.size());
            for (const GroupLimit& limit : problem.limits)
                groups.push_back(limit.group[i]);
            of_.push_back(known.try_emplace(std::move(groups), known.size()).first->second);
        }
        count_ = known.size();
    }
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t of(std::size_t option) const { return of_[option]; }

 private:
    std::vector<std::size_t> of_;
    std::size_t count_ = 0;
};

/// Upper ends of up to `most` steps of cost; one for all where there is no budget.
std::vector<std::int64_t> cost_steps(const ChoiceProblem& problem, std::size_t most) {
    if (!problem.budget) return {0};
    std::vector<std::int64_t> costs;
    for (const Option& option : problem.options)
        costs.push_back(option.cost);
    std::sort(costs.begin(), costs.end());
    costs.erase(std::unique(costs.begin(), costs.end()), costs.end());
    std::vector<std::int64_t> steps;
    for (std::size_t s = 0; s < std::min(most, costs.size()); ++s)
        steps.push_back(costs[(costs.size() - 1) * (s + 1) / std::min(most, costs.size())]);
    return steps;
}

/// Better placed options that stand two spacings apart, by kind and step of cost.
class Packed {
 public:
    Packed(const ChoiceProblem& problem, const Kinds& kinds)
        : problem_(problem),
          kinds_(kinds),
          steps_(cost_steps(problem, 16)),
          packed_(kinds.count() * steps_.size()) {}

    /// Whether the set is always better with one of those before it. Options must come by place.
    [[nodiscard]] bool stand_in_for(std::size_t option) {
        const std::size_t base = kinds_.of(option) * steps_.size();
        const std::int64_t cost = problem_.budget ? problem_.options[option].cost : 0;
        for (std::size_t s = 0; s < steps_.size() && steps_[s] <= cost; ++s)
            if (packed_[base + s].size() >= problem_.sites) return true;
        for (std::size_t s = 0; s < steps_.size(); ++s)
            if (cost <= steps_[s]) pack(packed_[base + s], option);
        return false;
    }

 private:
    void pack(std::vector<std::size_t>& packed, std::size_t option) const {
        const core::Metres apart = 2.000001 * problem_.spacing;  // safe against rounding
        const auto near = [&](std::size_t other) {
            return closer(problem_.options[option], problem_.options[other], apart);
        };
        if (packed.size() < problem_.sites && std::ranges::none_of(packed, near)) packed.push_back(option);
    }

    const ChoiceProblem& problem_;
    const Kinds& kinds_;
    std::vector<std::int64_t> steps_;
    std::vector<std::vector<std::size_t>> packed_;
};

ChoiceProblem reduced_by_packing(const ChoiceProblem& problem) {
    const Kinds kinds(problem);
    Packed packed(problem, kinds);
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        if (!packed.stand_in_for(i)) kept.push_back(i);
    return among(problem, kept);
}

/// With a budget an option that costs less would have to be looked for; there this step does nothing.
ChoiceProblem reduced_by_counting(const ChoiceProblem& problem, std::size_t most_pairs) {
    if (problem.budget || problem.sites == 0) return problem;
    const Conflicts conflicts(problem, most_pairs);
    if (!conflicts.complete()) return problem;
    std::size_t blocked = 1;
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        blocked = std::max(blocked, conflicts.of(i).size() + 1);
    const std::size_t enough = (problem.sites - 1) * blocked + 1;
    const Kinds kinds(problem);
    std::vector<std::size_t> of_kind(kinds.count(), 0), kept;
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        if (of_kind[kinds.of(i)]++ < enough) kept.push_back(i);
    return among(problem, kept);
}

}  // namespace

bool too_close(const ChoiceProblem& problem, std::size_t one, std::size_t other) {
    return closer(problem.options[one], problem.options[other], problem.spacing);
}

Worth::Worth(const ChoiceProblem& problem) {
    const auto most = static_cast<double>(std::min(problem.sites, problem.options.size()));
    const auto all = static_cast<double>(problem.contenders);
    // Beyond this, sums of 64 bits would not hold the places too: of equal sums any will do.
    const bool with_places = 1e6 * most * (8.0 * most * all + 1.0) < 4e18;
    per_millionth = with_places ? static_cast<std::int64_t>(8.0 * most * all) + 1 : 1;
    for (const Option& option : problem.options)
        of.push_back(option.score * per_millionth +
                     (with_places ? static_cast<std::int64_t>(problem.contenders - option.place) : 0));
}

std::int64_t Worth::sum(std::span<const std::size_t> picked) const {
    std::int64_t total = 0;
    for (const std::size_t option : picked)
        total += of[option];
    return total;
}

std::int64_t bound_by_squares(const ChoiceProblem& problem, const Worth& worth) {
    const double side = 0.7071 * problem.spacing.value();  // less than 1/√2
    std::map<std::pair<double, double>, std::int64_t> best;
    std::vector<std::int64_t> worths;
    if (side > 0.0) {
        for (std::size_t i = 0; i < problem.options.size(); ++i) {
            const core::PlanePoint stem = problem.options[i].stem;
            std::int64_t& most = best[{std::floor(stem.easting / side), std::floor(stem.northing / side)}];
            most = std::max(most, worth.of[i]);
        }
        for (const auto& [square, most] : best)
            worths.push_back(most);
    } else {
        worths = worth.of;
    }
    std::sort(worths.begin(), worths.end(), std::greater<>());
    worths.resize(std::min(worths.size(), problem.sites));
    return std::accumulate(worths.begin(), worths.end(), std::int64_t{0});
}

Conflicts::Conflicts(const ChoiceProblem& problem, std::size_t most_pairs) {
    const std::vector<std::uint32_t> order = from_west(problem.options);
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    for (std::size_t a = 0; a < order.size() && complete_; ++a) {
        const Option& one = problem.options[order[a]];
        for (std::size_t b = a + 1; b < order.size(); ++b) {
            const Option& other = problem.options[order[b]];
            if (other.stem.easting - one.stem.easting >= problem.spacing.value()) break;
            if (!closer(one, other, problem.spacing)) continue;
            pairs.emplace_back(order[a], order[b]);
        }
        complete_ = pairs.size() <= most_pairs;
    }
    start_.assign(problem.options.size() + 1, 0);
    for (const auto& [one, other] : pairs) {
        ++start_[one + 1];
        ++start_[other + 1];
    }
    std::partial_sum(start_.begin(), start_.end(), start_.begin());
    other_.resize(2 * pairs.size());
    std::vector<std::size_t> next(start_.begin(), start_.end() - 1);
    for (const auto& [one, other] : pairs) {
        other_[next[one]++] = other;
        other_[next[other]++] = one;
    }
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        std::sort(other_.begin() + static_cast<std::ptrdiff_t>(start_[i]),
                  other_.begin() + static_cast<std::ptrdiff_t>(start_[i + 1]));
}

bool Conflicts::between(std::size_t one, std::size_t other) const {
    const auto near = of(one);
    return std::binary_search(near.begin(), near.end(), static_cast<std::uint32_t>(other));
}

Room::Room(const ChoiceProblem& problem)
    : problem_(&problem), sites_(problem.sites), money_(problem.budget.value_or(0)) {
    for (const GroupLimit& limit : problem.limits)
        groups_.push_back(limit.room);
}

bool Room::for_one(std::size_t option) const {
    if (sites_ == 0 || (problem_->budget && problem_->options[option].cost > money_)) return false;
    for (std::size_t l = 0; l < groups_.size(); ++l)
        if (groups_[l][problem_->limits[l].group[option]] == 0) return false;
    return true;
}

void Room::take(std::size_t option) {
    --sites_;
    money_ -= problem_->options[option].cost;
    for (std::size_t l = 0; l < groups_.size(); ++l)
        --groups_[l][problem_->limits[l].group[option]];
}

void Room::give_back(std::size_t option) {
    ++sites_;
    money_ += problem_->options[option].cost;
    for (std::size_t l = 0; l < groups_.size(); ++l)
        ++groups_[l][problem_->limits[l].group[option]];
}

bool keeps_the_rules(const ChoiceProblem& problem, std::span<const std::size_t> picked) {
    Room room(problem);
    for (std::size_t k = 0; k < picked.size(); ++k) {
        if (!room.for_one(picked[k])) return false;
        room.take(picked[k]);
        for (std::size_t before = 0; before < k; ++before)
            if (picked[before] == picked[k] || too_close(problem, picked[before], picked[k])) return false;
    }
    return true;
}

ChoiceProblem among(const ChoiceProblem& problem, std::span<const std::size_t> options) {
    ChoiceProblem part{{}, problem.contenders, problem.sites, problem.spacing, {}, problem.budget};
    for (const std::size_t option : options)
        part.options.push_back(problem.options[option]);
    for (const GroupLimit& limit : problem.limits) {
        GroupLimit kept{{}, limit.room};
        for (const std::size_t option : options)
            kept.group.push_back(limit.group[option]);
        part.limits.push_back(std::move(kept));
    }
    return part;
}

ChoiceProblem beside(const ChoiceProblem& problem, std::span<const std::size_t> taken) {
    Room room(problem);
    for (const std::size_t option : taken)
        room.take(option);
    std::vector<std::size_t> left;
    for (std::size_t i = 0; i < problem.options.size(); ++i) {
        const auto near = [&](std::size_t other) { return other == i || too_close(problem, i, other); };
        if (room.for_one(i) && std::ranges::none_of(taken, near)) left.push_back(i);
    }
    ChoiceProblem rest = among(problem, left);
    rest.sites -= taken.size();
    for (const std::size_t option : taken) {
        if (rest.budget) *rest.budget -= problem.options[option].cost;
        for (std::size_t l = 0; l < rest.limits.size(); ++l)
            --rest.limits[l].room[problem.limits[l].group[option]];
    }
    return rest;
}

ChoiceProblem reduced(const ChoiceProblem& problem, std::size_t most_pairs) {
    return reduced_by_counting(reduced_by_packing(problem), most_pairs);
}

}  // namespace roostward::siting
