#include "roostward/report/tables.hpp"

#include <fmt/format.h>

#include "planned_boxes.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/reserve_words.hpp"
#include "roostward/report/tally.hpp"

namespace roostward::report {

geo::Table boxes_to_hang(const plan::Plan& plan) {
    geo::Table table{{"box", "site", "tree", "lon", "lat", "species", "mount_height_m", "facing_deg",
                      "facing", "design", "hung", "status", "if_unsafe_take", "note", "plan"},
                     {}};
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    for (const PlannedBox& box : planned_boxes(plan)) {
        const auto& record = plan.trees.rows[box.tree];
        const core::PlanePoint place = to_globe(record.stem);
        const std::size_t site = *plan.candidates[box.tree].site;
        const siting::Reserve* reserve = reserve_of(plan, site);
        table.rows.push_back({std::to_string(box.number), std::to_string(site), record.id,
                              fmt::format("{:.7f}", place.easting), fmt::format("{:.7f}", place.northing),
                              record.species, fmt::format("{:g}", plan.mounting.height.value()),
                              fmt::format("{:g}", box.facing.value()),
                              std::string(siting::compass_point(box.facing)), "", "", "",
                              reserve ? plan.trees.rows[reserve->tree].id : std::string(), "", plan.number});
    }
    return table;
}

geo::Table observers(const plan::Plan& plan) {
    geo::Table table{{"letter", "observer"}, {}};
    for (const survey::Observer& observer : plan.observers)
        table.rows.push_back({observer.letter, observer.name});
    return table;
}

geo::Table findings_table(const core::Findings& findings) {
    geo::Table table{{"severity", "kind", "file", "layer", "row", "field", "value", "sentence"}, {}};
    for (const auto& finding : findings)
        table.rows.push_back({std::string(core::to_text(finding.severity)), finding.kind, finding.place.file,
                              finding.place.layer,
                              finding.place.row ? std::to_string(*finding.place.row) : "",
                              finding.place.field, finding.value, sentence_of(finding)});
    return table;
}

}  // namespace roostward::report
