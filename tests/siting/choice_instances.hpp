#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "choice_problem.hpp"

namespace roostward::siting::instances {

/// SplitMix64 (Steele, Lea & Flood 2014): the same numbers as in tests/reference/siting/choice.py.
class Numbers {
 public:
    explicit Numbers(std::uint64_t seed) : state_(seed) {}
    /// 0 … most.
    std::int64_t upto(std::int64_t most) {
        return static_cast<std::int64_t>(next() % (static_cast<std::uint64_t>(most) + 1));
    }

 private:
    std::uint64_t next() {
        state_ += 0x9E3779B97F4A7C15U;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31U);
    }
    std::uint64_t state_;
};

/// What trees are made of, and how large instances are.
struct Instance {
    ChoiceProblem problem;
    std::vector<std::size_t> musts;  ///< options
};

/// As choice.py makes it, with at most `most_trees`.
[[nodiscard]] Instance instance(std::uint64_t number, std::int64_t most_trees = 200);

}  // namespace roostward::siting::instances
