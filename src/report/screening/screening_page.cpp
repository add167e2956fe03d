#include <fmt/format.h>

#include "ground_drawing.hpp"
#include "html_text.hpp"
#include "page/assets.hpp"
#include "page/frame.hpp"
#include "page/html.hpp"
#include "page/page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/screening.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/words.hpp"
#include "screening/screening_words.hpp"

namespace roostward::report {

namespace {

constexpr double map_width = 190.0, map_height = 150.0;  // mm
constexpr std::size_t most_to_settle = 300;

core::Box ground_of(const plan::Plan& plan) {
    std::vector<core::PlanePoint> points;
    for (const auto& polygon : plan.surroundings.allowed_area)
        points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
    for (const auto& tree : plan.trees.rows)
        points.push_back(tree.stem);
    return core::widened(geo::box_of(points).value_or(core::Box{}), core::Metres(20.0));
}

void draw_trees(const plan::Plan& plan, trees::State state, std::string_view kind, GroundDrawing& drawing) {
    for (std::size_t i = 0; i < plan.candidates.size(); ++i)
        if (plan.candidates[i].verdict.state == state) drawing.dot(plan.trees.rows[i].stem, kind);
}

std::string map_of(const plan::Plan& plan) {
    GroundDrawing drawing(ground_of(plan), map_width, map_height);
    drawing.polygons(plan.surroundings.allowed_area, "area");
    drawing.shapes(plan.surroundings.water.shapes, "water");
    drawing.roads(plan.surroundings.roads.shapes);
    draw_trees(plan, trees::State::ruled_out, "no-box", drawing);
    draw_trees(plan, trees::State::settle_first, "to-settle", drawing);
    draw_trees(plan, trees::State::not_watched, "tree", drawing);
    return element("figure", drawing.svg(core::said("screening.map")) +
                                 element("figcaption", html_text(core::said("screening.map_key"))));
}

core::PlanePoint middle_of(const plan::Plan& plan) {
    if (!plan.surroundings.allowed_area.empty()) return geo::middle_of(plan.surroundings.allowed_area);
    const core::Box box = ground_of(plan);
    return {0.5 * (box.south_west.easting + box.north_east.easting),
            0.5 * (box.south_west.northing + box.north_east.northing)};
}

std::string to_settle(const plan::Plan& plan) {
    const WaysThere ways(Landmarks{plan.settings.site_name,
                                   plan.meridian_convergence,
                                   middle_of(plan),
                                   plan.trees,
                                   plan.surroundings,
                                   {}});
    std::vector<Row> rows;
    std::size_t more = 0;
    for (std::size_t i = 0; i < plan.candidates.size(); ++i) {
        const trees::Verdict& verdict = plan.candidates[i].verdict;
        if (verdict.state != trees::State::settle_first) continue;
        if (rows.size() == most_to_settle)
            ++more;
        else
            rows.push_back({name(plan.trees.rows[i].id), html_text(ways.to(i)),
                            html_text(who_decides(verdict)), questions(verdict)});
    }
    if (rows.empty()) return element("p", html_text(core::said("screening.settling_none")));
    std::string text = element("p", html_text(core::said("screening.by_rule_too"))) +
                       counts_by_rule(plan, trees::State::settle_first) +
                       table(core::said("screening.settling"),
                             {{core::said("ui.tree")},
                              {core::said("settling.where")},
                              {core::said("settling.who")},
                              {core::said("settling.what")}},
                             rows, Narrow::stacks);
    if (more > 0) text += element("p", html_text(core::said("screening.settling_more", {{"count", more}})));
    return text;
}

std::string ruled_out_by(const plan::Plan& plan) {
    if (trees_in(plan, trees::State::ruled_out) == 0)
        return element("p", html_text(core::said("screening.all_ruled_in")));
    return element("p", html_text(core::said("screening.by_rule"))) +
           counts_by_rule(plan, trees::State::ruled_out);
}

std::string findings_of(const plan::Plan& plan) {
    std::vector<Row> rows;
    for (const Counted& kind : findings_by_kind(plan.findings))
        rows.push_back({html_text(core::shown("kind", kind.name)), figure(static_cast<double>(kind.count))});
    if (rows.empty()) return element("p", html_text(core::said("screening.findings_none")));
    return table(core::said("screening.findings"),
                 {{core::said("screening.kind")}, {core::said("screening.count"), true}}, rows) +
           element("p", html_text(core::said("screening.findings_in_file")));
}

std::string first_words(const plan::Plan& plan) {
    const std::string unchecked = nobody_checked(plan.checks);
    std::string text = element("p class=\"unchecked\"",
                               html_text(unchecked.empty() ? core::said("first.all_checked") : unchecked)) +
                       element("p class=\"caveat\"", html_text(core::said("screening.first")));
    for (const std::string& sentence : screening_sentences(plan))
        text += element("p", html_text(sentence));
    if (trees_in(plan, trees::State::ruled_out) < plan.candidates.size())
        text += element("p", html_text(core::said("screening.next")));
    return text;
}

}  // namespace

std::string screening_page(const plan::Plan& plan) {
    const Parts parts{{"style_source", [] { return content_source(page_style_sha256); }},
                      {"style", [] { return std::string(page_style); }},
                      {"site", [&] { return name(plan.settings.site_name); }},
                      {"title", [&] { return html_text(plan.settings.site_name); }},
                      {"animal", [&] { return html_text(plan.settings.profile.name); }},
                      {"number",
                       [&] {
                           return html_text(core::said("plan.number", {{"number", plan.number}}));
                       }},
                      {"first", [&] { return first_words(plan); }},
                      {"map", [&] { return map_of(plan); }},
                      {"settling", [&] { return to_settle(plan); }},
                      {"ruled_out", [&] { return ruled_out_by(plan); }},
                      {"findings", [&] { return findings_of(plan); }},
                      {"cautions", [] { return all_cautions(); }}};
    return filled(screening_frame, parts);
}

}  // namespace roostward::report
