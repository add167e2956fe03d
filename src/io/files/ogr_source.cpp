#include <cpl_string.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <cstdlib>
#include <optional>

#include <fmt/format.h>

#include "files/gdal_reading.hpp"
#include "files/ogr_geometry.hpp"
#include "files/row_sources.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

std::string layer_names(GDALDatasetH dataset) {
    std::string names;
    for (int i = 0; i < GDALDatasetGetLayerCount(dataset); ++i) {
        names += names.empty() ? "" : ", ";
        names += OGR_L_GetName(GDALDatasetGetLayer(dataset, i));
    }
    return names;
}

/// The layer that the site file names, else the only one; of a GPX file the waypoints.
OGRLayerH layer_in(GDALDatasetH dataset, const InputSource& source) {
    const bool gpx = std::string_view(GDALGetDriverShortName(GDALGetDatasetDriver(dataset))) == "GPX";
    const std::string wanted = source.layer.empty() && gpx ? "waypoints" : source.layer;
    if (!wanted.empty()) {
        if (OGRLayerH layer = GDALDatasetGetLayerByName(dataset, wanted.c_str())) return layer;
        cannot_use(source,
                   core::said("error.no_such_layer", {{"layer", wanted}, {"layers", layer_names(dataset)}}));
    }
    if (GDALDatasetGetLayerCount(dataset) == 1) return GDALDatasetGetLayer(dataset, 0);
    if (GDALDatasetGetLayerCount(dataset) == 0) cannot_use(source, core::said("error.no_layer"));
    cannot_use(source, core::said("error.several_layers", {{"layers", layer_names(dataset)}}));
}

enum class FieldKind { number, text, moment };

FieldKind kind_of(OGRFieldType type) {
    switch (type) {
        case OFTInteger:
        case OFTInteger64:
        case OFTReal:
            return FieldKind::number;
        case OFTDate:
        case OFTTime:
        case OFTDateTime:
            return FieldKind::moment;
        default:
            return FieldKind::text;
    }
}

/// A date, time or both of a feature as ISO 8601, so that all times are read by the same rules.
std::string iso_text(OGRFeatureH feature, int field, OGRFieldType type) {
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
    float second = 0.0F;
    OGR_F_GetFieldAsDateTimeEx(feature, field, &year, &month, &day, &hour, &minute, &second, &zone);
    std::string date = fmt::format("{:04}-{:02}-{:02}", year, month, day);
    if (type == OFTDate) return date;
    std::string time = fmt::format("{:02}:{:02}:{:06.3f}", hour, minute, static_cast<double>(second));
    // OGR: 0 unknown, 1 local, 100 UTC, else quarters of an hour from 100.
    if (zone > 1) {
        const int minutes = (zone - 100) * 15;
        time += fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                            std::abs(minutes) % 60);
    }
    return type == OFTTime ? time : date + "T" + time;
}

class OgrSource : public RowSource {
 public:
    explicit OgrSource(const InputSource& source)
        : dataset_(open_dataset(source, DatasetKind::vector)),
          layer_(layer_in(dataset_.get(), source)),
          source_(source) {
        OGRFeatureDefnH definition = OGR_L_GetLayerDefn(layer_);
        for (int i = 0; i < OGR_FD_GetFieldCount(definition); ++i) {
            OGRFieldDefnH field = OGR_FD_GetFieldDefn(definition, i);
            columns_.emplace_back(OGR_Fld_GetNameRef(field));
            types_.push_back(OGR_Fld_GetType(field));
        }
        has_geometry_ = OGR_FD_GetGeomFieldCount(definition) > 0;
        crs_ = crs_from(OGR_L_GetSpatialRef(layer_));
        if (!source.only.empty()) filter_.emplace(definition, source);
    }

    [[nodiscard]] const std::vector<std::string>& columns() const override { return columns_; }
    [[nodiscard]] bool has_geometry() const override { return has_geometry_; }
    [[nodiscard]] const std::optional<geo::Crs>& crs() const override { return crs_; }

    [[nodiscard]] std::size_t expected_rows() const override {
        return static_cast<std::size_t>(std::max<GIntBig>(0, OGR_L_GetFeatureCount(layer_, 0)));
    }

    void for_each(const std::vector<bool>& wanted, const Visitor& visit) override {
        const Complaints complaints;
        std::vector<Value> values(columns_.size());
        std::vector<std::string> moments(columns_.size());
        geo::Shape shape;
        OGR_L_ResetReading(layer_);
        std::size_t number = 0;
        while (const OwnedFeature feature{OGR_L_GetNextFeature(layer_)}) {
            ++number;
            if (filter_ && !filter_->accepts(feature.get())) continue;
            for (std::size_t i = 0; i < values.size(); ++i) {
                if (wanted[i]) values[i] = value_of(static_cast<OGRFeatureH>(feature.get()), i, moments[i]);
            }
            if (has_geometry_)
                take_shape(OGR_F_GetGeometryRef(static_cast<OGRFeatureH>(feature.get())), shape);
            if (!visit({number, values, has_geometry_ ? &shape : nullptr, nullptr})) return;
        }
        if (!complaints.first().empty()) {
            cannot_use(source_,
                       core::said("error.reading_stopped", {{"rows", number}, {"why", complaints.first()}}));
        }
    }

 private:
    [[nodiscard]] Value value_of(OGRFeatureH feature, std::size_t column, std::string& moment) const {
        const int field = static_cast<int>(column);
        if (!OGR_F_IsFieldSetAndNotNull(feature, field)) return std::monostate();
        switch (kind_of(types_[column])) {
            case FieldKind::number:
                return OGR_F_GetFieldAsDouble(feature, field);
            case FieldKind::moment:
                moment = iso_text(feature, field, types_[column]);
                return std::string_view(moment);
            case FieldKind::text:
                break;
        }
        const std::string_view text = OGR_F_GetFieldAsString(feature, field);
        const std::size_t first = text.find_first_not_of(" \t\r\n");
        if (first == std::string_view::npos) return std::monostate();
        return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
    }

    OpenDataset dataset_;
    OGRLayerH layer_;
    InputSource source_;
    std::vector<std::string> columns_;
    std::vector<OGRFieldType> types_;
    bool has_geometry_ = false;
    std::optional<geo::Crs> crs_;
    std::optional<RowFilter> filter_;
};

}  // namespace

std::unique_ptr<RowSource> open_ogr_rows(const InputSource& source) {
    return std::make_unique<OgrSource>(source);
}

}  // namespace roostward::io
