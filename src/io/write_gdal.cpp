#include "write_gdal.hpp"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <utility>

#include "write_text.hpp"

namespace roostward::io {

namespace {

void CPL_STDCALL pass_on(CPLErr severity, CPLErrorNum, const char* message) {
    if (severity >= CE_Failure) static_cast<WriteWatch*>(CPLGetErrorHandlerUserData())->hear(message);
}

}  // namespace

void DatasetCloser::operator()(void* dataset) const noexcept {
    GDALClose(dataset);
}
void ReferenceCloser::operator()(void* reference) const noexcept {
    OSRRelease(reference);
}

void* gdal_driver(const char* name) {
    if (GDALGetDriverByName(name) == nullptr) GDALAllRegister();
    return GDALGetDriverByName(name);
}

SpatialReference spatial_reference(const geo::Crs& crs) {
    SpatialReference reference(OSRNewSpatialReference(nullptr));
    const std::string definition = crs == geo::wgs84() ? "EPSG:4326" : crs.definition;
    OSRSetFromUserInput(reference.get(), definition.c_str());
    OSRSetAxisMappingStrategy(reference.get(), OAMS_TRADITIONAL_GIS_ORDER);
    return reference;
}

WriteWatch::WriteWatch(std::filesystem::path file) : file_(std::move(file)) {
    CPLErrorReset();
    CPLPushErrorHandlerEx(pass_on, this);
}

WriteWatch::~WriteWatch() {
    CPLPopErrorHandler();
}

void WriteWatch::check(bool good) const {
    if (!complaint_.empty()) cannot_write(file_, complaint_);
    if (!good) cannot_write(file_, "it reads back differently");
}

void WriteWatch::hear(const char* complaint) {
    if (complaint_.empty()) complaint_ = complaint;
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
