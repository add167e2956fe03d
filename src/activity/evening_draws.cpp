#include "roostward/activity/evening_draws.hpp"

#include <cmath>
#include <utility>

#include "roostward/core/random.hpp"

namespace roostward::activity {

namespace {

/// n! / (Π times! · nⁿ)
double multinomial(const std::vector<std::uint16_t>& times) {
    double probability = 1.0;
    double left = 1.0;
    const auto n = static_cast<double>(times.size());
    for (const std::uint16_t of_one : times)
        for (std::uint16_t k = 1; k <= of_one; ++k, left += 1.0)
            probability *= left / (n * static_cast<double>(k));
    return probability;
}

/// Gives the evenings from `next` on all ways of sharing `left` draws.
void list(std::vector<std::uint16_t>& times, std::size_t next, std::uint16_t left,
          std::vector<EveningDraw>& draws) {
    if (next + 1 == times.size()) {
        times[next] = left;
        draws.push_back({times, multinomial(times)});
        return;
    }
    for (std::uint16_t here = 0; here <= left; ++here) {
        times[next] = here;
        list(times, next + 1, static_cast<std::uint16_t>(left - here), draws);
    }
}

}  // namespace

std::vector<std::uint16_t> each_once(std::size_t evenings) {
    return std::vector<std::uint16_t>(evenings, 1);
}

std::vector<EveningDraw> draw_evenings(std::size_t evenings, std::uint64_t seed, std::size_t most) {
    std::vector<EveningDraw> draws;
    if (evenings == 0) return draws;
    if (evenings <= most_listed_evenings) {
        std::vector<std::uint16_t> times(evenings, 0);
        list(times, 0, static_cast<std::uint16_t>(evenings), draws);
        return draws;
    }
    core::RandomStream random(seed, "evenings");
    for (std::size_t d = 0; d < most; ++d) {
        EveningDraw draw{std::vector<std::uint16_t>(evenings, 0), 1.0 / static_cast<double>(most)};
        for (std::size_t n = 0; n < evenings; ++n)
            ++draw.times[random.below(evenings)];
        draws.push_back(std::move(draw));
    }
    return draws;
}

}  // namespace roostward::activity
