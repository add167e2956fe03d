#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>

#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"

namespace roostward::geo {

/// A coordinate reference system, by anything PROJ can read: "EPSG:32630", WKT, a PROJ string.
struct Crs {
    std::string definition;
    friend bool operator==(const Crs&, const Crs&) = default;
};

/// Longitude and latitude, WGS 84, in that order.
[[nodiscard]] inline Crs wgs84() {
    return {"OGC:CRS84"};
}

struct CrsFacts {
    std::string name;       ///< "WGS 84 / UTM zone 30N"
    std::string authority;  ///< "EPSG:32630"; empty where there is none
    bool geographic = false;
    bool projected_in_metres = false;  ///< a plane in metres whose x does not run to the west
};

/// Throws Error{inputs} when PROJ does not know the definition.
[[nodiscard]] CrsFacts facts_of(const Crs& crs);
[[nodiscard]] std::string wkt2_of(const Crs& crs);

/// The UTM zone of the points' mean, taken in three dimensions so that ±180° does no harm; no zone
/// exceptions. Empty where there are no points or the mean lies beyond 84° of latitude.
[[nodiscard]] std::optional<Crs> utm_zone_of(std::span<const core::GeographicPoint> points);

/// Coordinates from one system to another, always x (longitude or easting) before y.
/// One object a thread: it holds a PROJ context of its own, with the network off. A copy serves another
/// thread and costs next to nothing beside a new one.
class Transform {
 public:
    /// Throws Error{inputs} when no operation leads from one to the other.
    Transform(const Crs& from, const Crs& to);
    ~Transform();
    Transform(const Transform& other);
    Transform& operator=(const Transform&) = delete;
    Transform(Transform&&) noexcept;
    Transform& operator=(Transform&&) noexcept;

    /// In place, many at once. `easting` holds x or longitude, `northing` y or latitude. What cannot be
    /// transformed becomes not-a-number. Metres are rounded to 0.1 mm.
    void apply(std::span<core::PlanePoint> points, core::Threads threads = {1}) const;
    [[nodiscard]] core::PlanePoint operator()(core::PlanePoint point) const;

    /// Its name. Where PROJ keeps several for several regions: the one used for the last point, empty before
    /// the first.
    [[nodiscard]] std::string operation() const;
    /// Accuracy of the operation as PROJ states it; empty where unknown.
    [[nodiscard]] std::optional<core::Metres> accuracy() const;

 private:
    struct Handles;
    std::unique_ptr<Handles> handles_;
    bool rounds_ = false;
};

/// The place of a point in degrees, as a Transform to WGS 84 gives it.
[[nodiscard]] inline core::GeographicPoint on_globe(core::PlanePoint degrees) {
    return {core::Degrees(degrees.easting), core::Degrees(degrees.northing)};
}

/// How a plane lies on the ground at a place.
struct PlaneFacts {
    core::Degrees meridian_convergence;  ///< true bearing = grid bearing + convergence
    double scale = 1.0;                  ///< metres in the plane per metre on the ground
};

/// By the geodesics that follow grid north 100 m to either side. `to_globe` leads from the plane to WGS 84.
/// Not-a-number where it cannot transform the place.
[[nodiscard]] PlaneFacts plane_facts(const Transform& to_globe, core::PlanePoint at);

/// Shortest way over the WGS 84 ellipsoid (Karney 2013, J. Geodesy 87), to some nanometres.
[[nodiscard]] core::Metres geodesic_distance(core::GeographicPoint from, core::GeographicPoint to);
/// True bearing in which that way sets out, in [0, 360).
[[nodiscard]] core::Degrees geodesic_bearing(core::GeographicPoint from, core::GeographicPoint to);

}  // namespace roostward::geo
