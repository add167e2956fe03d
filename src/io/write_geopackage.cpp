#include <gdal.h>
#include <ogr_api.h>

#include <cmath>
#include <utility>

#include "roostward/io/writers.hpp"
#include "write_geopackage_index.hpp"
#include "write_number.hpp"
#include "write_text.hpp"
#include "write_watch.hpp"

namespace roostward::io {

namespace {

OGRwkbGeometryType type_of(geo::GeometryKind kind) {
    switch (kind) {
        case geo::GeometryKind::point:
            return wkbPoint;
        case geo::GeometryKind::line:
            return wkbLineString;
        case geo::GeometryKind::polygons:
            return wkbMultiPolygon;
    }
    return wkbUnknown;
}

OGRFieldType type_of(geo::ColumnKind kind) {
    switch (kind) {
        case geo::ColumnKind::truth:
            return OFTInteger;
        case geo::ColumnKind::whole:
            return OFTInteger64;
        case geo::ColumnKind::number:
            return OFTReal;
        case geo::ColumnKind::text:
        case geo::ColumnKind::nested:
            return OFTString;
    }
    return OFTString;
}

/// Metres to 0.1 mm, degrees to seven decimals.
struct GeometryMaker {
    double steps;

    OGRGeometryH operator()(core::PlanePoint p) const {
        if (!std::isfinite(p.easting) || !std::isfinite(p.northing)) return nullptr;
        OGRGeometryH out = OGR_G_CreateGeometry(wkbPoint);
        OGR_G_SetPoint_2D(out, 0, rounded_to_steps(p.easting, steps), rounded_to_steps(p.northing, steps));
        return out;
    }
    OGRGeometryH operator()(const geo::Line& line) const {
        return line.size() < 2 ? nullptr : line_string(line, wkbLineString);
    }
    OGRGeometryH operator()(const std::vector<geo::Polygon>& polygons) const {
        if (polygons.empty()) return nullptr;
        OGRGeometryH out = OGR_G_CreateGeometry(wkbMultiPolygon);
        for (const geo::Polygon& polygon : polygons) {
            OGRGeometryH part = OGR_G_CreateGeometry(wkbPolygon);
            OGR_G_AddGeometryDirectly(part, line_string(polygon.outer, wkbLinearRing));
            for (const geo::Line& hole : polygon.holes)
                OGR_G_AddGeometryDirectly(part, line_string(hole, wkbLinearRing));
            OGR_G_AddGeometryDirectly(out, part);
        }
        return out;
    }

 private:
    [[nodiscard]] OGRGeometryH line_string(const geo::Line& line, OGRwkbGeometryType type) const {
        OGRGeometryH out = OGR_G_CreateGeometry(type);
        OGR_G_SetPointCount(out, static_cast<int>(line.size()));
        for (std::size_t i = 0; i < line.size(); ++i)
            OGR_G_SetPoint_2D(out, static_cast<int>(i), rounded_to_steps(line[i].easting, steps),
                              rounded_to_steps(line[i].northing, steps));
        return out;
    }
};

/// One value into one field.
struct FieldSetter {
    OGRFeatureH feature;
    int field;

    void operator()(std::monostate) const { OGR_F_SetFieldNull(feature, field); }
    void operator()(bool value) const { OGR_F_SetFieldInteger(feature, field, value ? 1 : 0); }
    void operator()(std::int64_t value) const { OGR_F_SetFieldInteger64(feature, field, value); }
    void operator()(double value) const {
        if (std::isfinite(value)) {
            OGR_F_SetFieldDouble(feature, field, rounded_to_nine_digits(value));
        } else {
            OGR_F_SetFieldNull(feature, field);
        }
    }
    void operator()(const std::string& value) const {
        OGR_F_SetFieldString(feature, field, valid_utf8(value).c_str());
    }
    template <class Nested>
    void operator()(const Nested& value) const {
        OGR_F_SetFieldString(feature, field, core::to_json(value).c_str());
    }
};

/// Composes the layer's features one after the other in one GDAL feature.
class FeatureComposer {
 public:
    FeatureComposer(const geo::Layer& layer, OGRLayerH written)
        : layer_(layer),
          feature_(OGR_F_Create(OGR_L_GetLayerDefn(written))),
          make_{geo::facts_of(layer.crs).geographic ? 1e7 : 1e4} {}

    OGRFeatureH compose(std::size_t index) {
        const geo::Feature from = layer_.feature(index);
        OGR_F_SetFID(feature_.get(), static_cast<GIntBig>(index) + 1);
        for (std::size_t i = 0; i < layer_.columns.size(); ++i)
            std::visit(FieldSetter{feature_.get(), static_cast<int>(i)}, from.values.at(i).value());
        OGR_F_SetGeometryDirectly(feature_.get(), std::visit(make_, from.geometry));
        return feature_.get();
    }

 private:
    const geo::Layer& layer_;
    OwnedFeature feature_;
    GeometryMaker make_;
};

OGRLayerH create_layer(GDALDatasetH dataset, const geo::Layer& layer) {
    const char* const options[] = {"SPATIAL_INDEX=NO", "GEOMETRY_NAME=geom", nullptr};
    OGRLayerH written =
        GDALDatasetCreateLayer(dataset, layer.name.c_str(), spatial_reference(layer.crs).get(),
                               type_of(layer.geometry), const_cast<char**>(options));
    if (written == nullptr) return nullptr;
    for (const geo::Column& column : layer.columns) {
        OGRFieldDefnH field = OGR_Fld_Create(column.name.c_str(), type_of(column.kind));
        if (column.kind == geo::ColumnKind::truth) OGR_Fld_SetSubType(field, OFSTBoolean);
        OGR_L_CreateField(written, field, TRUE);
        OGR_Fld_Destroy(field);
    }
    return written;
}

bool write_layer(GDALDatasetH dataset, const geo::Layer& layer) {
    OGRLayerH written = create_layer(dataset, layer);
    if (written == nullptr) return false;
    SpatialIndex index(dataset, layer.name);
    std::vector<IndexedBox> boxes;
    boxes.reserve(layer.size);
    FeatureComposer composer(layer, written);
    for (std::size_t i = 0; i < layer.size; ++i) {
        OGRFeatureH feature = composer.compose(i);
        if (OGR_L_CreateFeature(written, feature) != OGRERR_NONE) return false;
        if (OGRGeometryH geometry = OGR_F_GetGeometryRef(feature)) {
            OGREnvelope box;
            OGR_G_GetEnvelope(geometry, &box);
            boxes.push_back({OGR_F_GetFID(feature), box.MinX, box.MaxX, box.MinY, box.MaxY});
        }
    }
    index.fill(std::move(boxes));
    return true;
}

bool same_feature(OGRLayerH read, FeatureComposer& composer, std::size_t index) {
    const OwnedFeature feature(OGR_L_GetFeature(read, static_cast<GIntBig>(index) + 1));
    return feature && OGR_F_Equal(feature.get(), composer.compose(index)) != 0;
}

bool same_layer(GDALDatasetH dataset, const geo::Layer& layer) {
    OGRLayerH read = GDALDatasetGetLayerByName(dataset, layer.name.c_str());
    if (read == nullptr || OGR_L_GetFeatureCount(read, TRUE) != static_cast<GIntBig>(layer.size))
        return false;
    FeatureComposer composer(layer, read);
    return layer.size == 0 ||
           (same_feature(read, composer, 0) && same_feature(read, composer, layer.size - 1));
}

/// SQLite's own look at every page.
bool is_sound(GDALDatasetH dataset) {
    OGRLayerH answer = GDALDatasetExecuteSQL(dataset, "PRAGMA quick_check", nullptr, nullptr);
    if (answer == nullptr) return false;
    const OwnedFeature row(OGR_L_GetNextFeature(answer));
    const bool sound = row && std::string(OGR_F_GetFieldAsString(row.get(), 0)) == "ok";
    GDALDatasetReleaseResultSet(dataset, answer);
    return sound;
}

bool reads_back(const std::filesystem::path& file, std::span<const geo::Layer> layers) {
    const OpenDataset dataset(
        GDALOpenEx(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, nullptr, nullptr, nullptr));
    if (!dataset || GDALDatasetGetLayerCount(dataset.get()) != static_cast<int>(layers.size())) return false;
    for (const geo::Layer& layer : layers)
        if (!same_layer(dataset.get(), layer)) return false;
    return is_sound(dataset.get());
}

/// As GeoPackage 1.3, requirement 15, wants it: always with milliseconds.
std::string time_stamp(core::Instant stamp) {
    std::string text = core::to_text(stamp);
    if (text.find('.') == std::string::npos) text.insert(text.size() - 1, ".000");
    return text;
}

}  // namespace

void write_geopackage(const std::filesystem::path& file, std::span<const geo::Layer> layers,
                      core::Instant stamp) {
    const WriteWatch watch(file);
    const ThreadOption date("OGR_CURRENT_DATE", time_stamp(stamp));
    const ThreadOption flush_later("OGR_SQLITE_SYNCHRONOUS", "OFF");
    OpenDataset dataset(GDALCreate(gdal_driver("GPKG"), file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    watch.check(dataset != nullptr);
    GDALDatasetStartTransaction(dataset.get(), FALSE);
    for (const geo::Layer& layer : layers) {
        const bool good = write_layer(dataset.get(), layer);
        watch.check(good);
    }
    const bool good = GDALDatasetCommitTransaction(dataset.get()) == OGRERR_NONE;
    dataset.reset();
    watch.check(good);
    watch.check(reads_back(file, layers));
}

}  // namespace roostward::io
