#include "gpx_text.hpp"

#include <fmt/format.h>

#include "xml_text.hpp"

namespace roostward::report {

namespace {

/// As the schema bounds it: 180° east is 180° west.
std::string longitude(double degrees) {
    const std::string text = fmt::format("{:.7f}", degrees);
    return text == "180.0000000" ? "-180.0000000" : text;
}

}  // namespace

std::string gpx_element(std::string_view name, std::string_view text) {
    return fmt::format("<{0}>{1}</{0}>\n", name, xml_text(text));
}

std::string gpx_waypoint(const core::GeographicPoint& place, std::string_view inner) {
    return fmt::format("<wpt lat=\"{:.7f}\" lon=\"{}\">\n{}</wpt>\n", place.latitude.value(),
                       longitude(place.longitude.value()), inner);
}

std::string gpx_file(std::string_view title, std::string_view about, const GpxFacts& facts,
                     std::string_view waypoints) {
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx version=\"1.1\" creator=\"Roostward {}\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
        "<metadata>\n{}{}{}</metadata>\n{}</gpx>\n",
        xml_text(facts.version), gpx_element("name", title), gpx_element("desc", about),
        gpx_element("time", core::to_text(facts.stamp)), waypoints);
}

}  // namespace roostward::report
