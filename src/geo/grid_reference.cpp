#include "roostward/geo/grid_reference.hpp"

#include <cmath>
#include <string>

#include <GeographicLib/MGRS.hpp>
#include <GeographicLib/OSGB.hpp>
#include <GeographicLib/UTMUPS.hpp>

namespace roostward::geo {

namespace {

constexpr int coarsest = 1;  // digits of each coordinate: 10 km
constexpr std::size_t longest = 64;

std::string without_spaces(std::string_view text) {
    std::string out;
    for (const char c : text.substr(0, longest))
        if (c != ' ' && c != '\t') out.push_back(c);
    return out;
}

core::Metres side_of(int digits) {
    return core::Metres(std::pow(10.0, 5 - digits));
}

}  // namespace

std::optional<GridSquare> mgrs_square(std::string_view text) {
    const std::string reference = without_spaces(text);
    if (reference.empty() || reference.front() < '0' || reference.front() > '9') return std::nullopt;
    try {
        int zone = 0, digits = 0;
        bool north = true;
        double x = 0.0, y = 0.0, lat = 0.0, lon = 0.0;
        GeographicLib::MGRS::Reverse(reference, zone, north, x, y, digits);
        if (digits < coarsest) return std::nullopt;
        GeographicLib::UTMUPS::Reverse(zone, north, x, y, lat, lon);
        return GridSquare{wgs84(), {lon, lat}, side_of(digits)};
    } catch (const GeographicLib::GeographicErr&) {
        return std::nullopt;
    }
}

std::optional<GridSquare> british_square(std::string_view text) {
    try {
        int digits = 0;
        double x = 0.0, y = 0.0, lat = 0.0, lon = 0.0;
        GeographicLib::OSGB::GridReference(without_spaces(text), x, y, digits);
        if (digits < coarsest) return std::nullopt;
        // On the grid's own ellipsoid, which is near enough to tell whether the place can be meant.
        GeographicLib::OSGB::Reverse(x, y, lat, lon);
        if (!in_british_grid({core::Degrees(lon), core::Degrees(lat)})) return std::nullopt;
        return GridSquare{{"EPSG:27700"}, {x, y}, side_of(digits)};
    } catch (const GeographicLib::GeographicErr&) {
        return std::nullopt;
    }
}

bool in_british_grid(core::GeographicPoint place) {
    const double lon = place.longitude.value(), lat = place.latitude.value();
    return lat >= 49.0 && lat <= 61.0 && lon >= -9.0 && lon <= 2.0;
}

}  // namespace roostward::geo
