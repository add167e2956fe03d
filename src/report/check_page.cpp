#include "roostward/report/check_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "finding_groups.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t runs_shown = 4;

/// "12 to 15" as one run.
struct Run {
    std::size_t first, last;
};

std::vector<Run> runs_of(const std::vector<std::size_t>& rows) {
    std::vector<Run> runs;
    for (const std::size_t row : rows) {
        if (runs.empty() || row > runs.back().last + 1)
            runs.push_back({row, row});
        else
            runs.back().last = row;
    }
    return runs;
}

std::string fields_text(const std::vector<std::string>& columns) {
    std::string plain, mapped;
    const auto add = [](std::string& list, std::string_view more, std::string_view between) {
        if (!list.empty()) list += between;
        list += more;
    };
    constexpr std::string_view arrow = " ← ";
    for (const std::string& told : columns) {
        const std::size_t at = told.find(arrow);
        const std::string_view field = std::string_view(told).substr(0, at);
        if (at != std::string::npos && told.substr(at + arrow.size()).starts_with(field))
            add(plain, field, ", ");
        else
            add(mapped, told, "; ");
    }
    std::string text;
    if (!plain.empty()) text += wrapped(core::said("check.columns", {{"columns", plain}}), 4, "  ");
    if (!mapped.empty()) text += wrapped(core::said("check.taken_for", {{"columns", mapped}}), 4, "  ");
    return text;
}

/// " (rows 2–11)"; empty where the group is about the layer as a whole.
std::string where_in_layer(const FindingGroup& group) {
    if (group.rows.empty()) return {};
    if (group.count > group.rows.size())
        return " " + core::said("check.first_in_row", {{"row", group.rows.front()}});
    return fmt::format(" ({})", rows_in_words(group.rows, runs_shown));
}

std::string group_text(const FindingGroup& group) {
    const core::Finding& first = *group.findings.front();
    std::string text = group.rows.empty() ? "" : fmt::format("{} × ", group.count);
    text += core::shown("kind", group.kind) + where_in_layer(group);
    if (!first.place.field.empty()) text += ", " + first.place.field;
    text += ": ";
    if (!first.value.empty()) text += fmt::format("\"{}\": ", cut(first.value, 60));
    return wrapped(text + first.sentence + ".", 6, "    ");
}

std::string findings_of(const std::vector<FindingGroup>& groups, std::string_view layer,
                        std::string_view file) {
    constexpr std::tuple<core::Severity, std::string_view> titles[] = {
        {core::Severity::set_aside, "check.set_aside"},
        {core::Severity::apart, "check.apart"},
        {core::Severity::doubtful, "check.doubtful"},
        {core::Severity::note, "check.note"}};
    std::string text;
    for (const auto& [severity, title] : titles) {
        std::string part;
        for (const FindingGroup& group : groups)
            if (group.layer == layer && group.file == file && group.severity == severity)
                part += group_text(group);
        if (!part.empty()) text += fmt::format("  {}\n{}", core::said(title), part);
    }
    return text;
}

std::string layer_text(const core::RowCount& count, const plan::Checked& checked,
                       const std::vector<FindingGroup>& groups) {
    std::string text = wrapped(fmt::format("{} · {}", count.layer, count.file), 2);
    const std::string rows = count.used == count.read
                                 ? core::said_for(count.read, "check.all_used")
                                 : core::said("check.rows", {{"read", count.read},
                                                             {"used", count.used},
                                                             {"set_aside", count.set_aside},
                                                             {"apart", count.apart}});
    text += fmt::format("  {}\n", rows);
    for (const siting::InputFile& file : checked.files)
        if (file.role == count.layer && file.file == count.file) text += fields_text(file.columns);
    return text + findings_of(groups, count.layer, count.file);
}

bool counted(const plan::Checked& checked, const FindingGroup& group) {
    return std::ranges::any_of(checked.counts, [&](const core::RowCount& count) {
        return count.layer == group.layer && count.file == group.file;
    });
}

/// Layers that have no rows, as rasters, several files of a layer together, and what concerns no layer at
/// all.
std::string other_findings(const plan::Checked& checked, const std::vector<FindingGroup>& groups) {
    std::string text;
    std::vector<std::pair<std::string_view, std::string_view>> told;
    for (const FindingGroup& group : groups) {
        const std::pair<std::string_view, std::string_view> which{group.layer, group.file};
        if (counted(checked, group) || std::ranges::find(told, which) != told.end()) continue;
        told.push_back(which);
        const bool has_rows =
            std::ranges::find(checked.counts, group.layer, &core::RowCount::layer) != checked.counts.end();
        text += "\n" +
                (group.layer.empty() ? core::said("check.whole")
                 : has_rows          ? fmt::format("{} · {}", group.layer, group.file)
                                     : group.layer) +
                "\n" + findings_of(groups, group.layer, group.file);
    }
    return text;
}

}  // namespace

std::string row_list(const std::vector<std::size_t>& rows, std::size_t most) {
    const std::vector<Run> runs = runs_of(rows);
    std::string text;
    std::size_t told = 0;
    for (std::size_t i = 0; i < std::min(most, runs.size()); ++i) {
        const auto [first, last] = runs[i];
        if (i > 0) text += ", ";
        text += first == last ? fmt::format("{}", first) : fmt::format("{}–{}", first, last);
        told += last - first + 1;
    }
    if (told < rows.size())
        text = core::said("check.rows_and_more", {{"rows", text}, {"count", rows.size() - told}});
    return text;
}

std::string rows_in_words(const std::vector<std::size_t>& rows, std::size_t most) {
    return core::said(rows.size() == 1 ? "check.row_list.one" : "check.row_list.many",
                      {{"rows", row_list(rows, most)}});
}

std::string check_page(const plan::Checked& checked) {
    const std::vector<FindingGroup> groups = grouped(checked.findings);
    std::string text = checked.out_of_season.empty() ? "" : wrapped(checked.out_of_season);
    text += wrapped(core::said("check.title", {{"site", checked.site_name}}), 2);
    const std::vector<std::string> first = fix_first(checked);
    text += "\n" + core::said(first.empty() ? "check.nothing_to_mend" : "check.mend_first") + "\n";
    for (std::size_t i = 0; i < first.size(); ++i)
        text += wrapped(first[i], 3, fmt::format("{}. ", i + 1));
    for (const core::RowCount& count : checked.counts)
        text += "\n" + layer_text(count, checked, groups);
    text += other_findings(checked, groups);
    if (const std::string unchecked = nobody_checked(checked.checks); !unchecked.empty())
        text += "\n" + wrapped(unchecked);
    return text;
}

}  // namespace roostward::report
