#include "roostward/report/sheets.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "html_text.hpp"
#include "page/html.hpp"
#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

/// Sheets of one kind: a link to it makes the next print hold nothing else.
std::string kind_of_sheets(std::string_view id, const std::string& inner) {
    const std::string only = html_text(core::said("sheets.only")) + " " +
                             element("a href=\"#sheets-part\"", html_text(core::said("sheets.all")));
    return element(fmt::format("div class=\"papers\" id=\"{}\"", id),
                   element("p class=\"only\" role=\"status\"", only) + inner);
}

std::string link_to(std::string_view id, std::string_view key) {
    return element(
        "li", element(fmt::format("a class=\"print-only\" href=\"#{}\"", id), html_text(core::said(key))));
}

}  // namespace

std::string sheet_head(const plan::Plan& plan, const std::string& title) {
    const std::string what = title.empty() ? "" : " · " + html_text(title);
    return element("p class=\"head\"", name(plan.settings.site_name) + what + " · " +
                                           html_text(core::said("plan.number", {{"number", plan.number}})));
}

std::string unchecked_note(const plan::Plan& plan) {
    const std::string unchecked = nobody_checked(plan.checks);
    return element("p class=\"not-checked\"",
                   html_text(unchecked.empty() ? core::said("first.all_checked") : unchecked));
}

std::string in_a_line(const std::string& text, std::size_t most) {
    return columns_of(text) > most ? fitted(text, most) : text;
}

std::string compass_words(core::Degrees bearing) {
    constexpr double point = 360.0 / static_cast<double>(siting::compass_points);
    const auto nearest = std::lround(core::normalised(bearing).value() / point) % siting::compass_points;
    return core::said(fmt::format("compass.{}", nearest));
}

const std::string& looked_after_by(const plan::Plan& plan, std::size_t tree) {
    const std::string& told = plan.trees.rows[tree].looked_after_by;
    return told.empty() ? plan.settings.looked_after_by : told;
}

std::string box_numbers(const plan::Plan& plan, std::size_t tree) {
    std::vector<std::string> numbers;
    for (const PlannedBox& box : planned_boxes(plan, tree))
        numbers.push_back(std::to_string(box.number));
    return core::all_of(numbers);
}

std::string sheets(const plan::Plan& plan, const WaysThere& ways) {
    if (plan.chosen.empty()) return element("p", html_text(outcome(plan)));
    const Sheets all{plan, ways};
    return element("p", html_text(core::said("sheets.intro"))) +
           element("ul class=\"print-links\"", link_to("climbers-sheets", "sheets.print_climbers") +
                                                   link_to("owners-letters", "sheets.print_letters") +
                                                   link_to("committee-table", "sheets.print_committee")) +
           kind_of_sheets("climbers-sheets", climbers_sheets(all)) +
           kind_of_sheets("owners-letters", owners_letters(all)) +
           kind_of_sheets("committee-table", committee_table(all));
}

}  // namespace roostward::report
