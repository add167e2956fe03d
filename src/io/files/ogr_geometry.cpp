#include "files/ogr_geometry.hpp"

#include <ogr_api.h>

#include <memory>

namespace roostward::io {

namespace {

struct GeometryDestroyer {
    void operator()(void* geometry) const noexcept {
        OGR_G_DestroyGeometry(static_cast<OGRGeometryH>(geometry));
    }
};

geo::Line line_of(OGRGeometryH geometry) {
    const int count = OGR_G_GetPointCount(geometry);
    geo::Line line(static_cast<std::size_t>(count));
    if (count > 0) {
        constexpr int stride = sizeof(core::PlanePoint);
        OGR_G_GetPoints(geometry, &line.front().easting, stride, &line.front().northing, stride, nullptr, 0);
    }
    return line;
}

geo::Polygon polygon_of(OGRGeometryH geometry) {
    geo::Polygon polygon;
    for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i) {
        geo::Line ring = line_of(OGR_G_GetGeometryRef(geometry, i));
        if (i == 0)
            polygon.outer = std::move(ring);
        else
            polygon.holes.push_back(std::move(ring));
    }
    return polygon;
}

void add_parts(OGRGeometryH geometry, geo::Shape& shape) {
    if (OGR_G_IsEmpty(geometry)) return;
    switch (wkbFlatten(OGR_G_GetGeometryType(geometry))) {
        case wkbPoint:
            shape.points.push_back({OGR_G_GetX(geometry, 0), OGR_G_GetY(geometry, 0)});
            return;
        case wkbLineString:
            shape.lines.push_back(line_of(geometry));
            return;
        case wkbTriangle:
        case wkbPolygon:
            shape.polygons.push_back(polygon_of(geometry));
            return;
        default:
            for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i)
                add_parts(OGR_G_GetGeometryRef(geometry, i), shape);
    }
}

}  // namespace

void take_shape(void* geometry, geo::Shape& shape) {
    shape.points.clear();
    shape.lines.clear();
    shape.polygons.clear();
    const auto given = static_cast<OGRGeometryH>(geometry);
    if (given == nullptr) return;
    if (OGR_G_HasCurveGeometry(given, 1)) {
        const std::unique_ptr<void, GeometryDestroyer> straight(OGR_G_GetLinearGeometry(given, 0.0, nullptr));
        add_parts(static_cast<OGRGeometryH>(straight.get()), shape);
    } else {
        add_parts(given, shape);
    }
}

}  // namespace roostward::io
