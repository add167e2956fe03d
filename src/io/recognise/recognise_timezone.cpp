#include <cstdlib>
#include <fstream>
#include <sstream>

#include "recognise/recognise_places.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

/// "+513030" and "-0000731" as degrees (ISO 6709: degrees of two or three digits, minutes, at times seconds).
double degrees_of(const std::string& text, std::size_t degree_digits) {
    const double sign = text.front() == '-' ? -1.0 : 1.0;
    const std::string digits = text.substr(1);
    const auto part = [&](std::size_t at, std::size_t count) {
        return at < digits.size() ? std::atof(digits.substr(at, count).c_str()) : 0.0;
    };
    return sign *
           (part(0, degree_digits) + part(degree_digits, 2) / 60.0 + part(degree_digits + 2, 2) / 3600.0);
}

std::optional<core::GeographicPoint> point_of(const std::string& coordinates) {
    const std::size_t second = coordinates.find_first_of("+-", 1);
    if (coordinates.empty() || second == std::string::npos) return std::nullopt;
    return core::GeographicPoint{core::Degrees(degrees_of(coordinates.substr(second), 3)),
                                 core::Degrees(degrees_of(coordinates.substr(0, second), 2))};
}

}  // namespace

ZoneGuess zone_guess(const std::optional<core::GeographicPoint>& place) {
    if (!place) return {};
    // The time zone database's own table: a place for every zone that differed since 1970.
    std::ifstream table("/usr/share/zoneinfo/zone1970.tab");
    ZoneGuess nearest;
    double least = 0.0;
    for (std::string line; std::getline(table, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream cells(line);
        std::string countries, coordinates, zone;
        cells >> countries >> coordinates >> zone;
        const auto point = point_of(coordinates);
        if (!point || zone.empty()) continue;
        const double distance = geo::geodesic_distance(*place, *point).value();
        if (!nearest.zone.empty() && distance >= least) continue;
        least = distance;
        nearest = {zone, core::said("zone.nearest", {{"lon", place->longitude.value()},
                                                     {"lat", place->latitude.value()},
                                                     {"km", distance / 1000.0}})};
    }
    return nearest;
}

}  // namespace roostward::io
