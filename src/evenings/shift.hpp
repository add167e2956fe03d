#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"

namespace roostward::evenings {

/// From when to when a post is held, and how well a pass is seen from it, by distance: half-normal, the mean
/// over its time.
class Shift {
 public:
    /// How far is seen (twice the half-normal's scale) at a moment.
    using FarthestAt = std::function<core::Metres(core::Instant)>;
    /// Nothing is seen beyond `reach`.
    Shift(core::Instant start, core::Instant end, core::Metres reach, const FarthestAt& farthest);

    /// Share of passes that are noticed, `away` metres from the post.
    [[nodiscard]] double seen_at(float away) const {
        const auto step = static_cast<std::size_t>(away * steps_a_metre);
        return step < seen_.size() ? seen_[step] : 0.0;
    }
    [[nodiscard]] core::Instant start() const { return start_; }
    [[nodiscard]] core::Instant end() const { return end_; }
    [[nodiscard]] double hours() const { return core::hours_between(start_, end_).value(); }
    /// Constant, and as much ground would be seen.
    [[nodiscard]] core::Metres farthest() const { return farthest_; }
    /// With the same light for another time, from the same start.
    [[nodiscard]] Shift lasting(std::chrono::milliseconds time) const;

 private:
    static constexpr float steps_a_metre = 2.0F;

    core::Instant start_, end_;
    core::Metres farthest_;
    std::vector<float> seen_;
};

/// A place is watched for some time by somebody who notices a share of what passes.
struct Held {
    core::Instant start, end;
    double seen = 0.0;
};
/// The share of passes from `start` to `end` that all others miss.
[[nodiscard]] double left_unseen(std::span<const Held> held, core::Instant start, core::Instant end);

}  // namespace roostward::evenings
