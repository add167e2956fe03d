#include "evenings/sketch_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>

#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::report {

namespace {

constexpr core::Metres about{60.0}, beside{20.0};
constexpr double least_side = 240.0;  // m
constexpr double post_radius = 2.9;   // mm

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

class Drawing {
 public:
    Drawing(const core::Box& shown, double most_width, double most_height) : shown_(shown) {
        const double east = shown.north_east.easting - shown.south_west.easting;
        const double north = shown.north_east.northing - shown.south_west.northing;
        mm_a_metre_ = std::min(most_width / east, most_height / north);
        width_ = mm_a_metre_ * east;
        height_ = mm_a_metre_ * north;
    }

    void polygons(std::span<const geo::Polygon> polygons, std::string_view kind) {
        std::string path;
        for (const geo::Polygon& polygon : polygons) {
            if (!reaches(polygon.outer)) continue;
            add(path, polygon.outer, "Z");
            for (const geo::Line& hole : polygon.holes)
                add(path, hole, "Z");
        }
        put(path, kind);
    }
    void line(const geo::Line& line, std::string_view kind) {
        if (!reaches(line)) return;
        std::string path;
        add(path, line, "");
        put(path, kind);
    }
    void shapes(std::span<const geo::Shape> shapes, std::string_view kind) {
        for (const geo::Shape& shape : shapes) {
            polygons(shape.polygons, kind);
            for (const geo::Line& line : shape.lines)
                this->line(line, std::string(kind) + "-line");
        }
    }
    /// Of several within a millimetre the first.
    void tree(core::PlanePoint stem) {
        if (!shown_.holds(stem)) return;
        if (taken_.emplace(std::lround(x(stem)), std::lround(y(stem))).second)
            out_ += fmt::format("<circle class=\"tree\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\".8\"/>", x(stem),
                                y(stem));
    }
    /// A sector as far as one sees, or a circle.
    void view(core::PlanePoint at, const evenings::Post& post) {
        const double radius = mm_a_metre_ * post.farthest_seen.value();
        if (!post.view) {
            out_ += fmt::format("<circle class=\"view\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\"/>", x(at),
                                y(at), radius);
            return;
        }
        const auto end = [&](double turn) {
            const double bearing =
                (post.view->look.value() + turn * post.view->width.value()) * std::numbers::pi / 180.0;
            return fmt::format("{:.1f} {:.1f}", x(at) + radius * std::sin(bearing),
                               y(at) - radius * std::cos(bearing));
        };
        out_ +=
            fmt::format("<path class=\"view\" d=\"M{0:.1f} {1:.1f}L{2}A{3:.1f} {3:.1f} 0 {4} 1 {5}Z\"/>",
                        x(at), y(at), end(-0.5), radius, post.view->width.value() > 180.0 ? 1 : 0, end(0.5));
    }
    void post(core::PlanePoint at, const std::string& letter) {
        out_ += fmt::format(
            "<circle class=\"post\" cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"{2}\"/><text class=\"letter\" "
            "x=\"{0:.1f}\" y=\"{3:.1f}\">{4}</text>",
            x(at), y(at), post_radius, y(at) + 1.35, html_text(letter));
    }
    [[nodiscard]] std::string svg(std::string_view title) {
        bar();
        return fmt::format(
            "<svg class=\"sketch\" role=\"img\" aria-label=\"{0}\" width=\"{1:.1f}mm\" "
            "height=\"{2:.1f}mm\" viewBox=\"0 0 {1:.1f} {2:.1f}\"><rect class=\"sheet\" width=\"{1:.1f}\" "
            "height=\"{2:.1f}\"/>{3}</svg>",
            html_text(title), width_, height_, out_);
    }

 private:
    [[nodiscard]] double x(core::PlanePoint p) const {
        return mm_a_metre_ * (p.easting - shown_.south_west.easting);
    }
    [[nodiscard]] double y(core::PlanePoint p) const {
        return height_ - mm_a_metre_ * (p.northing - shown_.south_west.northing);
    }
    [[nodiscard]] bool reaches(const geo::Line& line) const {
        const auto box = geo::box_of(line);
        return box && meet(*box, shown_);
    }
    void add(std::string& path, const geo::Line& line, std::string_view end) const {
        for (std::size_t i = 0; i < line.size(); ++i)
            path += fmt::format("{}{:.1f} {:.1f}", i == 0 ? "M" : "L", x(line[i]), y(line[i]));
        path += end;
    }
    void put(const std::string& path, std::string_view kind) {
        if (!path.empty()) out_ += fmt::format("<path class=\"{}\" d=\"{}\"/>", kind, path);
    }
    void bar() {
        const double metres = bar_length(width_ / mm_a_metre_), length = mm_a_metre_ * metres;
        out_ += fmt::format(
            "<g class=\"bar\"><rect x=\"1\" y=\"{0:.1f}\" width=\"{1:.1f}\" height=\"7\"/><path "
            "d=\"M2 {2:.1f}v2.4h{3:.1f}v-2.4\"/><text x=\"{4:.1f}\" y=\"{5:.1f}\">{6}</text></g>"
            "<g class=\"north\"><path d=\"M{7:.1f} 2l2.4 7l-2.4 -1.8l-2.4 1.8Z\"/><text x=\"{7:.1f}\" "
            "y=\"12.6\">{8}</text></g>",
            height_ - 8.0, std::max(length, 16.0) + 3.0, height_ - 4.2, length,
            2.0 + 0.5 * std::max(length, 14.0), height_ - 5.0,
            html_text(core::said("evenings.bar", {{"metres", fmt::format("{:.0f}", metres)}})), width_ - 4.5,
            html_text(core::said("evenings.north")));
    }

    core::Box shown_;
    double mm_a_metre_ = 1.0, width_ = 0.0, height_ = 0.0;
    std::set<std::pair<long, long>> taken_;
    std::string out_;
};

void draw_ground(const plan::EveningsPlan& plan, Drawing& drawing) {
    drawing.polygons(plan.surroundings.allowed_area, "area");
    drawing.shapes(plan.surroundings.water.shapes, "water");
    drawing.shapes(plan.surroundings.roads.shapes, "road");
    for (const geo::Line& path : plan.paths)
        drawing.line(path, "path");
    drawing.polygons(plan.keep_out, "keep-out");
    for (std::size_t i = 0; i < plan.trees.rows.size(); ++i)
        if (plan.verdicts[i].state <= trees::State::settle_first) drawing.tree(plan.trees.rows[i].stem);
}

void draw_round(const plan::EveningsPlan& plan, const DrawnRound& drawn, Drawing& drawing) {
    geo::Line way;
    for (const evenings::Post& post : drawn.round.posts) {
        way.push_back(plan.to_come.places[post.place].position);
        drawing.view(way.back(), post);
    }
    if (way.size() > 1) drawing.line(way, "round");
    for (std::size_t i = 0; i < way.size(); ++i)
        drawing.post(way[i], drawn.before_letter + post_letter(i));
}

}  // namespace

std::string post_letter(std::size_t post) {
    return std::string(1, static_cast<char>('A' + post % 26));
}

std::string sketch_map(const plan::EveningsPlan& plan, const core::Box& shown,
                       std::span<const DrawnRound> rounds, std::string_view title, double most_width,
                       double most_height) {
    Drawing drawing(shown, most_width, most_height);
    draw_ground(plan, drawing);
    for (const DrawnRound& drawn : rounds)
        draw_round(plan, drawn, drawing);
    return drawing.svg(title);
}

core::Box about_round(const plan::EveningsPlan& plan, const evenings::Round& round) {
    std::vector<core::PlanePoint> places;
    for (const evenings::Post& post : round.posts)
        places.push_back(plan.to_come.places[post.place].position);
    if (places.empty()) places.push_back(plan.middle_in_plane);
    core::Box box = core::widened(*geo::box_of(places), about);
    const auto stretch = [](double& low, double& high) {
        const double missing = std::max(0.0, least_side - (high - low));
        low -= 0.5 * missing;
        high += 0.5 * missing;
    };
    stretch(box.south_west.easting, box.north_east.easting);
    stretch(box.south_west.northing, box.north_east.northing);
    return box;
}

core::Box all_ground(const plan::EveningsPlan& plan) {
    std::vector<core::PlanePoint> points;
    for (const geo::Polygon& polygon : plan.surroundings.allowed_area)
        points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
    for (const auto& evening : plan.to_come.evenings)
        for (const auto& round : evening.rounds)
            for (const auto& post : round.posts)
                points.push_back(plan.to_come.places[post.place].position);
    if (plan.surroundings.allowed_area.empty())
        for (std::size_t i = 0; i < plan.trees.rows.size(); ++i)
            if (plan.verdicts[i].state <= trees::State::settle_first)
                points.push_back(plan.trees.rows[i].stem);
    return core::widened(geo::box_of(points).value_or(core::Box{plan.middle_in_plane, plan.middle_in_plane}),
                         beside);
}

}  // namespace roostward::report
