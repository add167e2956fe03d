#include "places/planning_plane.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "places/median_point.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

constexpr double earth_radius_m = 6371008.8;  // mean radius, WGS 84 (IUGG)
constexpr double near_m = 100'000.0;

/// Straight through the globe, metres.
double chord(core::PlanePoint a, core::PlanePoint b) {
    const auto on_globe = [](core::PlanePoint p) {
        const double lon = p.easting * std::numbers::pi / 180.0;
        const double lat = p.northing * std::numbers::pi / 180.0;
        return std::array<double, 3>{std::cos(lat) * std::cos(lon), std::cos(lat) * std::sin(lon),
                                     std::sin(lat)};
    };
    const auto p = on_globe(a);
    const auto q = on_globe(b);
    return earth_radius_m * std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/// The points of each row, on the globe.
template <class Record, class PointsOf>
geo::Line on_globe(const UnplacedLayer<Record>& layer, const PointsOf& points_of) {
    geo::Line all;
    for (std::uint32_t file = 0; file < layer.facts.files.size(); ++file) {
        geo::Line of_file;
        for (const Record& record : layer.rows)
            if (record.row.file == file) points_of(record, of_file);
        const geo::Crs& crs = layer.facts.files[file].crs;
        if (crs != geo::wgs84()) geo::Transform(crs, geo::wgs84()).apply(of_file);
        all.insert(all.end(), of_file.begin(), of_file.end());
    }
    return all;
}

template <class Ground>
geo::Line ground_on_globe(const UnplacedLayer<Ground>& layer) {
    return on_globe(layer, [](const Ground& ground, geo::Line& points) {
        for (const geo::Polygon& polygon : ground.shape.polygons)
            points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
    });
}

geo::Line points_of_site(const UnplacedInputs& in) {
    const auto has_rows = [](const auto& layer) { return layer && !layer->rows.empty(); };
    const auto at = [](const auto& point_of) {
        return [point_of](const auto& record, geo::Line& points) { points.push_back(point_of(record)); };
    };
    if (has_rows(in.allowed_area)) return ground_on_globe(*in.allowed_area);
    if (has_rows(in.watches)) return on_globe(*in.watches, at([](const auto& w) { return w.path.front(); }));
    if (has_rows(in.passes)) return on_globe(*in.passes, at([](const auto& p) { return p.position; }));
    if (has_rows(in.tracks)) return on_globe(*in.tracks, at([](const auto& t) { return t.path.front(); }));
    if (has_rows(in.trees)) return on_globe(*in.trees, at([](const auto& t) { return t.stem; }));
    if (has_rows(in.squares)) return ground_on_globe(*in.squares);
    return {};
}

/// Strays, as one pair of swapped coordinates, must not decide the zone, nor must the order of the rows.
std::vector<core::GeographicPoint> without_strays(geo::Line degrees) {
    std::ranges::sort(degrees);
    std::vector<core::GeographicPoint> kept;
    const std::optional<core::PlanePoint> middle = median_point(degrees);
    for (const core::PlanePoint& p : degrees) {
        if (middle && chord(p, *middle) <= near_m) kept.push_back(geo::on_globe(p));
    }
    return kept;
}

[[noreturn]] void refuse(const std::string& sentence) {
    throw core::Error(core::Fault::site_file, {{}, {}, {}, "site.crs"}, sentence);
}

geo::Crs checked(const std::string& wanted) {
    geo::CrsFacts facts;
    try {
        facts = geo::facts_of({wanted});
    } catch (const core::Error&) {
        refuse(core::said("error.unknown_crs", {{"crs", wanted}}));
    }
    if (!facts.projected_in_metres) refuse(core::said("error.crs_not_in_metres", {{"crs", facts.name}}));
    return {facts.authority.empty() ? wanted : facts.authority};
}

}  // namespace

geo::Crs planning_crs(const std::string& wanted, const UnplacedInputs& inputs) {
    if (!wanted.empty() && wanted != "auto") return checked(wanted);
    geo::Line site = points_of_site(inputs);
    if (site.empty()) {
        throw core::Error(core::Fault::inputs, {}, core::said("error.nothing_has_a_place"));
    }
    const std::optional<geo::Crs> zone = geo::utm_zone_of(without_strays(std::move(site)));
    if (!zone) refuse(core::said("error.no_utm_zone"));
    return *zone;
}

const geo::Transform* PlanningPlane::way_from(const geo::Crs& from) {
    const auto known = ways_.find(from.definition);
    if (known != ways_.end()) return known->second ? &*known->second : nullptr;
    const bool same =
        from == crs_ || (from != geo::wgs84() && geo::facts_of(from).authority == crs_.definition);
    std::optional<geo::Transform>& way = ways_[from.definition];
    if (!same) way.emplace(from, crs_);
    return way ? &*way : nullptr;
}

GridNorth::GridNorth(const geo::Crs& plane, const core::Box& site) : site_(site) {
    const std::array<core::PlanePoint, 4> corners = {{site.south_west,
                                                      {site.north_east.easting, site.south_west.northing},
                                                      {site.south_west.easting, site.north_east.northing},
                                                      site.north_east}};
    const geo::Transform to_globe(plane, geo::wgs84());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const geo::PlaneFacts facts = geo::plane_facts(to_globe, corners[i]);
        convergence_[i] = facts.meridian_convergence.value();
        if (std::abs(facts.scale - 1.0) > std::abs(worst_scale_ - 1.0)) worst_scale_ = facts.scale;
    }
}

core::Degrees GridNorth::grid_bearing(core::Degrees true_bearing, core::PlanePoint at) const {
    const auto along = [](double value, double from, double to) {
        return to > from ? (value - from) / (to - from) : 0.0;
    };
    const double east = along(at.easting, site_.south_west.easting, site_.north_east.easting);
    const double north = along(at.northing, site_.south_west.northing, site_.north_east.northing);
    const double south_edge = std::lerp(convergence_[0], convergence_[1], east);
    const double north_edge = std::lerp(convergence_[2], convergence_[3], east);
    return core::normalised(true_bearing - core::Degrees(std::lerp(south_edge, north_edge, north)));
}

}  // namespace roostward::io
