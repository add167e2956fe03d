#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/geo/layer.hpp"

namespace roostward::io {

/// The box around nothing yet.
inline constexpr core::Box nowhere{
    {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()},
    {-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()}};

/// Widens `box` to hold `other` as well.
void include(core::Box& box, const core::Box& other);

/// Turns geometries into what a GeoPackage keeps (OGC 12-128r18, section 2.1.3): a header, with the box
/// around all but points, and well-known binary, little-endian throughout.
class GeometryEncoder {
 public:
    /// Coordinates are rounded to whole `steps` a unit.
    GeometryEncoder(std::int32_t srs_id, double steps) : srs_id_(srs_id), steps_(steps) {}
    /// False where there is nothing to place: no vertex, a line of only one, a coordinate that is not finite.
    [[nodiscard]] bool encode(const geo::Geometry& geometry);
    /// The geometry encoded last, and the box around it.
    [[nodiscard]] const std::string& bytes() const { return bytes_; }
    [[nodiscard]] const core::Box& box() const { return box_; }

 private:
    void add(core::PlanePoint point);
    void add(const geo::Line& line);
    void add(const std::vector<geo::Polygon>& polygons);
    void add_shape(std::uint32_t kind);
    void add_count(std::size_t count);
    void add_vertex(core::PlanePoint point);
    void add_vertices(const geo::Line& line);

    std::int32_t srs_id_;
    double steps_;
    std::string bytes_;
    core::Box box_ = nowhere;
    bool finite_ = true;
};

}  // namespace roostward::io
