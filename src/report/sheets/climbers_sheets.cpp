#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "html_text.hpp"
#include "page/html.hpp"
#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/open_matters.hpp"
#include "roostward/report/qr_code.hpp"
#include "roostward/report/reserve_words.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

std::string line(std::string_view key, const std::string& inner) {
    return element("div", element("dt", html_text(core::said(key))) + element("dd", inner));
}

std::string numbers_heading(const plan::Plan& plan, std::size_t tree) {
    const std::string numbers = box_numbers(plan, tree);
    return plan.mounting.boxes == 1 ? core::said("climber.box", {{"box", numbers}})
                                    : core::said("climber.boxes", {{"boxes", numbers}});
}

/// A tag of more than these is written smaller.
constexpr std::size_t most_big_letters = 9;

/// "Alnus glutinosa · trunk 50 cm through at breast height · 14 m high"
std::string about_the_tree(const plan::Plan& plan, std::size_t index) {
    const trees::Tree& tree = plan.trees.rows[index];
    const auto told = [](std::string_view key, double value) {
        return html_text(core::said(key, {{"value", fmt::format("{:.0f}", value)}}));
    };
    std::string facts =
        tree.species.empty() ? html_text(core::said("climber.no_species")) : name(tree.species);
    facts += " · " + (tree.dbh ? told("climber.trunk", tree.dbh->value())
                               : html_text(core::said("climber.no_trunk")));
    if (tree.height) facts += " · " + told("climber.height", tree.height->value());
    facts += " · " + html_text(condition_in_words(tree));
    return element("div",
                   element("h3", html_text(numbers_heading(plan, index))) +
                       element(columns_of(tree.id) > most_big_letters ? "p class=\"tag-line long\""
                                                                      : "p class=\"tag-line\"",
                               html_text(core::said("climber.tree")) + " " + element("b", name(tree.id))) +
                       element("p", facts)) +
           element("div class=\"photo\"", html_text(core::said("climber.photo")));
}

std::string way_to(const Sheets& sheets, std::size_t tree, core::GeographicPoint place) {
    const core::PlanePoint stem = sheets.plan.trees.rows[tree].stem;
    return element("p class=\"way\"", element("b", html_text(core::said("climber.way"))) + " " +
                                          html_text(sheets.ways.to(tree))) +
           element("p class=\"place\"",
                   html_text(
                       core::said("climber.place", {{"lat", place_in_degrees(place.latitude)},
                                                    {"lon", place_in_degrees(place.longitude)},
                                                    {"east", fmt::format("{:.0f}", stem.easting)},
                                                    {"north", fmt::format("{:.0f}", stem.northing)},
                                                    {"crs", geo::facts_of(sheets.plan.planning_crs).name}})));
}

std::string in_its_words(const Matter& matter) {
    return html_text(matter.text) + (matter.open() ? " " + element("em", html_text(matter.who)) : "");
}

std::string stop_row(const std::string& title, const std::string& words, bool open) {
    return element("tr", element("td", open ? element("strong", html_text(core::said("stop.open")))
                                            : "<span class=\"tick\"></span>") +
                             element("th scope=\"row\"", html_text(title)) +
                             element("td", element("div", words)));
}

/// A line for each of the six that every tree has; what else is open shares one.
std::string stop_rows(const std::vector<Matter>& matters) {
    std::string rows, also;
    for (std::size_t i = 0; i < matters.size(); ++i) {
        const std::string words = in_its_words(matters[i]);
        if (i < matters_of_every_tree)
            rows += stop_row(matters[i].title, words, matters[i].open());
        else
            also += element("span", words) + " ";
    }
    return also.empty() ? rows : rows + stop_row(core::said("stop.also"), also, true);
}

std::string stop_box(const plan::Plan& plan, std::size_t tree) {
    const std::vector<Matter> matters = matters_of(plan, tree);
    const bool ready = std::ranges::none_of(matters, &Matter::open);
    return element(
        ready ? "div class=\"stop\"" : "div class=\"stop not-ready\"",
        element("h4", html_text(core::said(ready ? "stop.look" : "stop.not_ready"))) +
            element("p", html_text(core::said(ready ? "stop.look_means" : "stop.not_ready_means"))) +
            element("table", element("tbody", stop_rows(matters))));
}

std::string free_drop(const plan::Plan& plan, const siting::Candidate& candidate) {
    const siting::Profile& profile = plan.settings.profile;
    const core::Metres drop = profile.clear_drop.value, approach = profile.clear_approach.value;
    std::string text = drop > core::Metres(0.0)
                           ? core::said("climber.drop_is", {{"metres", drop.value()}}) + "."
                           : core::said("climber.no_drop") + ".";
    if (candidate.drop_clear)
        text += " " + core::said("climber.drop_model", {{"metres", candidate.drop_clear->value()}});
    if (approach > core::Metres(0.0))
        text += " " + core::said("climber.way_in_is", {{"metres", approach.value()}});
    return text;
}

/// A tree can be the next one of several sites, and serves one of them.
std::string shared_reserve(const plan::Plan& plan, std::size_t site) {
    const std::string others = others_with_reserve_of(plan, site);
    return others.empty() ? "" : " " + core::said("climber.reserve_shared", {{"sites", others}});
}

std::string next_if_unsafe(const Sheets& sheets, const geo::Transform& to_globe, std::size_t tree) {
    const plan::Plan& plan = sheets.plan;
    const std::size_t site = plan.candidates[tree].site.value();
    const siting::Reserve* reserve = reserve_of(plan, site);
    if (!reserve) return core::said("climber.no_reserve");
    const std::size_t next = reserve->tree;
    const core::PlanePoint place = to_globe(plan.trees.rows[next].stem);
    const bool ready = std::ranges::none_of(matters_of(plan, next), &Matter::open);
    return core::said("climber.reserve", {{"tree", in_a_line(plan.trees.rows[next].id, 30)},
                                          {"way", in_a_line(sheets.ways.to(next), 110)},
                                          {"lat", place_in_degrees(core::Degrees(place.northing))},
                                          {"lon", place_in_degrees(core::Degrees(place.easting))},
                                          {"faces", facings_in_words(plan.candidates[next])}}) +
           " " + core::said(ready ? "climber.reserve_ready" : "climber.reserve_not_ready") +
           shared_reserve(plan, site);
}

std::string aim(const std::string& title, const std::string& big, const std::string& small) {
    return element(
        "div", element("dt", html_text(title)) + element("dd", element("b", big) + " " + html_text(small)));
}

/// An owl that was seen near by: the climber looks for it.
std::string neighbours(const trees::Verdict& verdict) {
    return verdict.neighbours.empty() ? std::string()
                                      : line("climber.neighbours", html_text(verdict.neighbours));
}

std::string how_it_hangs(const Sheets& sheets, const geo::Transform& to_globe, std::size_t tree) {
    const plan::Plan& plan = sheets.plan;
    std::string aims = aim(core::said("climber.entrance"), figure(plan.mounting.height.value(), 1) + " m",
                           core::said("climber.entrance_is"));
    for (const PlannedBox& box : planned_boxes(plan, tree))
        aims += aim(core::said("climber.faces", {{"box", std::to_string(box.number)}}),
                    html_text(compass_words(box.facing)),
                    core::said("climber.degrees", {{"degrees", whole_degrees(box.facing)}}));
    return element("dl class=\"aims\"", aims) +
           element("dl class=\"hang\"",
                   line("climber.drop", html_text(free_drop(plan, plan.candidates[tree]))) +
                       neighbours(plan.candidates[tree].verdict) +
                       line("climber.spot", html_text(core::said("climber.spot_is"))) +
                       line("climber.fixing", html_text(core::said("climber.fixing_is"))) +
                       line("climber.unsafe", html_text(next_if_unsafe(sheets, to_globe, tree))));
}

std::string blanks(const plan::Plan& plan, std::size_t tree) {
    constexpr std::array columns{"climber.done_box",    "climber.done_hung",    "climber.done_not",
                                 "climber.done_height", "climber.done_faces",   "climber.done_date",
                                 "climber.done_photo",  "climber.done_initials"};
    std::string head, rows;
    for (const char* column : columns)
        head += element("th scope=\"col\"", html_text(core::said(column)));
    for (const PlannedBox& box : planned_boxes(plan, tree)) {
        std::string cells = element("th scope=\"row\"", std::to_string(box.number)) +
                            element("td", "<span class=\"tick\"></span>");
        for (std::size_t i = 2; i < columns.size(); ++i)
            cells += "<td></td>";
        rows += element("tr", cells);
    }
    return element("table class=\"blanks\"", element("caption", html_text(core::said("climber.done"))) +
                                                 element("thead", element("tr", head)) +
                                                 element("tbody", rows));
}

/// Those that matter on a tree; the others are in the report.
std::string climbers_cautions() {
    constexpr std::array<std::string_view, 7> told{"tree", "height", "electricity", "bats",
                                                   "law",  "season", "hygiene"};
    std::string text = html_text(core::said("climber.magnetic"));
    for (const Caution& caution : cautions())
        if (std::ranges::find(told, caution.matter) != told.end()) text += " " + html_text(caution.text);
    return element("p class=\"small\"", text);
}

std::string code_of(core::GeographicPoint place) {
    const std::string uri = geo_uri(place);
    return element(
        "div class=\"code-of-place\"",
        qr_code(uri, core::said("climber.code_for", {{"uri", uri}})) + element("p", html_text(uri)));
}

std::string sheet_of(const Sheets& sheets, const geo::Transform& to_globe, std::size_t tree) {
    const plan::Plan& plan = sheets.plan;
    const core::GeographicPoint place = geo::on_globe(to_globe(plan.trees.rows[tree].stem));
    const std::string title =
        core::said("climber.title", {{"site", std::to_string(plan.candidates[tree].site.value())},
                                     {"sites", std::to_string(plan.chosen.size())}});
    return element("article class=\"paper climber\"",
                   sheet_head(plan, title) + element("div class=\"what\"", about_the_tree(plan, tree)) +
                       element("div class=\"find\"", way_to(sheets, tree, place)) + stop_box(plan, tree) +
                       how_it_hangs(sheets, to_globe, tree) + blanks(plan, tree) +
                       element("div class=\"foot\"",
                               code_of(place) + element("div", unchecked_note(plan) + climbers_cautions()))) +
           "\n";
}

}  // namespace

std::string climbers_sheets(const Sheets& sheets) {
    const geo::Transform to_globe(sheets.plan.planning_crs, geo::wgs84());
    std::string all;
    for (const std::size_t tree : sheets.plan.chosen)
        all += sheet_of(sheets, to_globe, tree);
    return all;
}

}  // namespace roostward::report
