#include "finding_groups.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

/// Other animals are told one by one, all else by kind.
bool same_group(const FindingGroup& group, const core::Finding& finding) {
    constexpr std::array<std::string_view, 3> by_value{"another animal", "noise", "unknown animal"};
    return group.layer == finding.place.layer && group.file == finding.place.file &&
           group.severity == finding.severity && group.kind == finding.kind &&
           (std::ranges::find(by_value, finding.kind) == by_value.end() ||
            group.findings.front()->value == finding.value);
}

}  // namespace

std::vector<FindingGroup> grouped(const core::Findings& findings) {
    std::vector<FindingGroup> groups;
    std::map<std::string, std::size_t> order_of_layer;
    for (const core::Finding& finding : findings) {
        order_of_layer.try_emplace(finding.place.layer, order_of_layer.size());
        auto group =
            std::ranges::find_if(groups, [&](const FindingGroup& g) { return same_group(g, finding); });
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
    constexpr std::array<std::string_view, 9> as_they_are{"no tree",
                                                          "written twice",
                                                          "total",
                                                          "poor weather",
                                                          "noise",
                                                          "hours not counted",
                                                          "another animal",
                                                          "outside the hours that count",
                                                          "transformation accuracy"};
    return std::ranges::find(as_they_are, kind) == as_they_are.end();
}

std::string cut(const std::string& text, std::size_t columns) {
    return columns_of(text) <= columns ? text : fitted(text, columns);
}

}  // namespace roostward::report
