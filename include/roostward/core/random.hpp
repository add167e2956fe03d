#pragma once

#include <cstdint>
#include <string_view>

namespace roostward::core {

/// Repeatable random numbers: the same on every machine for the same seed and stream name.
/// The generator is xoshiro256++ (Blackman & Vigna 2021, ACM TOMS 47), seeded by splitmix64.
class RandomStream {
 public:
    /// Streams of different names are independent for one seed.
    RandomStream(std::uint64_t seed, std::string_view name);

    [[nodiscard]] std::uint64_t bits();
    /// In [0, 1).
    [[nodiscard]] double uniform();
    [[nodiscard]] double uniform(double low, double high);
    /// In [0, bound); `bound` > 0; unbiased.
    [[nodiscard]] std::uint64_t below(std::uint64_t bound);
    /// Mean 0, standard deviation 1 (polar method of Marsaglia & Bray 1964).
    [[nodiscard]] double normal();
    /// Poisson count with the given mean (inversion in steps; Knuth 1969), mean >= 0.
    [[nodiscard]] std::uint64_t poisson(double mean);

 private:
    std::uint64_t state_[4]{};
    double spare_ = 0.0;
    bool has_spare_ = false;
};

}  // namespace roostward::core
