#pragma once

#include <cstddef>
#include <optional>

#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"

namespace roostward::trees {

/// Somewhere animals are known to live. Empty means not told.
struct KnownRoost {
    std::size_t row = 0;
    core::PlanePoint position;
    std::optional<core::Date> date;
    std::optional<double> count;
};

using Lumens = core::Quantity<struct LumensUnit>;
using Lux = core::Quantity<struct LuxUnit>;

/// A lamp out of doors. Empty means not told.
struct Lamp {
    std::size_t row = 0;
    core::PlanePoint position;
    std::optional<Lumens> lumens;   ///< of the whole lamp; it shines downward only
    std::optional<Lux> lux_at_10m;  ///< as much to every side
    std::optional<core::Metres> height;
};

/// What an upright face that is turned to the lamp gets, from the inverse square and the face's cosine:
/// E = I·a/(a² + b²)^1.5 with I = Φ/2π below the lamp (Φ in lumens), or I = 100·lux_at_10m. A lamp of unknown
/// height stands as high as the face. Empty where the lamp has no numbers. `away` is level, and under 0.5 m
/// counts as 0.5 m.
[[nodiscard]] std::optional<Lux> light_from(const Lamp& lamp, core::Metres away, core::Metres face_height);

/// How far off a lamp still gives `least` to a face as high as itself: 0 without numbers.
[[nodiscard]] core::Metres reach_of(const Lamp& lamp, Lux least);

}  // namespace roostward::trees
