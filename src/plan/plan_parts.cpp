#include "plan_parts.hpp"

#include "known_roosts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/siting/line_offsets.hpp"

namespace roostward::plan {

trees::Surroundings surroundings_of(siting::Inputs& inputs, const survey::Matched& seen,
                                    const std::vector<activity::FlightLine>& lines) {
    trees::Surroundings around;
    around.crossings = siting::road_crossings(lines, inputs.roads);
    around.allowed_area = std::move(inputs.allowed_area);
    around.avoid = std::move(inputs.avoid);
    around.known_roosts = std::move(inputs.roosts);
    around.lamps = std::move(inputs.lamps);
    around.boxes = std::move(inputs.boxes);
    around.roads = std::move(inputs.roads);
    around.water = std::move(inputs.water);
    around.canopy_height = std::move(inputs.canopy_height);
    around.ground_height = std::move(inputs.ground_height);
    around.today = inputs.latest_date.value_or(core::Date{});
    for (const auto& neighbour : seen.neighbours)
        around.neighbours_seen.push_back(
            {neighbour.position, neighbour.animal, neighbour.evening.date, neighbour.perched});
    for (const auto& sign : seen.roost_signs) {
        const bool returning = sign.behaviour == survey::Behaviour::returning;
        around.roosts.push_back({sign.position, core::said(returning ? "roost.returning" : "roost.emerging",
                                                           {{"date", core::to_text(sign.evening)}})});
    }
    return around;
}

std::vector<core::RowCount> counts_after(std::vector<core::RowCount> counts, const survey::Matched& seen) {
    for (auto& count : counts) {
        const std::size_t set_aside = seen.set_aside(count.layer, count.file);
        const std::size_t apart = seen.apart(count.layer, count.file);
        count.used -= set_aside + apart;
        count.set_aside += set_aside;
        count.apart += apart;
    }
    return counts;
}

void sort_roosts(siting::Inputs& inputs, survey::Matched& seen, const survey::Settings& settings) {
    SortedRoosts roosts = sorted_roosts(std::move(inputs.roosts), settings);
    inputs.roosts = std::move(roosts.kept);
    seen.neighbours.insert(seen.neighbours.end(), roosts.neighbours.begin(), roosts.neighbours.end());
    seen.findings.insert(seen.findings.end(), roosts.findings.begin(), roosts.findings.end());
}

void tell_climate(const siting::Settings& settings, core::Findings& findings) {
    if (settings.climate.hottest_month) return;
    findings.push_back({core::Severity::note,
                        {settings.site_file, {}, {}, "site.hottest_month_c"},
                        "hottest month not told",
                        {},
                        core::said("finding.hottest_month")});
}

Middle middle_of(const core::Box& box, const geo::Crs& plane) {
    const core::PlanePoint middle{0.5 * (box.south_west.easting + box.north_east.easting),
                                  0.5 * (box.south_west.northing + box.north_east.northing)};
    const geo::Transform to_globe(plane, geo::wgs84());
    return {middle, geo::on_globe(to_globe(middle)), geo::plane_facts(to_globe, middle).meridian_convergence};
}

siting::Hemisphere hemisphere_of(core::GeographicPoint place) {
    return place.latitude < core::Degrees(0.0) ? siting::Hemisphere::south : siting::Hemisphere::north;
}

}  // namespace roostward::plan
