#include "shift.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace roostward::evenings {

namespace {

constexpr std::chrono::minutes light_changes{5};

}  // namespace

Shift::Shift(core::Instant start, core::Instant end, core::Metres reach, const FarthestAt& farthest)
    : start_(start), end_(end) {
    std::vector<double> seen(static_cast<std::size_t>(reach.value() * steps_a_metre) + 1, 0.0);
    const auto pieces = std::max<std::int64_t>(1, (end - start) / light_changes);
    double squares = 0.0;
    for (std::int64_t i = 0; i < pieces; ++i) {
        const double far = farthest(start + (end - start) * (2 * i + 1) / (2 * pieces)).value();
        squares += far * far;
        for (std::size_t k = 0; k < seen.size(); ++k) {
            const double away = (static_cast<double>(k) + 0.5) / steps_a_metre;
            seen[k] += std::exp(-2.0 * away * away / (far * far));
        }
    }
    const auto count = static_cast<double>(pieces);
    farthest_ = core::Metres(std::sqrt(squares / count));
    for (const double sum : seen)
        seen_.push_back(static_cast<float>(sum / count));
}

Shift Shift::lasting(std::chrono::milliseconds time) const {
    Shift other = *this;
    other.end_ = start_ + time;
    return other;
}

double left_unseen(std::span<const Held> held, core::Instant start, core::Instant end) {
    double left = 1.0;
    const double hours = core::hours_between(start, end).value();
    for (const Held& other : held) {
        const double both =
            core::hours_between(std::max(other.start, start), std::min(other.end, end)).value();
        if (both > 0.0) left *= 1.0 - other.seen * both / hours;
    }
    return left;
}

}  // namespace roostward::evenings
