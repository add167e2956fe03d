#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace roostward::activity {

/// One re-draw of evenings with replacement: how often each evening is in it, and how likely it is.
struct EveningDraw {
    std::vector<std::uint16_t> times;
    double weight = 0.0;
};

/// All evenings as they were.
[[nodiscard]] std::vector<std::uint16_t> each_once(std::size_t evenings);

/// Up to this many evenings every re-draw is listed.
inline constexpr std::size_t most_listed_evenings = 7;

/// Re-draws of `evenings` evenings; the weights sum to 1. Up to seven evenings: every multiset with its
/// multinomial probability, in lexicographic order (the exact bootstrap: Fisher & Hall 1991, Journal of
/// Statistical Planning and Inference 27). Above: `most` random ones of equal weight, the same for the same
/// seed. None without evenings.
[[nodiscard]] std::vector<EveningDraw> draw_evenings(std::size_t evenings, std::uint64_t seed,
                                                     std::size_t most);

}  // namespace roostward::activity
