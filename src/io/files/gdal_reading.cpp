#include "files/gdal_reading.hpp"

#include <cpl_error.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_feature.h>
#include <ogr_srs_api.h>

#include <array>
#include <string_view>

#include <fmt/format.h>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

std::string column_names(OGRFeatureDefnH definition) {
    std::string names;
    for (int i = 0; i < OGR_FD_GetFieldCount(definition); ++i) {
        names += names.empty() ? "" : ", ";
        names += OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(definition, i));
    }
    return names;
}

}  // namespace

OpenDataset open_dataset(const InputSource& source, DatasetKind kind) {
    require_file(source);
    register_gdal_drivers();
    const unsigned what = kind == DatasetKind::vector ? GDAL_OF_VECTOR : GDAL_OF_RASTER;
    // Dates stay text, so that every format's times are read by the same rules.
    const std::array<const char*, 2> options = {"DATE_AS_STRING=YES", nullptr};
    const Complaints complaints;
    const std::string extension = extension_of(source);
    const bool geojson = extension == "geojson" || extension == "json";
    // Else each of GDAL's hundred drivers looks at the file, and some would open what only claims to be GPX.
    const std::array<const char*, 2> only_gpx = {"GPX", nullptr};
    OpenDataset dataset(GDALOpenEx(source.path.c_str(), what | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR,
                                   extension == "gpx" ? only_gpx.data() : nullptr,
                                   geojson ? options.data() : nullptr, nullptr));
    if (!dataset) {
        const std::string& why = complaints.first();
        const bool vector = kind == DatasetKind::vector;
        cannot_use(source, why.empty()
                               ? core::said(vector ? "error.unread_vector" : "error.unread_raster")
                               : core::said(vector ? "error.unread_vector_why" : "error.unread_raster_why",
                                            {{"why", why}}));
    }
    return dataset;
}

std::optional<geo::Crs> crs_from(void* reference) {
    if (reference == nullptr) return std::nullopt;
    const std::unique_ptr<void, ReferenceCloser> flat(OSRClone(reference));
    OSRDemoteTo2D(flat.get(), nullptr);
    const char* name = OSRGetName(flat.get());
    const std::string_view title = name == nullptr ? "" : name;
    if (OSRIsLocal(flat.get()) || title.find("ndefined") != std::string_view::npos ||
        title.find("nknown") != std::string_view::npos) {
        return std::nullopt;
    }
    const char* authority = OSRGetAuthorityName(flat.get(), nullptr);
    const char* code = OSRGetAuthorityCode(flat.get(), nullptr);
    if (code != nullptr && std::string_view(code) == "4326") return geo::wgs84();
    if (authority != nullptr && code != nullptr) return geo::Crs{fmt::format("{}:{}", authority, code)};
    char* wkt = nullptr;
    const std::array<const char*, 2> options = {"FORMAT=WKT2_2019", nullptr};
    OSRExportToWktEx(flat.get(), &wkt, options.data());
    geo::Crs crs{wkt == nullptr ? "" : wkt};
    CPLFree(wkt);
    return crs.definition.empty() ? std::nullopt : std::optional(crs);
}

struct RowFilter::Query {
    OGRFeatureQuery compiled;
};

RowFilter::RowFilter(void* definition, const InputSource& source) : query_(std::make_unique<Query>()) {
    const Complaints complaints;
    auto* fields = OGRFeatureDefn::FromHandle(static_cast<OGRFeatureDefnH>(definition));
    if (query_->compiled.Compile(fields, source.only.c_str()) != OGRERR_NONE) {
        cannot_use(source, core::said("error.filter",
                                      {{"filter", source.only},
                                       {"why", complaints.first()},
                                       {"columns", column_names(static_cast<OGRFeatureDefnH>(definition))}}));
    }
}

RowFilter::~RowFilter() = default;
RowFilter::RowFilter(RowFilter&&) noexcept = default;
RowFilter& RowFilter::operator=(RowFilter&&) noexcept = default;

bool RowFilter::accepts(void* feature) const {
    return query_->compiled.Evaluate(OGRFeature::FromHandle(static_cast<OGRFeatureH>(feature))) != 0;
}

}  // namespace roostward::io
