#include "roostward/report/record_sheets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <iterator>
#include <string>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

/// The last column of each sheet holds notes.
RecordSheet sheet(const std::string& name, std::initializer_list<std::string> columns) {
    RecordSheet all{name, {}};
    for (const std::string& column : columns)
        all.columns.push_back({column, core::said(fmt::format("sheet.{}.{}", name, column))});
    all.columns.push_back({"notes", core::said("sheet.notes")});
    return all;
}

}  // namespace

std::vector<RecordSheet> record_sheets() {
    return {sheet("passes", {"date", "time", "watch", "square", "near_tree", "distance_m", "direction", "lon",
                             "lat", "bearing_deg", "count", "height_m", "behaviour", "animal", "observer"}),
            sheet("watches", {"watch", "date", "start", "end", "lon", "lat", "farthest_seen_m", "look_deg",
                              "view_deg", "observer", "seen_by", "temp_c", "wind_ms", "rain"}),
            sheet("trees", {"tree", "lon", "lat", "species", "dbh_cm", "height_m", "crown_radius_m",
                            "condition", "hazard", "inspected", "has_hollow", "protected", "owner",
                            "permission", "planned_work", "work_due"})};
}

RecordSheet planned_sheet(const std::string& name) {
    const std::vector<RecordSheet> all = record_sheets();
    const RecordSheet& usual = *std::ranges::find(all, name, &RecordSheet::name);
    RecordSheet planned{name, {}};
    for (const char* column : {"evening", "watch", "planned_start", "planned_end"})
        planned.columns.push_back({column, core::said(fmt::format("sheet.planned.{}", column))});
    std::ranges::copy_if(usual.columns, std::back_inserter(planned.columns), [](const RecordColumn& column) {
        return column.name != "date" && column.name != "watch";
    });
    return planned;
}

geo::Table blank_table(const RecordSheet& sheet) {
    geo::Table table;
    for (const RecordColumn& column : sheet.columns)
        table.header.push_back(column.name);
    return table;
}

std::vector<geo::NamedTable> workbook(const RecordSheet& sheet, geo::Table table) {
    geo::Table how_to{{core::said("sheet.how_to.title", {{"sheet", sheet.name}})}, {}};
    for (const RecordColumn& column : sheet.columns)
        how_to.rows.push_back({column.name + ": " + column.meaning});
    return {{sheet.name, std::move(table)}, {core::said("sheet.how_to"), std::move(how_to)}};
}

std::vector<geo::NamedTable> blank_workbook(const RecordSheet& sheet) {
    return workbook(sheet, blank_table(sheet));
}

}  // namespace roostward::report
