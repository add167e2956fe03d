#pragma once

#include <compare>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/point.hpp"

namespace roostward::geo {

using Line = std::vector<core::PlanePoint>;

/// Rings are closed (first point repeated at the end), outer first, then holes.
struct Polygon {
    Line outer;
    std::vector<Line> holes;
    friend auto operator<=>(const Polygon&, const Polygon&) = default;
};

/// One feature's geometry in the planning plane; any of the parts may be empty.
struct Shape {
    std::vector<core::PlanePoint> points;
    std::vector<Line> lines;
    std::vector<Polygon> polygons;
    friend auto operator<=>(const Shape&, const Shape&) = default;
    [[nodiscard]] bool empty() const { return points.empty() && lines.empty() && polygons.empty(); }
};

[[nodiscard]] core::Metres length_of(const Line& line);

struct Repair {
    std::vector<Polygon> polygons;
    bool changed = false;
};
/// The same ground as valid polygons (GEOS MakeValid); `changed` where the input was not valid.
[[nodiscard]] Repair repaired(const std::vector<Polygon>& polygons);

/// Polygons that may overlap, as one piece of ground (GEOS union).
[[nodiscard]] std::vector<Polygon> merged(const std::vector<Polygon>& polygons);

/// Convex hull of the points, widened all round (circles as 128 chords: within 0.04 % of `by`, inside).
/// Empty without points.
[[nodiscard]] std::vector<Polygon> widened_hull(std::span<const core::PlanePoint> points, core::Metres by);

/// Sum over valid polygons; ground that two of them share counts twice.
[[nodiscard]] core::SquareMetres area_of(const std::vector<Polygon>& polygons);

/// Centre of gravity of valid polygons with some area; holes do not count.
[[nodiscard]] core::PlanePoint middle_of(const std::vector<Polygon>& polygons);

/// Coordinates are kept to 0.1 mm, so a point no further than this from an edge (inclusive) lies on it.
inline constexpr core::Metres edge_tolerance{1e-4};

/// Whether a point lies on the ground, edges included. O(vertices): for many points use NearestShape.
[[nodiscard]] bool covers(const std::vector<Polygon>& ground, core::PlanePoint point);

/// Where a line crosses the lines and the outlines of the shapes; where it runs along one, nowhere.
/// O(vertices of both).
[[nodiscard]] std::vector<core::PlanePoint> crossings(const Line& line, std::span<const Shape> shapes);

[[nodiscard]] std::optional<core::Box> box_of(std::span<const core::PlanePoint> points);

/// Nearest of many shapes; of several equally near ones the first. Inside a polygon the distance is 0.
class NearestShape {
 public:
    explicit NearestShape(std::span<const Shape> shapes);
    ~NearestShape();
    NearestShape(NearestShape&&) noexcept;
    NearestShape& operator=(NearestShape&&) noexcept;

    struct Hit {
        core::Metres distance;
        std::size_t shape = 0;  ///< index into the shapes
        core::PlanePoint where;
    };
    /// Empty where there are no shapes. Safe to call from several threads.
    [[nodiscard]] std::optional<Hit> nearest(core::PlanePoint from) const;
    /// The same, but empty where nothing lies within `reach` (inclusive): much faster far from everything.
    [[nodiscard]] std::optional<Hit> nearest_within(core::PlanePoint from, core::Metres reach) const;

 private:
    struct Index;
    std::unique_ptr<Index> index_;
};

/// Points in order of their index, found by place.
class PointIndex {
 public:
    explicit PointIndex(std::span<const core::PlanePoint> points);
    ~PointIndex();
    PointIndex(PointIndex&&) noexcept;
    PointIndex& operator=(PointIndex&&) noexcept;

    /// Indices of the points no further than `radius` (inclusive), ascending.
    [[nodiscard]] std::vector<std::size_t> within(core::PlanePoint of, core::Metres radius) const;

 private:
    struct Index;
    std::unique_ptr<Index> index_;
};

}  // namespace roostward::geo
