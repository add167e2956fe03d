#include "writing/write_geojson_cut.hpp"

#include <ogr_api.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace roostward::io {

namespace {

struct GeometryCloser {
    void operator()(void* geometry) const noexcept { OGR_G_DestroyGeometry(geometry); }
};
using GeometryHandle = std::unique_ptr<void, GeometryCloser>;

struct CutterCloser {
    void operator()(OGRGeomTransformer* cutter) const noexcept { OGR_GeomTransformer_Destroy(cutter); }
};

bool crosses(const geo::Line& line) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (std::abs(line[i].easting) > 180.0) return true;
        if (i > 0 && std::abs(line[i].easting - line[i - 1].easting) > 180.0) return true;
    }
    return false;
}

bool crosses(const geo::Polygon& polygon) {
    return crosses(polygon.outer) ||
           std::ranges::any_of(polygon.holes, [](const geo::Line& hole) { return crosses(hole); });
}

/// Leaps of more than 180° of longitude are taken as crossings.
GeometryHandle cut(OGRGeometryH whole) {
    const char* const options[] = {"WRAPDATELINE=YES", "DATELINEOFFSET=180", nullptr};
    const std::unique_ptr<OGRGeomTransformer, CutterCloser> cutter(
        OGR_GeomTransformer_Create(nullptr, const_cast<char**>(options)));
    return GeometryHandle(OGR_GeomTransformer_Transform(cutter.get(), whole));
}

OGRGeometryH to_ogr(const geo::Line& line, OGRwkbGeometryType type) {
    OGRGeometryH out = OGR_G_CreateGeometry(type);
    OGR_G_SetPointCount(out, static_cast<int>(line.size()));
    for (std::size_t i = 0; i < line.size(); ++i)
        OGR_G_SetPoint_2D(out, static_cast<int>(i), line[i].easting, line[i].northing);
    return out;
}

geo::Line line_of(OGRGeometryH line) {
    geo::Line out(static_cast<std::size_t>(OGR_G_GetPointCount(line)));
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = {OGR_G_GetX(line, static_cast<int>(i)), OGR_G_GetY(line, static_cast<int>(i))};
    return out;
}

geo::Polygon polygon_of(OGRGeometryH polygon) {
    geo::Polygon out;
    for (int i = 0; i < OGR_G_GetGeometryCount(polygon); ++i) {
        geo::Line ring = line_of(OGR_G_GetGeometryRef(polygon, i));
        (i == 0 ? out.outer : out.holes.emplace_back()) = std::move(ring);
    }
    return out;
}

/// Calls `use` with every part that is of this type, in order.
template <class Use>
void for_each_part(OGRGeometryH geometry, OGRwkbGeometryType type, const Use& use) {
    if (wkbFlatten(OGR_G_GetGeometryType(geometry)) == type) {
        use(geometry);
        return;
    }
    for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i)
        for_each_part(OGR_G_GetGeometryRef(geometry, i), type, use);
}

/// Twice the signed area, positive where the ring runs counter-clockwise; taken from its first point for
/// accuracy.
double winding(const geo::Line& ring) {
    double sum = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        sum += (ring[i].easting - ring[0].easting) * (ring[i + 1].northing - ring[0].northing) -
               (ring[i + 1].easting - ring[0].easting) * (ring[i].northing - ring[0].northing);
    }
    return sum;
}

void wind(geo::Line& ring, bool counter_clockwise) {
    if (ring.empty()) return;
    if (!(ring.front() == ring.back())) ring.push_back(ring.front());
    if ((winding(ring) > 0.0) != counter_clockwise) std::ranges::reverse(ring);
}

}  // namespace

std::vector<geo::Line> cut_at_antimeridian(const geo::Line& line) {
    if (!crosses(line)) return {line};
    const GeometryHandle whole(to_ogr(line, wkbLineString));
    const GeometryHandle parts = cut(whole.get());
    std::vector<geo::Line> out;
    for_each_part(parts.get(), wkbLineString, [&](OGRGeometryH part) { out.push_back(line_of(part)); });
    return out;
}

std::vector<geo::Polygon> cut_at_antimeridian(const std::vector<geo::Polygon>& polygons) {
    std::vector<geo::Polygon> out;
    for (const geo::Polygon& polygon : polygons) {
        if (!crosses(polygon)) {
            out.push_back(polygon);
            continue;
        }
        const GeometryHandle whole(OGR_G_CreateGeometry(wkbPolygon));
        OGR_G_AddGeometryDirectly(whole.get(), to_ogr(polygon.outer, wkbLinearRing));
        for (const geo::Line& hole : polygon.holes)
            OGR_G_AddGeometryDirectly(whole.get(), to_ogr(hole, wkbLinearRing));
        const GeometryHandle parts = cut(whole.get());
        for_each_part(parts.get(), wkbPolygon, [&](OGRGeometryH part) { out.push_back(polygon_of(part)); });
    }
    return out;
}

void wind_rings(geo::Polygon& polygon) {
    wind(polygon.outer, true);
    for (geo::Line& hole : polygon.holes)
        wind(hole, false);
}

}  // namespace roostward::io
