#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/layers.hpp"
#include "roostward/report/line_words.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

using core::Document;
using geo::ColumnKind;

/// Rarer than one flight in ten against the others is hardly a way of its own; a quarter and more is.
constexpr double one_way_below = 0.2, both_ways_from = 0.5;
constexpr std::size_t lines_told = 2;

/// True axis in [0, 180).
core::Degrees true_axis(const plan::Plan& plan, core::Degrees in_grid) {
    const double bearing = core::normalised(in_grid + plan.meridian_convergence).value();
    return core::Degrees(bearing >= 180.0 ? bearing - 180.0 : bearing);
}

/// The axis of the flights behind the line; where no bearing was told, the way from end to end of the line.
core::Degrees course_of(const plan::Plan& plan, const activity::FlightLine& line) {
    return true_axis(
        plan, line.axis ? line.axis->bearing : core::grid_bearing(line.path.front(), line.path.back()));
}

/// "SSW–NNE"
std::string compass_axis(core::Degrees axis) {
    return fmt::format("{}–{}", point_in_words(axis + core::Degrees(180.0)), point_in_words(axis));
}

std::string ways(double two_way) {
    return core::said(two_way < one_way_below    ? "line.one_way"
                      : two_way < both_ways_from ? "line.mostly_one_way"
                                                 : "line.both_ways");
}

std::string sentence(const plan::Plan& plan, const activity::FlightLine& line) {
    return core::said("line", {{"line", line.id},
                               {"axis", compass_axis(course_of(plan, line))},
                               {"metres", 10.0 * std::round(0.1 * line.length.value())},
                               {"used", line.evenings_used},
                               {"watched", line.evenings_watched},
                               {"ways", line.two_way ? ways(*line.two_way) : ""}});
}

const std::vector<geo::Column>& columns() {
    static const std::vector<geo::Column> all{{"flight_line", ColumnKind::text},
                                              {"length_m", ColumnKind::number},
                                              {"flight_density", ColumnKind::number},
                                              {"evenings_used", ColumnKind::whole},
                                              {"evenings_watched", ColumnKind::whole},
                                              {"passes", ColumnKind::whole},
                                              {"runs", ColumnKind::text},
                                              {"axis_deg", ColumnKind::number},
                                              {"axis_resultant", ColumnKind::number},
                                              {"two_way", ColumnKind::number},
                                              {"flight_height_m", ColumnKind::number},
                                              {"stays_found", ColumnKind::number}};
    return all;
}

std::vector<Document> values(const plan::Plan& plan, const activity::FlightLine& line) {
    return {line.id,
            line.length.value(),
            per_hectare(line.flight_density),
            line.evenings_used,
            line.evenings_watched,
            line.passes,
            compass_axis(course_of(plan, line)),
            line.axis ? Document(true_axis(plan, line.axis->bearing).value()) : Document(),
            line.axis ? Document(line.axis->resultant) : Document(),
            line.two_way,
            line.height ? Document(line.height->value()) : Document(),
            line.steady};
}

}  // namespace

std::string about_lines(const plan::Plan& plan) {
    const auto& lines = plan.flight_lines;
    if (lines.empty()) return core::said("lines.none");
    std::string text = core::said("lines", {{"count", lines.size()}});
    for (std::size_t i = 0; i < std::min(lines.size(), lines_told); ++i)
        text = in_a_row({text, sentence(plan, lines[i])});
    return in_a_row({text, lines.size() > lines_told ? core::said("lines.more") : ""});
}

core::List lines_document(const plan::Plan& plan) {
    core::List list;
    for (const auto& line : plan.flight_lines) {
        std::vector<Document> all = values(plan, line);
        core::Object object;
        for (std::size_t i = 0; i < all.size(); ++i)
            object.emplace_back(columns()[i].name, std::move(all[i]));
        list.emplace_back(std::move(object));
    }
    return list;
}

geo::Layer flight_lines(const plan::Plan& plan) {
    return {"flight_lines",
            geo::GeometryKind::line,
            plan.planning_crs,
            columns(),
            plan.flight_lines.size(),
            [&plan](std::size_t i) {
                const auto& line = plan.flight_lines[i];
                return geo::Feature{line.path, values(plan, line)};
            }};
}

}  // namespace roostward::report
