#pragma once

#include "roostward/core/units.hpp"

namespace roostward::evenings {

/// A rate of passes an hour as it is believed: gamma distributed with shape a, as if a passes had been seen
/// in b hours.
struct Belief {
    double a = 1.0;
    core::Hours b{1.0};

    [[nodiscard]] double mean() const { return a / b.value(); }
    [[nodiscard]] double variance() const { return a / (b.value() * b.value()); }
};
/// With this mean and standard deviation, both above 0.
[[nodiscard]] Belief belief_of(double mean, double deviation);

/// By how much watching for `hours` raises the expected best of this rate and a rival's mean, passes an hour:
/// s(φ(z) + zΦ(z)) with s² = (a/b²)·E/(b+E) and z = −|a/b − rival|/s (the knowledge gradient with normal
/// beliefs; Frazier, Powell & Dayanik 2008, SIAM Journal on Control and Optimization 47, from memory).
[[nodiscard]] double worth_of_watching(const Belief& belief, core::Hours hours, double rival);

/// s: the standard deviation of the mean after `hours` more, as foreseen now.
[[nodiscard]] double foreseen_shift(const Belief& belief, core::Hours hours);

}  // namespace roostward::evenings
