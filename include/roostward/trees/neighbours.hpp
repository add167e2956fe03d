#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::trees {

/// Somewhere animals are known to live. Empty means not told.
struct KnownRoost {
    core::RowRef row;
    core::PlanePoint position;
    std::optional<core::Date> date;
    std::optional<double> count;
    std::string animal;
};

using Lumens = core::Quantity<struct LumensUnit>;
using Lux = core::Quantity<struct LuxUnit>;

/// A lamp out of doors. Empty means not told.
struct Lamp {
    core::RowRef row;
    core::PlanePoint position;
    std::optional<Lumens> lumens;   ///< of the whole lamp; it shines downward only
    std::optional<Lux> lux_at_10m;  ///< as much to every side
    std::optional<core::Metres> height;
};

/// What lies along the ground, as roads or water.
struct Features {
    std::string file;  ///< as the site file names it; empty where the layer was not given
    std::vector<geo::Shape> shapes;
    [[nodiscard]] bool given() const { return !file.empty(); }
};

/// `not_hung`: a row of the list of boxes to hang for which nobody wrote when it was hung, or what became of
/// it.
enum class BoxStatus { up, not_hung, fallen, moved, removed, tree_felled };

/// A box that somebody hung. Empty means not told.
struct HungBox {
    core::RowRef row;
    std::string id;
    core::PlanePoint position;
    std::string tree;  ///< identifier
    std::string design;
    std::optional<core::Date> hung;
    std::optional<core::Degrees> facing;  ///< true
    std::optional<core::Metres> mount_height;
    BoxStatus status = BoxStatus::up;
    std::string animal;  ///< for whom, or who lives in it
    [[nodiscard]] bool hangs() const { return status == BoxStatus::up; }
};

/// What an upright face that is turned to the lamp gets, from the inverse square and the face's cosine:
/// E = I·a/(a² + b²)^1.5 with I = Φ/2π below the lamp (Φ in lumens), or I = 100·lux_at_10m. A lamp of unknown
/// height stands as high as the face. Empty where the lamp has no numbers. `away` is level, and under 0.5 m
/// counts as 0.5 m.
[[nodiscard]] std::optional<Lux> light_from(const Lamp& lamp, core::Metres away, core::Metres face_height);

/// How far off a lamp still gives `least` to a face as high as itself: 0 without numbers.
[[nodiscard]] core::Metres reach_of(const Lamp& lamp, Lux least);

}  // namespace roostward::trees
