#include "ground_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

constexpr double letter_radius = 2.9;  // mm

bool meet(const core::Box& a, const core::Box& b) {
    return a.south_west.easting <= b.north_east.easting && b.south_west.easting <= a.north_east.easting &&
           a.south_west.northing <= b.north_east.northing && b.south_west.northing <= a.north_east.northing;
}

/// The largest of 1, 2 and 5 · 10^k metres that is no more than a third of the map.
double bar_length(double metres_wide) {
    const double most = metres_wide / 3.0, decade = std::pow(10.0, std::floor(std::log10(most)));
    for (const double times : {5.0, 2.0})
        if (times * decade <= most) return times * decade;
    return decade;
}

}  // namespace

GroundDrawing::GroundDrawing(const core::Box& shown, double most_width, double most_height) : shown_(shown) {
    const double east = shown.north_east.easting - shown.south_west.easting;
    const double north = shown.north_east.northing - shown.south_west.northing;
    mm_a_metre_ = std::min(most_width / east, most_height / north);
    width_ = mm_a_metre_ * east;
    height_ = mm_a_metre_ * north;
}

void GroundDrawing::polygons(std::span<const geo::Polygon> polygons, std::string_view kind) {
    std::string path;
    for (const geo::Polygon& polygon : polygons) {
        if (!reaches(polygon.outer)) continue;
        add(path, polygon.outer, "Z");
        for (const geo::Line& hole : polygon.holes)
            add(path, hole, "Z");
    }
    put(path, kind);
}

void GroundDrawing::line(const geo::Line& line, std::string_view kind) {
    if (!reaches(line)) return;
    std::string path;
    add(path, line, "");
    put(path, kind);
}

void GroundDrawing::shapes(std::span<const geo::Shape> shapes, std::string_view kind) {
    for (const geo::Shape& shape : shapes) {
        polygons(shape.polygons, kind);
        for (const geo::Line& line : shape.lines)
            this->line(line, std::string(kind) + "-line");
    }
}

void GroundDrawing::roads(std::span<const geo::Shape> shapes) {
    this->shapes(shapes, "road");
    this->shapes(shapes, "road-middle");
}

void GroundDrawing::dot(core::PlanePoint at, std::string_view kind) {
    if (!shown_.holds(at)) return;
    if (taken_.emplace(std::string(kind), std::pair(std::lround(x(at)), std::lround(y(at)))).second)
        out_ +=
            fmt::format("<circle class=\"{}\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\".8\"/>", kind, x(at), y(at));
}

void GroundDrawing::circle(core::PlanePoint at, core::Metres radius, std::string_view kind) {
    out_ += fmt::format("<circle class=\"{}\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\"/>", kind, x(at), y(at),
                        mm_a_metre_ * radius.value());
}

void GroundDrawing::sector(core::PlanePoint at, core::Metres radius, core::Degrees look, core::Degrees width,
                           std::string_view kind) {
    const double mm = mm_a_metre_ * radius.value();
    const auto end = [&](double turn) {
        const double bearing = (look.value() + turn * width.value()) * std::numbers::pi / 180.0;
        return fmt::format("{:.1f} {:.1f}", x(at) + mm * std::sin(bearing), y(at) - mm * std::cos(bearing));
    };
    out_ += fmt::format("<path class=\"{}\" d=\"M{:.1f} {:.1f}L{}A{:.1f} {:.1f} 0 {} 1 {}Z\"/>", kind, x(at),
                        y(at), end(-0.5), mm, mm, width.value() > 180.0 ? 1 : 0, end(0.5));
}

void GroundDrawing::lettered(core::PlanePoint at, const std::string& letter) {
    out_ += fmt::format(
        "<circle class=\"post\" cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"{2}\"/><text class=\"letter\" "
        "x=\"{0:.1f}\" y=\"{3:.1f}\">{4}</text>",
        x(at), y(at), letter_radius, y(at) + 1.35, html_text(letter));
}

std::string GroundDrawing::svg(std::string_view title) const {
    return fmt::format(
        "<svg class=\"sketch\" role=\"img\" aria-label=\"{0}\" width=\"{1:.1f}mm\" "
        "height=\"{2:.1f}mm\" viewBox=\"0 0 {1:.1f} {2:.1f}\"><rect class=\"sheet\" width=\"{1:.1f}\" "
        "height=\"{2:.1f}\"/>{3}{4}</svg>",
        html_text(title), width_, height_, out_, bar_and_north());
}

double GroundDrawing::x(core::PlanePoint p) const {
    return mm_a_metre_ * (p.easting - shown_.south_west.easting);
}

double GroundDrawing::y(core::PlanePoint p) const {
    return height_ - mm_a_metre_ * (p.northing - shown_.south_west.northing);
}

bool GroundDrawing::reaches(const geo::Line& line) const {
    const auto box = geo::box_of(line);
    return box && meet(*box, shown_);
}

void GroundDrawing::add(std::string& path, const geo::Line& line, std::string_view end) const {
    for (std::size_t i = 0; i < line.size(); ++i)
        path += fmt::format("{}{:.1f} {:.1f}", i == 0 ? "M" : "L", x(line[i]), y(line[i]));
    path += end;
}

void GroundDrawing::put(const std::string& path, std::string_view kind) {
    if (!path.empty()) out_ += fmt::format("<path class=\"{}\" d=\"{}\"/>", kind, path);
}

std::string GroundDrawing::bar_and_north() const {
    const double metres = bar_length(width_ / mm_a_metre_), length = mm_a_metre_ * metres;
    return fmt::format(
        "<g class=\"bar\"><rect x=\"1\" y=\"{0:.1f}\" width=\"{1:.1f}\" height=\"7\"/><path "
        "d=\"M2 {2:.1f}v2.4h{3:.1f}v-2.4\"/><text x=\"{4:.1f}\" y=\"{5:.1f}\">{6}</text></g>"
        "<g class=\"north\"><path d=\"M{7:.1f} 2l2.4 7l-2.4 -1.8l-2.4 1.8Z\"/><text x=\"{7:.1f}\" "
        "y=\"12.6\">{8}</text></g>",
        height_ - 8.0, std::max(length, 16.0) + 3.0, height_ - 4.2, length,
        2.0 + 0.5 * std::max(length, 14.0), height_ - 5.0,
        html_text(core::said("sketch.bar", {{"metres", fmt::format("{:.0f}", metres)}})), width_ - 4.5,
        html_text(core::said("sketch.north")));
}

}  // namespace roostward::report
