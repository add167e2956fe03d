#include "roostward/geo/shape.hpp"

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

#define GEOS_USE_ONLY_R_API
#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace roostward::geo {

namespace {

static_assert(sizeof(core::PlanePoint) == 2 * sizeof(double), "GEOS reads lines as pairs of numbers");

struct GeometryCloser {
    GEOSContextHandle_t context;
    void operator()(GEOSGeometry* geometry) const noexcept { GEOSGeom_destroy_r(context, geometry); }
};
using GeometryHandle = std::unique_ptr<GEOSGeometry, GeometryCloser>;

bool is_finite(core::PlanePoint point) {
    return std::isfinite(point.easting) && std::isfinite(point.northing);
}

/// Closed, finite, and with room inside; GEOS refuses anything else.
bool is_ring(const Line& line) {
    return line.size() >= 4 && line.front() == line.back() &&
           std::all_of(line.begin(), line.end(), is_finite);
}

/// One context a call, with geometries that own themselves.
class Geos {
 public:
    Geos() : context_(GEOS_init_r()) {
        GEOSContext_setErrorMessageHandler_r(
            context_, [](const char* text, void* message) { *static_cast<std::string*>(message) = text; },
            &message_);
    }
    ~Geos() { GEOS_finish_r(context_); }
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;

    [[nodiscard]] GEOSContextHandle_t context() const { return context_; }

    /// Takes what a GEOS function returned; none means that it failed.
    [[nodiscard]] GeometryHandle own(GEOSGeometry* geometry) const {
        if (geometry == nullptr)
            throw core::Error(core::Fault::inputs, {}, core::said("error.polygon", {{"why", message_}}));
        return {geometry, GeometryCloser{context_}};
    }

    /// The polygon must have a ring for its outer edge; holes that are no rings are left out.
    [[nodiscard]] GeometryHandle polygon(const Polygon& polygon) const {
        std::vector<GEOSGeometry*> holes;
        for (const Line& hole : polygon.holes)
            if (is_ring(hole)) holes.push_back(GEOSGeom_createLinearRing_r(context_, sequence(hole)));
        GEOSGeometry* outer = GEOSGeom_createLinearRing_r(context_, sequence(polygon.outer));
        return own(
            GEOSGeom_createPolygon_r(context_, outer, holes.data(), static_cast<unsigned>(holes.size())));
    }

    [[nodiscard]] GeometryHandle points(std::span<const core::PlanePoint> points) const {
        std::vector<GEOSGeometry*> parts;
        parts.reserve(points.size());
        for (const core::PlanePoint& point : points)
            parts.push_back(GEOSGeom_createPointFromXY_r(context_, point.easting, point.northing));
        return collection(GEOS_MULTIPOINT, parts);
    }

    [[nodiscard]] GeometryHandle polygons(const std::vector<Polygon>& polygons) const {
        std::vector<GEOSGeometry*> parts;
        parts.reserve(polygons.size());
        for (const Polygon& part : polygons)
            parts.push_back(polygon(part).release());
        return collection(GEOS_MULTIPOLYGON, parts);
    }

    /// Every polygon in the geometry, in GEOS's normal order; points and lines are left out.
    [[nodiscard]] std::vector<Polygon> read(GeometryHandle geometry) const {
        GEOSNormalize_r(context_, geometry.get());
        std::vector<Polygon> polygons;
        collect(geometry.get(), polygons);
        return polygons;
    }

 private:
    [[nodiscard]] GEOSCoordSequence* sequence(const Line& line) const {
        return GEOSCoordSeq_copyFromBuffer_r(context_, &line.front().easting,
                                             static_cast<unsigned>(line.size()), 0, 0);
    }

    [[nodiscard]] GeometryHandle collection(int type, std::vector<GEOSGeometry*>& parts) const {
        return own(
            GEOSGeom_createCollection_r(context_, type, parts.data(), static_cast<unsigned>(parts.size())));
    }

    [[nodiscard]] Line line(const GEOSGeometry* ring) const {
        Line points(static_cast<std::size_t>(GEOSGetNumCoordinates_r(context_, ring)));
        if (!points.empty())
            GEOSCoordSeq_copyToBuffer_r(context_, GEOSGeom_getCoordSeq_r(context_, ring),
                                        &points.front().easting, 0, 0);
        return points;
    }

    void collect(const GEOSGeometry* geometry, std::vector<Polygon>& polygons) const {
        if (GEOSisEmpty_r(context_, geometry) != 0) return;
        const int type = GEOSGeomTypeId_r(context_, geometry);
        if (type == GEOS_POLYGON) {
            Polygon polygon{line(GEOSGetExteriorRing_r(context_, geometry)), {}};
            for (int i = 0; i < GEOSGetNumInteriorRings_r(context_, geometry); ++i)
                polygon.holes.push_back(line(GEOSGetInteriorRingN_r(context_, geometry, i)));
            polygons.push_back(std::move(polygon));
        } else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
            for (int i = 0; i < GEOSGetNumGeometries_r(context_, geometry); ++i)
                collect(GEOSGetGeometryN_r(context_, geometry, i), polygons);
        }
    }

    GEOSContextHandle_t context_;
    std::string message_;
};

/// Shells that cross themselves are split at the crossings; holes are taken away afterwards.
GeometryHandle made_valid(const Geos& geos, const GeometryHandle& polygon) {
    GEOSMakeValidParams* params = GEOSMakeValidParams_create_r(geos.context());
    GEOSMakeValidParams_setMethod_r(geos.context(), params, GEOS_MAKE_VALID_STRUCTURE);
    GEOSGeometry* valid = GEOSMakeValidWithParams_r(geos.context(), polygon.get(), params);
    GEOSMakeValidParams_destroy_r(geos.context(), params);
    return geos.own(valid);
}

}  // namespace

Repair repaired(const std::vector<Polygon>& polygons) {
    const Geos geos;
    Repair repair;
    for (const Polygon& polygon : polygons) {
        if (!is_ring(polygon.outer)) {
            repair.changed = true;
            continue;
        }
        const GeometryHandle built = geos.polygon(polygon);
        const bool whole = std::all_of(polygon.holes.begin(), polygon.holes.end(), is_ring);
        if (whole && GEOSisValid_r(geos.context(), built.get()) == 1) {
            repair.polygons.push_back(polygon);
            continue;
        }
        repair.changed = true;
        for (Polygon& part : geos.read(made_valid(geos, built)))
            repair.polygons.push_back(std::move(part));
    }
    return repair;
}

std::vector<Polygon> merged(const std::vector<Polygon>& polygons) {
    const Repair valid = repaired(polygons);
    if (valid.polygons.empty()) return {};
    const Geos geos;
    const GeometryHandle all = geos.polygons(valid.polygons);
    return geos.read(geos.own(GEOSUnaryUnion_r(geos.context(), all.get())));
}

std::vector<Polygon> widened_hull(std::span<const core::PlanePoint> points, core::Metres by) {
    if (points.empty()) return {};
    constexpr int chords_a_quarter = 32;
    const Geos geos;
    const GeometryHandle all = geos.points(points);
    const GeometryHandle hull = geos.own(GEOSConvexHull_r(geos.context(), all.get()));
    return geos.read(geos.own(GEOSBuffer_r(geos.context(), hull.get(), by.value(), chords_a_quarter)));
}

}  // namespace roostward::geo
