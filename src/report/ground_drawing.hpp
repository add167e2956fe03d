#pragma once

#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "roostward/core/grid.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::report {

/// A map in black and white as SVG, north of the grid up, with a scale bar. What is outside is left out. The
/// kinds are classes of sketch.css.
class GroundDrawing {
 public:
    /// No wider and no higher than told, in mm.
    GroundDrawing(const core::Box& shown, double most_width, double most_height);

    void polygons(std::span<const geo::Polygon> polygons, std::string_view kind);
    void line(const geo::Line& line, std::string_view kind);
    /// Lines get the kind with "-line" behind it.
    void shapes(std::span<const geo::Shape> shapes, std::string_view kind);
    /// A line is drawn double.
    void roads(std::span<const geo::Shape> shapes);
    /// A dot; of several of one kind within a millimetre the first.
    void dot(core::PlanePoint at, std::string_view kind);
    /// A circle, or a sector of it about a grid bearing.
    void circle(core::PlanePoint at, core::Metres radius, std::string_view kind);
    void sector(core::PlanePoint at, core::Metres radius, core::Degrees look, core::Degrees width,
                std::string_view kind);
    /// A circle with a letter or two in it.
    void lettered(core::PlanePoint at, const std::string& letter);

    /// `title` names it for those who cannot see it.
    [[nodiscard]] std::string svg(std::string_view title) const;

 private:
    [[nodiscard]] double x(core::PlanePoint p) const;
    [[nodiscard]] double y(core::PlanePoint p) const;
    [[nodiscard]] bool reaches(const geo::Line& line) const;
    void add(std::string& path, const geo::Line& line, std::string_view end) const;
    void put(const std::string& path, std::string_view kind);
    [[nodiscard]] std::string bar_and_north() const;

    core::Box shown_;
    double mm_a_metre_ = 1.0, width_ = 0.0, height_ = 0.0;
    std::set<std::pair<std::string, std::pair<long, long>>> taken_;
    std::string out_;
};

}  // namespace roostward::report
