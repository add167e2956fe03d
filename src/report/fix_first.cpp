#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "finding_groups.hpp"
#include "missing_values.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/check_page.hpp"

namespace roostward::report {

namespace {

/// Something to mend, and roughly how much the plan would gain: 1 is a tree inventory of which nothing can be
/// used. Common practice, no source; only their order matters.
struct Repair {
    double worth = 0.0;
    std::string sentence;
};

constexpr std::size_t repairs_told = 3;
constexpr std::size_t evenings_wanted = 3;

/// What was seen weighs most, for all else stands on it.
double weight_of(std::string_view layer) {
    constexpr std::array seen{"passes", "tracks", "tallies", "watches"};
    if (std::ranges::find(seen, layer) != seen.end()) return 3.0;
    return layer == "trees" ? 1.0 : 0.5;
}

std::size_t rows_read(const plan::Checked& checked, const FindingGroup& group) {
    const auto count = std::ranges::find_if(checked.counts, [&](const core::RowCount& c) {
        return c.layer == group.layer && c.file == group.file;
    });
    return count == checked.counts.end() ? 0 : count->read;
}

std::optional<Repair> repair_of(const FindingGroup& group, const plan::Checked& checked) {
    if (group.severity == core::Severity::note || !can_be_mended(group.kind)) return std::nullopt;
    const core::Finding& first = *group.findings.front();
    const std::size_t read = rows_read(checked, group);
    const bool of_layer = group.rows.empty() || read == 0;
    const double share =
        of_layer ? 1.0 : std::min(1.0, static_cast<double>(group.count) / static_cast<double>(read));
    const bool used = group.severity == core::Severity::doubtful;
    const double grave = used ? 0.3 : 1.0;
    const std::string where = first.place.file + (of_layer ? "" : ", " + rows_in_words(group.rows, 3));
    const std::string value = first.value.empty() ? "" : fmt::format(" (\"{}\")", cut(first.value, 40));
    return Repair{
        weight_of(group.layer) * share * grave,
        fmt::format("{}: {}{}: {}.", where, core::shown("kind", group.kind), value, first.sentence)};
}

void add_survey(std::vector<Repair>& repairs, const plan::Checked& checked) {
    if (checked.screening) return;
    if (checked.survey.even_effort()) repairs.push_back({3.0, core::said("fix.say_who_stood_where")});
    const std::size_t evenings = checked.survey.evenings.size();
    if (evenings < evenings_wanted)
        repairs.push_back({1.5, core::said_for(evenings, "fix.evenings", {{"wanted", evenings_wanted}})});
}

void add_trees(std::vector<Repair>& repairs, const plan::Checked& checked) {
    const std::string& file = checked.trees.file;
    if (!checked.trees.given()) repairs.push_back({2.0, core::said("fix.give_trees")});
    for (const std::string& column : missing_columns(checked.trees))
        repairs.push_back({0.3, core::said("fix.no_column", {{"file", file}, {"what", column}})});
    for (const MissingValue& missing : missing_values(checked)) {
        const double share =
            static_cast<double>(missing.trees.size()) / static_cast<double>(missing.trees_judged);
        repairs.push_back({share, core::said("fix.no_value", {{"file", file},
                                                              {"count", missing.trees.size()},
                                                              {"all", missing.trees_judged},
                                                              {"what", missing.what}})});
    }
}

void add_unchecked(std::vector<Repair>& repairs, const plan::Checked& checked) {
    std::vector<std::string> matters, how;
    for (const trees::Check& check : checked.checks) {
        if (check.checked) continue;
        matters.push_back(core::shown("matter", check.matter));
        how.push_back(check.how);
    }
    if (matters.empty()) return;
    repairs.push_back(
        {0.05 * static_cast<double>(matters.size()),
         core::said("fix.find_out", {{"matters", core::all_of(matters)}, {"how", how.front()}})});
}

}  // namespace

std::vector<std::string> fix_first(const plan::Checked& checked) {
    std::vector<Repair> repairs;
    add_survey(repairs, checked);
    add_trees(repairs, checked);
    add_unchecked(repairs, checked);
    const std::vector<FindingGroup> groups = grouped(checked.findings);
    for (const FindingGroup& group : groups)
        if (auto repair = repair_of(group, checked)) repairs.push_back(std::move(*repair));
    std::ranges::stable_sort(repairs, std::ranges::greater{}, &Repair::worth);
    std::vector<std::string> told;
    for (std::size_t i = 0; i < std::min(repairs_told, repairs.size()); ++i)
        told.push_back(std::move(repairs[i].sentence));
    return told;
}

}  // namespace roostward::report
