#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "html_text.hpp"
#include "page/assets.hpp"
#include "page/frame.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/public_plan.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// "E 575200, N 5794100": its south-western corner.
std::string corner_of(const PublicSquare& square) {
    return core::said("public.corner", {{"east", fmt::format("{:.0f}", square.south_west.easting)},
                                        {"north", fmt::format("{:.0f}", square.south_west.northing)}});
}

std::string flights_of(const PublicSquare& square) {
    if (!square.flights_an_hour) return core::said("public.not_watched");
    return *square.flights_an_hour < 1.0
               ? core::said("public.few")
               : rounded_figure(*square.flights_an_hour, std::nullopt).value_in_words();
}

double most_flights(const PublicPlan& plan) {
    double most = 1.0;
    for (const PublicSquare& square : plan.squares)
        most = std::max(most, square.flights_an_hour.value_or(0.0));
    return most;
}

/// A square with its flights, and its boxes as small squares; north is up.
std::string drawn(const PublicSquare& square, const core::Box& around, double most) {
    const double side = public_square.value(), x = square.south_west.easting - around.south_west.easting,
                 y = around.north_east.northing - square.south_west.northing - side;
    const long shade =
        square.flights_an_hour ? std::lround(4.0 * std::min(1.0, *square.flights_an_hour / most)) : -1L;
    std::string text = fmt::format(
        "<rect class=\"{}\" x=\"{:.0f}\" y=\"{:.0f}\" width=\"{:.0f}\" height=\"{:.0f}\"/>"
        "<text class=\"mid{}\" x=\"{:.0f}\" y=\"{:.0f}\">{}</text>",
        shade < 0 ? std::string("shade-unknown") : fmt::format("shade-{}", shade), x, y, side, side,
        shade >= 3 ? " on-dark" : "", x + 0.5 * side, y + 0.48 * side,
        shade < 0 ? "?" : html_text(flights_of(square)));
    constexpr std::size_t in_a_row = 8, most_drawn = 2 * in_a_row;
    for (std::size_t i = 0; i < std::min(square.boxes, most_drawn); ++i) {
        const std::size_t row = i / in_a_row, column = i % in_a_row;
        text += fmt::format("<rect class=\"planned\" x=\"{:.0f}\" y=\"{:.0f}\" width=\"10\" height=\"10\"/>",
                            x + 6.0 + 11.0 * static_cast<double>(column),
                            y + 62.0 + 13.0 * static_cast<double>(row));
    }
    return text;
}

std::string map_of(const PublicPlan& plan) {
    std::vector<core::PlanePoint> corners;
    for (const PublicSquare& square : plan.squares) {
        corners.push_back(square.south_west);
        corners.push_back({square.south_west.easting + public_square.value(),
                           square.south_west.northing + public_square.value()});
    }
    const auto around = geo::box_of(corners);
    if (!around) return {};
    const double most = most_flights(plan);
    std::string squares;
    for (const PublicSquare& square : plan.squares)
        squares += drawn(square, *around, most);
    return element("figure class=\"public-map\"",
                   fmt::format("<svg role=\"img\" aria-label=\"{}\" viewBox=\"-2 -2 {:.0f} {:.0f}\">{}</svg>",
                               html_text(core::said("public.map")),
                               around->north_east.easting - around->south_west.easting + 4.0,
                               around->north_east.northing - around->south_west.northing + 4.0, squares) +
                       element("figcaption", html_text(core::said("public.map_note"))));
}

std::string table_of(const PublicPlan& plan) {
    std::vector<Row> rows;
    for (const PublicSquare& square : plan.squares)
        rows.push_back({html_text(corner_of(square)), html_text(flights_of(square)),
                        square.boxes == 0 ? "" : std::to_string(square.boxes)});
    return table(core::said("public.squares"),
                 {{core::said("public.square")},
                  {core::said("public.flights"), true},
                  {core::said("public.boxes"), true}},
                 rows);
}

std::string outcome(const PublicPlan& plan) {
    if (plan.boxes == 0) return core::said("public.none");
    const std::string boxes = core::said("public.planned", {{"boxes", std::to_string(plan.boxes)}});
    return plan.boxes_elsewhere == 0
               ? boxes
               : boxes + " " +
                     core::said("public.elsewhere", {{"boxes", std::to_string(plan.boxes_elsewhere)}});
}

std::string cautions_list() {
    std::vector<std::string> texts;
    for (const Caution& caution : cautions())
        texts.emplace_back(caution.text);
    return list_of(texts);
}

}  // namespace

std::string public_page(const PublicPlan& plan) {
    const Parts parts{{"style_source", [] { return content_source(page_style_sha256); }},
                      {"style", [] { return std::string(page_style); }},
                      {"site", [&] { return name(plan.site_name); }},
                      {"title", [&] { return html_text(plan.site_name); }},
                      {"animal", [&] { return html_text(plan.animal); }},
                      {"number",
                       [&] {
                           return html_text(core::said("plan.number", {{"number", plan.number}}));
                       }},
                      {"nobody_checked",
                       [&] {
                           return html_text(plan.nobody_checked.empty() ? core::said("first.all_checked")
                                                                        : plan.nobody_checked);
                       }},
                      {"caveat", [&] { return html_text(plan.caveat); }},
                      {"outcome", [&] { return html_text(outcome(plan)); }},
                      {"map", [&] { return map_of(plan); }},
                      {"squares", [&] { return table_of(plan); }},
                      {"grid",
                       [&] {
                           return html_text(core::said("public.grid", {{"crs", plan.crs_name}}));
                       }},
                      {"cannot_show", [&] { return list_of(plan.cannot_show); }},
                      {"cautions", [] { return cautions_list(); }}};
    return filled(public_frame, parts);
}

}  // namespace roostward::report
