#include "files/gdal_handles.hpp"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <mutex>
#include <utility>

namespace roostward::io {

namespace {

void CPL_STDCALL collect(CPLErr severity, CPLErrorNum, const char* message) {
    if (severity >= CE_Failure) static_cast<Complaints*>(CPLGetErrorHandlerUserData())->hear(message);
}

}  // namespace

void DatasetCloser::operator()(void* dataset) const noexcept {
    GDALClose(dataset);
}
void FeatureDestroyer::operator()(void* feature) const noexcept {
    OGR_F_Destroy(feature);
}
void ReferenceCloser::operator()(void* reference) const noexcept {
    OSRRelease(reference);
}

SpatialReference spatial_reference(const geo::Crs& crs) {
    SpatialReference reference(OSRNewSpatialReference(nullptr));
    const std::string definition = crs == geo::wgs84() ? "EPSG:4326" : crs.definition;
    OSRSetFromUserInput(reference.get(), definition.c_str());
    OSRSetAxisMappingStrategy(reference.get(), OAMS_TRADITIONAL_GIS_ORDER);
    return reference;
}

void register_gdal_drivers() {
    static std::once_flag once;
    std::call_once(once, GDALAllRegister);
}

void* gdal_driver(const char* name) {
    register_gdal_drivers();
    return GDALGetDriverByName(name);
}

Complaints::Complaints() {
    CPLErrorReset();
    CPLPushErrorHandlerEx(collect, this);
}

Complaints::~Complaints() {
    CPLPopErrorHandler();
}

void Complaints::hear(const char* complaint) {
    if (first_.empty()) first_ = complaint;
}

ThreadOption::ThreadOption(std::string key, const std::string& value) : key_(std::move(key)) {
    if (const char* earlier = CPLGetThreadLocalConfigOption(key_.c_str(), nullptr)) {
        had_earlier_ = true;
        earlier_ = earlier;
    }
    CPLSetThreadLocalConfigOption(key_.c_str(), value.c_str());
}

ThreadOption::~ThreadOption() {
    CPLSetThreadLocalConfigOption(key_.c_str(), had_earlier_ ? earlier_.c_str() : nullptr);
}

}  // namespace roostward::io
