#include "roostward/report/chosen_gpx.hpp"

#include "gpx_text.hpp"
#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/way_there.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// "Entrance 4.5 m up: box 1 faces SSE (158°), box 2 faces ENE (68°)."
std::string how_to_hang_on(const plan::Plan& plan, std::size_t tree) {
    std::string boxes;
    for (const PlannedBox& box : planned_boxes(plan, tree))
        boxes +=
            (boxes.empty() ? "" : ", ") + core::said("gpx.box", {{"box", box.number},
                                                                 {"point", point_in_words(box.facing)},
                                                                 {"degrees", whole_degrees(box.facing)}});
    return core::said("gpx.hang", {{"height", plan.mounting.height.value()}, {"boxes", boxes}});
}

std::string waypoint(const plan::Plan& plan, const WaysThere& ways, const geo::Transform& to_globe,
                     std::size_t tree) {
    const trees::Tree& record = plan.trees.rows[tree];
    const std::string hang = how_to_hang_on(plan, tree);
    const std::string site = std::to_string(plan.candidates[tree].site.value());
    return gpx_waypoint(
        geo::on_globe(to_globe(record.stem)),
        gpx_element("name", core::said("gpx.name", {{"site", site}, {"tree", record.id}})) +
            gpx_element("cmt", hang) +
            gpx_element("desc", core::said("gpx.about", {{"way", ways.to(tree)}, {"hang", hang}})));
}

}  // namespace

std::string chosen_gpx(const plan::Plan& plan, const GpxFacts& facts) {
    const WaysThere ways(plan);
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    std::string waypoints;
    for (const std::size_t tree : plan.chosen)
        waypoints += waypoint(plan, ways, to_globe, tree);
    return gpx_file(core::said("gpx.title", {{"site", plan.settings.site_name}}),
                    core::said("gpx.of_plan", {{"number", plan.number}}) + " " + cautions().front().text,
                    facts, waypoints);
}

}  // namespace roostward::report
