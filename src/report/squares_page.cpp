#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/lettered_squares.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t columns_a_page = 10, rows_a_page = 13;
constexpr double mm_a_metre = 18.0 / 25.0;  ///< a square is 18 mm wide: 1 : 1389
constexpr double margin_mm = 7.0;

/// A part of the park on one sheet.
class Sheet {
 public:
    Sheet(const ParkMap& park, const std::vector<Square>& squares, core::Cell block)
        : park_(park), block_(block) {
        for (const Square& square : squares)
            if (square.column / columns_a_page == block.column && square.row / rows_a_page == block.row)
                squares_.push_back(&square);
        const Square& first = *squares_.front();
        const auto away = [](std::size_t from, std::size_t to) {
            return square_side.value() * (static_cast<double>(from) - static_cast<double>(to));
        };
        south_west_ = {first.box.south_west.easting - away(first.column, block.column * columns_a_page),
                       first.box.south_west.northing - away(first.row, block.row * rows_a_page)};
    }

    [[nodiscard]] std::string html() const {
        const double width = columns_a_page * 18.0 + 2.0 * margin_mm,
                     height = rows_a_page * 18.0 + 2.0 * margin_mm;
        std::string out = fmt::format(
            "<section><h1>{}</h1>\n",
            html_text(core::said(
                "squares.sheet",
                {{"park", park_.name}, {"first", squares_.front()->name}, {"last", squares_.back()->name}})));
        out += fmt::format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} "
            "{1}\">\n",
            width, height);
        out += squares() + area() + trees() + watches() + "</svg>\n" + legend() + "</section>\n";
        return out;
    }

 private:
    [[nodiscard]] double x(core::PlanePoint p) const {
        return margin_mm + mm_a_metre * (p.easting - south_west_.easting);
    }
    [[nodiscard]] double y(core::PlanePoint p) const {
        return margin_mm + rows_a_page * 18.0 - mm_a_metre * (p.northing - south_west_.northing);
    }
    [[nodiscard]] bool on_sheet(core::PlanePoint p) const {
        return std::ranges::any_of(squares_, [&](const Square* s) { return s->box.holds(p); });
    }

    [[nodiscard]] std::string squares() const {
        std::string out;
        for (const Square* square : squares_) {
            const core::PlanePoint corner{square->box.south_west.easting, square->box.north_east.northing};
            out += fmt::format(
                "<rect x=\"{0:.2f}\" y=\"{1:.2f}\" width=\"18\" height=\"18\" class=\"square\"/>"
                "<text x=\"{2:.2f}\" y=\"{3:.2f}\" class=\"name\">{4}</text>\n",
                x(corner), y(corner), x(corner) + 0.6, y(corner) + 3.4, square->name);
        }
        return out;
    }

    [[nodiscard]] std::string area() const {
        std::string path;
        const auto ring = [&](const geo::Line& line) {
            for (std::size_t i = 0; i < line.size(); ++i)
                path += fmt::format("{}{:.2f} {:.2f}", i == 0 ? "M" : "L", x(line[i]), y(line[i]));
            path += "Z";
        };
        for (const geo::Polygon& polygon : park_.allowed_area) {
            ring(polygon.outer);
            std::ranges::for_each(polygon.holes, ring);
        }
        return path.empty() ? "" : fmt::format("<path d=\"{}\" class=\"area\"/>\n", path);
    }

    [[nodiscard]] std::string trees() const {
        std::string out;
        for (const TaggedTree& tree : park_.trees)
            if (on_sheet(tree.stem))
                out += fmt::format(
                    "<circle cx=\"{0:.2f}\" cy=\"{1:.2f}\" r=\"0.7\"/><text x=\"{2:.2f}\" y=\"{3:.2f}\" "
                    "class=\"tag\">{4}</text>\n",
                    x(tree.stem), y(tree.stem), x(tree.stem) + 0.9, y(tree.stem) + 0.7, html_text(tree.tag));
        return out;
    }

    [[nodiscard]] std::string watches() const {
        std::string out;
        for (const core::PlanePoint watch : park_.watches)
            if (on_sheet(watch))
                out += fmt::format("<path d=\"M{0:.2f} {1:.2f}l1.6 2.8h-3.2Z\" class=\"watch\"/>\n", x(watch),
                                   y(watch) - 1.6);
        return out;
    }

    [[nodiscard]] static std::string legend() {
        return fmt::format(
            "<p><svg width=\"40mm\" height=\"7mm\" viewBox=\"0 0 40 7\"><path d=\"M1 2v3M1 3.5h{0}M{1} 2v3\" "
            "class=\"bar\"/></svg> {2} "
            "<svg width=\"8mm\" height=\"7mm\" viewBox=\"0 0 8 7\"><path d=\"M4 0.5l2 6l-2-1.6l-2 "
            "1.6Z\"/></svg> {3} "
            "&#8226; {4} &#9651; {5}</p>\n",
            50.0 * mm_a_metre, 1.0 + 50.0 * mm_a_metre, html_text(core::said("squares.bar")),
            html_text(core::said("squares.north")), html_text(core::said("squares.tree")),
            html_text(core::said("squares.watch")));
    }

    const ParkMap& park_;
    core::Cell block_;
    std::vector<const Square*> squares_;
    core::PlanePoint south_west_;
};

}  // namespace

std::string squares_page(const ParkMap& park, const std::vector<Square>& squares) {
    std::string out = R"(<!DOCTYPE html>
<html lang=")" + html_text(core::said("language")) +
                      R"("><head><meta charset="utf-8"><title>)" +
                      html_text(core::said("squares.title", {{"park", park.name}})) + R"(</title>
<style>
@page { size: A4 portrait; margin: 5mm }
body { font: 10pt sans-serif; margin: 0 }
section { break-after: page }
h1 { font-size: 12pt; margin: 0 }
p { margin: 0 }
.square { fill: none; stroke: #888; stroke-width: 0.15 }
.name { font-size: 3.4px; fill: #555 }
.tag { font-size: 1.9px }
.area { fill: none; stroke: #000; stroke-width: 0.6 }
.watch { fill: #fff; stroke: #000; stroke-width: 0.4 }
.bar { fill: none; stroke: #000; stroke-width: 0.5 }
</style></head><body>
)";
    std::set<std::pair<std::size_t, std::size_t>> blocks;
    for (const Square& square : squares)
        blocks.emplace(square.row / rows_a_page, square.column / columns_a_page);
    for (const auto& [row, column] : blocks)
        out += Sheet(park, squares, {row, column}).html();
    return out + "</body></html>\n";
}

}  // namespace roostward::report
