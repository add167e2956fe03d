#include <fmt/format.h>

#include "html_text.hpp"
#include "page/html.hpp"
#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/open_matters.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

std::string facings_of(const plan::Plan& plan, std::size_t tree) {
    std::string all;
    for (const PlannedBox& box : planned_boxes(plan, tree))
        all += (all.empty() ? "" : ", ") + std::string(siting::compass_point(box.facing));
    return all;
}

std::string reason_for(const siting::Candidate& candidate) {
    return core::said("committee.reason_is", {{"flights", flights_in_words(candidate.flights)},
                                              {"evenings", evenings_in_words(candidate.activity)}});
}

std::string open_list(const std::vector<Matter>& matters, bool everywhere) {
    std::string items;
    for (const Matter& matter : matters)
        if (matter.open() && matter.everywhere == everywhere)
            items += element("li", html_text(core::said("committee.open_is",
                                                        {{"what", matter.text}, {"who", matter.who}})));
    return items.empty() ? items : element("ul", items);
}

std::string open_for(const plan::Plan& plan, std::size_t tree) {
    const std::string list = open_list(matters_of(plan, tree), false);
    return html_text(core::said("committee.health", {{"health", health(plan.trees.rows[tree])}})) + " " +
           (list.empty() ? html_text(core::said("committee.nothing_open")) : list);
}

std::string open_everywhere(const plan::Plan& plan) {
    const std::string list = open_list(matters_of(plan, plan.chosen.front()), true);
    return list.empty() ? list
                        : element("div class=\"everywhere\"",
                                  element("p", html_text(core::said("committee.open_everywhere"))) + list);
}

/// Blank, to be filled in, where it is not told.
std::string cost_of(const trees::Tree& tree) {
    return tree.cost ? figure(*tree.cost, 2) : std::string();
}

Row row_of(const Sheets& sheets, std::size_t tree) {
    const plan::Plan& plan = sheets.plan;
    return {figure(static_cast<double>(plan.candidates[tree].site.value())),
            name(plan.trees.rows[tree].id),
            html_text(sheets.ways.to(tree)),
            html_text(box_numbers(plan, tree)),
            figure(plan.mounting.height.value(), 1) + " m",
            html_text(facings_of(plan, tree)),
            html_text(reason_for(plan.candidates[tree])),
            html_text(sureness(plan, tree)),
            open_for(plan, tree),
            cost_of(plan.trees.rows[tree]),
            name(looked_after_by(plan, tree))};
}

}  // namespace

std::string committee_table(const Sheets& sheets) {
    std::vector<Row> rows;
    for (const std::size_t tree : sheets.plan.chosen)
        rows.push_back(row_of(sheets, tree));
    return element("article class=\"paper committee\"",
                   sheet_head(sheets.plan, {}) + element("h3", html_text(core::said("committee.title"))) +
                       unchecked_note(sheets.plan) + element("p", html_text(caveat(sheets.plan))) +
                       open_everywhere(sheets.plan) +
                       table(core::said("committee.title"),
                             {{core::said("committee.site"), true},
                              {core::said("committee.tree")},
                              {core::said("committee.place")},
                              {core::said("committee.boxes")},
                              {core::said("committee.height"), true},
                              {core::said("committee.facing")},
                              {core::said("committee.reason")},
                              {core::said("committee.sure")},
                              {core::said("committee.open")},
                              {core::said("committee.cost")},
                              {core::said("committee.care")}},
                             rows) +
                       element("p class=\"small\"", html_text(cautions().front().text))) +
           "\n";
}

}  // namespace roostward::report
