#include "roostward/report/fix_list.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "finding_groups.hpp"
#include "missing_values.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

struct Line {
    std::string file;
    std::size_t row = 0;
    std::string field, value, wrong, to_do;
};

}  // namespace

geo::Table fix_list(const plan::Checked& checked) {
    const trees::Inventory& inventory = checked.trees;
    std::vector<Line> lines;
    for (const core::Finding& finding : checked.findings) {
        if (finding.place.layer != "trees" || !can_be_mended(finding.kind)) continue;
        Line line{finding.place.file, finding.place.row.value_or(0),     finding.place.field,
                  finding.value,      core::shown("kind", finding.kind), finding.sentence};
        for (const core::RowRef row : finding.all_rows) {
            line.file = inventory.file_of(row);
            line.row = row.number;
            lines.push_back(line);
        }
        if (finding.all_rows.empty()) lines.push_back(std::move(line));
    }
    std::set<std::tuple<std::string, std::size_t, std::string>> told;
    for (const Line& line : lines)
        told.emplace(line.file, line.row, line.field);
    std::map<std::pair<std::string, std::size_t>, const std::string*> tree_in_row;
    for (const trees::Tree& tree : inventory.rows)
        tree_in_row.emplace(std::pair(inventory.file_of(tree.row), tree.row.number), &tree.id);
    for (const MissingValue& missing : missing_values(checked))
        for (const std::size_t tree : missing.trees) {
            const core::RowRef row = inventory.rows[tree].row;
            if (told.contains({inventory.file_of(row), row.number, missing.field})) continue;
            lines.push_back({inventory.file_of(row), row.number, missing.field, "",
                             core::said("fix.not_told"),
                             core::said("fix.write_it_here", {{"what", missing.what}})});
        }
    std::ranges::stable_sort(lines, {}, [](const Line& line) { return std::tie(line.file, line.row); });
    geo::Table table{{"file", "row", "tree", "field", "value", "what_is_wrong", "what_to_do"}, {}};
    for (const Line& line : lines) {
        const auto tree = tree_in_row.find({line.file, line.row});
        table.rows.push_back({line.file, line.row == 0 ? "" : std::to_string(line.row),
                              tree == tree_in_row.end() ? "" : *tree->second, line.field, line.value,
                              line.wrong, line.to_do});
    }
    return table;
}

}  // namespace roostward::report
