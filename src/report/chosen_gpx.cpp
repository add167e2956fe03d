#include "roostward/report/chosen_gpx.hpp"

#include <fmt/format.h>

#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/way_there.hpp"
#include "roostward/report/words.hpp"
#include "xml_text.hpp"

namespace roostward::report {

namespace {

std::string element(std::string_view name, std::string_view text) {
    return fmt::format("<{0}>{1}</{0}>\n", name, xml_text(text));
}

/// As the schema bounds it: 180° east is 180° west.
std::string longitude(double degrees) {
    const std::string text = fmt::format("{:.7f}", degrees);
    return text == "180.0000000" ? "-180.0000000" : text;
}

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
    const core::PlanePoint place = to_globe(record.stem);
    const std::string hang = how_to_hang_on(plan, tree);
    const std::string site = std::to_string(plan.candidates[tree].site.value());
    return fmt::format("<wpt lat=\"{:.7f}\" lon=\"{}\">\n", place.northing, longitude(place.easting)) +
           element("name", core::said("gpx.name", {{"site", site}, {"tree", record.id}})) +
           element("cmt", hang) +
           element("desc", core::said("gpx.about", {{"way", ways.to(tree)}, {"hang", hang}})) + "</wpt>\n";
}

}  // namespace

std::string chosen_gpx(const plan::Plan& plan, const GpxFacts& facts) {
    const WaysThere ways(plan);
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    std::string text = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx version=\"1.1\" creator=\"Roostward {}\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n",
        xml_text(facts.version));
    text += "<metadata>\n" + element("name", core::said("gpx.title", {{"site", plan.settings.site_name}})) +
            element("desc", core::said("gpx.of_plan", {{"number", plan.number}}) + " " +
                                std::string(cautions().front().text)) +
            element("time", core::to_text(facts.stamp)) + "</metadata>\n";
    for (const std::size_t tree : plan.chosen)
        text += waypoint(plan, ways, to_globe, tree);
    return text + "</gpx>\n";
}

}  // namespace roostward::report
