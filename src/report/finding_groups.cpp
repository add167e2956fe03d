#include "finding_groups.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "roostward/report/text_block.hpp"

namespace roostward::report {

std::vector<FindingGroup> grouped(const core::Findings& findings) {
    std::vector<FindingGroup> groups;
    std::map<std::string, std::size_t> order_of_layer;
    for (const core::Finding& finding : findings) {
        order_of_layer.try_emplace(finding.place.layer, order_of_layer.size());
        auto group = std::ranges::find_if(groups, [&](const FindingGroup& g) {
            return g.layer == finding.place.layer && g.file == finding.place.file &&
                   g.severity == finding.severity && g.kind == finding.kind;
        });
        if (group == groups.end())
            group = groups.insert(
                group, {finding.place.layer, finding.place.file, finding.severity, finding.kind, {}, {}, 0});
        group->findings.push_back(&finding);
        group->count += finding.rows;
        if (finding.place.row) group->rows.push_back(*finding.place.row);
    }
    for (FindingGroup& group : groups) {
        std::ranges::sort(group.rows);
        group.rows.erase(std::unique(group.rows.begin(), group.rows.end()), group.rows.end());
    }
    std::ranges::stable_sort(groups, [&](const FindingGroup& a, const FindingGroup& b) {
        const std::size_t first = order_of_layer.at(a.layer), second = order_of_layer.at(b.layer);
        return first != second ? first < second : a.count > b.count;
    });
    return groups;
}

bool can_be_mended(std::string_view kind) {
    constexpr std::array<std::string_view, 8> as_they_are{
        "no tree",        "written twice",          "total",
        "poor weather",   "hours not counted",      "outside the hours that count",
        "another animal", "transformation accuracy"};
    return std::ranges::find(as_they_are, kind) == as_they_are.end();
}

std::string cut(const std::string& text, std::size_t columns) {
    return columns_of(text) <= columns ? text : fitted(text, columns);
}

}  // namespace roostward::report
