#include <gdal.h>
#include <ogr_api.h>

#include "roostward/io/writers.hpp"
#include "writing/sqlite.hpp"
#include "writing/write_geopackage_rows.hpp"
#include "writing/write_watch.hpp"

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

bool create_layer(GDALDatasetH dataset, const geo::Layer& layer) {
    const char* const options[] = {"GEOMETRY_NAME=geom", nullptr};
    OGRLayerH written =
        GDALDatasetCreateLayer(dataset, layer.name.c_str(), spatial_reference(layer.crs).get(),
                               type_of(layer.geometry), const_cast<char**>(options));
    if (written == nullptr) return false;
    for (const geo::Column& column : layer.columns) {
        OGRFieldDefnH field = OGR_Fld_Create(column.name.c_str(), type_of(column.kind));
        if (column.kind == geo::ColumnKind::truth) OGR_Fld_SetSubType(field, OFSTBoolean);
        OGR_L_CreateField(written, field, TRUE);
        OGR_Fld_Destroy(field);
    }
    return true;
}

/// As GeoPackage 1.3, requirement 15, wants it: always with milliseconds.
std::string time_stamp(core::Instant stamp) {
    std::string text = core::to_text(stamp);
    if (text.find('.') == std::string::npos) text.insert(text.size() - 1, ".000");
    return text;
}

/// The file with every table and no feature.
void create_tables(const std::filesystem::path& file, std::span<const geo::Layer> layers,
                   core::Instant stamp) {
    const WriteWatch watch(file);
    const ThreadOption date("OGR_CURRENT_DATE", time_stamp(stamp));
    const ThreadOption flush_later("OGR_SQLITE_SYNCHRONOUS", "OFF");
    OpenDataset dataset(GDALCreate(gdal_driver("GPKG"), file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    watch.check(dataset != nullptr);
    for (const geo::Layer& layer : layers)
        watch.check(create_layer(dataset.get(), layer));
    dataset.reset();
    watch.check();
}

}  // namespace

// GDAL makes the tables, so that they are as every GIS knows them. The rows go straight to SQLite, in a third
// of the time. Nothing is read back: unlike GDAL, SQLite looks at the outcome of every write and tells.
void write_geopackage(const std::filesystem::path& file, std::span<const geo::Layer> layers,
                      core::Instant stamp) {
    create_tables(file, layers, stamp);
    Database database(file);
    // No journal and no flush: the output folder is flushed as a whole, and thrown away where a write fails.
    database.run(
        "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA locking_mode = EXCLUSIVE; BEGIN");
    for (const geo::Layer& layer : layers)
        write_rows(database, layer);
    database.run("COMMIT");
}

}  // namespace roostward::io
