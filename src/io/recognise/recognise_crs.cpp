#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "places/median_point.hpp"
#include "recognise/recognise_places.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

/// A system that inventories are often kept in, and the range of its coordinates on its own ground, from the
/// area of use in the EPSG data set, rounded outward. `shape` is what nothing else looks like.
struct KnownSystem {
    const char* crs;
    const char* name;
    double east_from, east_to, north_from, north_to;
    bool own_shape;
};
constexpr std::array<KnownSystem, 31> known_systems = {{
    {"EPSG:27700", "British National Grid", 0, 700e3, 0, 1300e3, false},
    {"EPSG:29902", "Irish Grid", 10e3, 380e3, 10e3, 470e3, false},
    {"EPSG:2157", "Irish Transverse Mercator", 410e3, 780e3, 500e3, 970e3, false},
    {"EPSG:2154", "Lambert-93", 0, 1300e3, 6000e3, 7200e3, false},
    {"EPSG:28992", "Rijksdriehoek", 0, 290e3, 300e3, 630e3, false},
    {"EPSG:31370", "Belgian Lambert 72", 10e3, 310e3, 10e3, 260e3, false},
    {"EPSG:3812", "Belgian Lambert 2008", 510e3, 810e3, 510e3, 760e3, false},
    {"EPSG:2056", "Swiss LV95", 2480e3, 2840e3, 1070e3, 1300e3, true},
    {"EPSG:21781", "Swiss LV03", 480e3, 840e3, 70e3, 300e3, false},
    {"EPSG:31466", "Gauss-Krüger zone 2", 2490e3, 2650e3, 5200e3, 6100e3, true},
    {"EPSG:31467", "Gauss-Krüger zone 3", 3270e3, 3750e3, 5200e3, 6100e3, true},
    {"EPSG:31468", "Gauss-Krüger zone 4", 4270e3, 4750e3, 5200e3, 6100e3, true},
    {"EPSG:31469", "Gauss-Krüger zone 5", 5270e3, 5550e3, 5200e3, 6100e3, true},
    {"EPSG:31256", "Austrian MGI, M34", -120e3, 120e3, 5100e3, 5450e3, false},
    {"EPSG:3006", "SWEREF 99 TM", 260e3, 930e3, 6120e3, 7700e3, false},
    {"EPSG:3011", "SWEREF 99 18 00", 50e3, 260e3, 6120e3, 7700e3, false},
    {"EPSG:3003", "Monte Mario, Italy 1", 1300e3, 2000e3, 3900e3, 5250e3, false},
    {"EPSG:3004", "Monte Mario, Italy 2", 2200e3, 3000e3, 3900e3, 5250e3, false},
    {"EPSG:2180", "Polish CS92", 160e3, 870e3, 120e3, 790e3, false},
    {"EPSG:3067", "ETRS-TM35FIN", 50e3, 760e3, 6570e3, 7800e3, false},
    {"EPSG:3763", "Portugal TM06", -130e3, 170e3, -300e3, 280e3, false},
    {"EPSG:5514", "Krovak East North", -910e3, -160e3, -1350e3, -930e3, true},
    {"EPSG:3857", "Web Mercator", -20040e3, 20040e3, -20040e3, 20040e3, false},
    {"EPSG:3035", "ETRS89 LAEA Europe", 2400e3, 7400e3, 1300e3, 5500e3, false},
    {"EPSG:2193", "New Zealand TM 2000", 1000e3, 2200e3, 4700e3, 6250e3, false},
    {"EPSG:28354", "MGA zone 54", 150e3, 850e3, 5000e3, 9000e3, false},
    {"EPSG:28355", "MGA zone 55", 150e3, 850e3, 5000e3, 9000e3, false},
    {"EPSG:28356", "MGA zone 56", 150e3, 850e3, 5000e3, 9000e3, false},
    {"EPSG:3005", "BC Albers", 200e3, 1900e3, 300e3, 1800e3, false},
    {"EPSG:3979", "Canada Atlas Lambert", -2400e3, 3100e3, -800e3, 3900e3, false},
    {"EPSG:5070", "Conus Albers", -2400e3, 2300e3, 200e3, 3200e3, false},
}};

constexpr double near_m = 20'000.0;

struct Fit {
    std::string crs;
    std::string name;
    core::GeographicPoint lands;
};

std::vector<KnownSystem> in_range(core::PlanePoint p) {
    std::vector<KnownSystem> fits;
    std::ranges::copy_if(known_systems, std::back_inserter(fits), [&](const KnownSystem& s) {
        return p.easting >= s.east_from && p.easting <= s.east_to && p.northing >= s.north_from &&
               p.northing <= s.north_to;
    });
    return fits;
}

/// UTM at the place: of the datum that the maps of the continent use, else of WGS 84.
std::pair<std::string, std::string> utm_at(const core::GeographicPoint& place) {
    const double lon = place.longitude.value(), lat = place.latitude.value();
    const int zone = std::clamp(static_cast<int>(std::floor((lon + 180.0) / 6.0)) + 1, 1, 60);
    const std::string name = fmt::format("UTM zone {}{}", zone, lat < 0.0 ? "S" : "N");
    if (lat > 34.0 && lat < 72.0 && zone >= 28 && zone <= 38)
        return {fmt::format("EPSG:258{:02}", zone), "ETRS89, " + name};
    if (lat > 14.0 && lon < -50.0 && zone <= 23)
        return {fmt::format("EPSG:269{:02}", zone), "NAD83, " + name};
    return {fmt::format("EPSG:32{}{:02}", lat < 0.0 ? 7 : 6, zone), "WGS 84, " + name};
}

std::optional<core::GeographicPoint> on_globe(core::PlanePoint p, const std::string& crs) {
    try {
        const core::PlanePoint degrees = geo::Transform({crs}, geo::wgs84())(p);
        if (!std::isfinite(degrees.easting) || !std::isfinite(degrees.northing)) return std::nullopt;
        return geo::on_globe(degrees);
    } catch (const core::Error&) {
        return std::nullopt;
    }
}

/// Systems in which the point lands near the place, the nearest first.
std::vector<Fit> fits_near(core::PlanePoint p, const core::GeographicPoint& place) {
    std::vector<std::pair<std::string, std::string>> tried;
    for (const KnownSystem& system : in_range(p))
        tried.emplace_back(system.crs, system.name);
    for (const double shift : {0.0, -6.0, 6.0}) {
        const core::Degrees lon(place.longitude.value() + shift);
        tried.push_back(utm_at({lon, place.latitude}));
    }
    std::vector<Fit> fits;
    for (const auto& [crs, name] : tried) {
        const auto lands = on_globe(p, crs);
        if (lands && geo::geodesic_distance(*lands, place).value() <= near_m)
            fits.push_back({crs, name, *lands});
    }
    // Datums of one grid lie metres apart: of those the first of the list.
    std::ranges::stable_sort(fits, {}, [&](const Fit& fit) {
        return std::round(geo::geodesic_distance(fit.lands, place).value() / 100.0);
    });
    return fits;
}

}  // namespace

std::optional<core::GeographicPoint> middle_of(const std::vector<core::PlanePoint>& points,
                                               const geo::Crs& crs) {
    const std::optional<core::PlanePoint> middle = median_point(points);
    if (!middle) return std::nullopt;
    return on_globe(*middle, crs.definition);
}

CrsGuess crs_guess(const std::vector<core::PlanePoint>& points,
                   const std::optional<core::GeographicPoint>& place) {
    const std::optional<core::PlanePoint> middle = median_point(points);
    if (!middle) return {};
    const std::string where = core::said("crs.near", {{"x", middle->easting}, {"y", middle->northing}});
    if (place) {
        const std::vector<Fit> fits = fits_near(*middle, *place);
        if (fits.empty()) return {"", core::said("crs.in_none", {{"where", where}})};
        return {fits.front().crs,
                core::said("crs.in_system",
                           {{"where", where},
                            {"km", geo::geodesic_distance(fits.front().lands, *place).value() / 1000.0},
                            {"system", fits.front().name}})};
    }
    const std::vector<KnownSystem> fits = in_range(*middle);
    const auto own = std::ranges::find_if(fits, [](const KnownSystem& s) { return s.own_shape; });
    if (own != fits.end())
        return {own->crs, core::said("crs.own_shape", {{"where", where}, {"system", own->name}})};
    std::vector<std::string> names;
    names.reserve(fits.size());
    for (const KnownSystem& system : fits)
        names.push_back(fmt::format("{} ({})", system.crs, system.name));
    if (names.empty()) return {"", core::said("crs.anything", {{"where", where}})};
    const std::string systems = fmt::format("{}", fmt::join(names, ", "));
    return {"", core::said("crs.could_be", {{"where", where}, {"systems", systems}})};
}

}  // namespace roostward::io
