#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/activity/evening_surfaces.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/figures.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t most_maps = 12, most_flights = 1500;
constexpr std::size_t shades = 7;
constexpr double kilometres = 0.001;

/// One scale for all evenings, so that they compare. Shades go by the root of the density, as on the large
/// map.
class Scale {
 public:
    explicit Scale(const plan::Plan& plan) {
        for (const core::Raster& surface : plan.evening_surfaces)
            for (const float value : surface.values)
                most_ = std::max(most_, static_cast<double>(value));
    }
    [[nodiscard]] std::size_t shade_of(float density) const {
        if (most_ <= 0.0) return 0;
        const double share = std::sqrt(static_cast<double>(density) / most_);
        return std::min(shades - 1, static_cast<std::size_t>(shades * share));
    }
    /// "none ▒ ▒ … 20" with the shades between: an evening by itself tells no more than little and much.
    [[nodiscard]] std::string key() const {
        std::string key = html_text(core::said("maps.scale")) + " 0 ";
        for (std::size_t shade = 0; shade < shades; ++shade)
            key += fmt::format(
                "<svg class=\"swatch\" viewBox=\"0 0 2 1\" aria-hidden=\"true\"><path "
                "class=\"shade-{}\" d=\"M0 .5h2\"/></svg> ",
                shade);
        return element("p class=\"note\"", key + rounded(rounded_figure(kilometres * most_, std::nullopt)));
    }

 private:
    double most_ = 0.0;
};

/// A small map of what was watched, in metres from its north-west corner.
class SmallMap {
 public:
    explicit SmallMap(const plan::Plan& plan)
        : plan_(plan),
          box_(core::widened(activity::known_box(plan.surfaces.flight_density), core::Metres(10.0))),
          scale_(plan) {}

    [[nodiscard]] std::string of_evening(std::size_t evening) const {
        const double width = box_.north_east.easting - box_.south_west.easting;
        const double height = box_.north_east.northing - box_.south_west.northing;
        const std::string svg =
            hatching() + density(evening) + outlines() + watches(evening) + flights(evening) + sites();
        return fmt::format(
            "<svg class=\"small-map\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-label=\"{}\">{}</svg>",
            width, height, html_text(words(evening)), svg);
    }

    [[nodiscard]] std::string key() const { return scale_.key(); }

    [[nodiscard]] std::string words(std::size_t evening) const {
        std::size_t flights = 0, unplaced = 0;
        for (const auto& flight : plan_.survey.flights)
            if (flight.evening == evening) ++(flight.placed ? flights : unplaced);
        return core::said("maps.words",
                          {{"flights", std::to_string(flights)}, {"unplaced", std::to_string(unplaced)}});
    }

 private:
    [[nodiscard]] std::string at(core::PlanePoint p) const {
        return fmt::format("{:.0f} {:.0f}", p.easting - box_.south_west.easting,
                           box_.north_east.northing - p.northing);
    }
    [[nodiscard]] std::string path(const geo::Line& line) const {
        std::string d;
        for (const auto point : line)
            d += (d.empty() ? "M" : "L") + at(point);
        return d;
    }

    /// Not watched: what no shade covers.
    [[nodiscard]] std::string hatching() const {
        const double width = box_.north_east.easting - box_.south_west.easting;
        const double height = box_.north_east.northing - box_.south_west.northing;
        std::string d;
        const double step = width / 40.0;
        const int strokes = static_cast<int>((width + height) / step);
        for (int i = 0; i <= strokes; ++i)
            d += fmt::format("M{:.0f} 0l{:.0f} {:.0f}", i * step, -height, height);
        return fmt::format("<path class=\"hatching\" d=\"{}\"/>", d);
    }

    /// Cells of one shade that lie side by side are one stroke.
    [[nodiscard]] std::string density(std::size_t evening) const {
        if (evening >= plan_.evening_surfaces.size()) return "";
        const core::Raster& surface = plan_.evening_surfaces[evening];
        const core::Grid& grid = surface.grid;
        std::array<std::string, shades> strokes;
        for (std::size_t row = 0; row < grid.rows; ++row)
            for (std::size_t column = 0; column < grid.columns;) {
                const auto shade = shade_at(surface, {row, column});
                std::size_t end = column + 1;
                while (end < grid.columns && shade_at(surface, {row, end}) == shade)
                    ++end;
                if (shade) strokes[*shade] += fmt::format("M{} {}h{}", column, row, end - column);
                column = end;
            }
        std::string paths;
        for (std::size_t shade = 0; shade < shades; ++shade)
            if (!strokes[shade].empty())
                paths += fmt::format("<path class=\"shade-{}\" d=\"{}\"/>", shade, strokes[shade]);
        return fmt::format("<g transform=\"translate({:.1f} {:.1f}) scale({:.3f})\">{}</g>",
                           grid.north_west.easting - box_.south_west.easting,
                           box_.north_east.northing - grid.north_west.northing + 0.5 * grid.cell.value(),
                           grid.cell.value(), paths);
    }
    [[nodiscard]] std::optional<std::size_t> shade_at(const core::Raster& surface, core::Cell cell) const {
        const std::size_t i = surface.grid.index(cell);
        return surface.known[i] == 0 ? std::nullopt : std::optional(scale_.shade_of(surface.values[i]));
    }

    [[nodiscard]] std::string outlines() const {
        std::string d;
        for (const auto& polygon : plan_.surroundings.allowed_area)
            d += path(polygon.outer) + "Z";
        return fmt::format("<path class=\"outline\" d=\"{}\"/>", d);
    }

    /// What could be seen from where somebody stood; of a walk its path.
    [[nodiscard]] std::string view(const survey::Watch& watch) const {
        if (watch.path.size() > 1) return fmt::format("<path class=\"walk\" d=\"{}\"/>", path(watch.path));
        const core::Metres seen = 2.0 * watch.range;
        if (!watch.view)
            return fmt::format("<circle class=\"view\" cx=\"{:.0f}\" cy=\"{:.0f}\" r=\"{:.0f}\"/>",
                               watch.path.front().easting - box_.south_west.easting,
                               box_.north_east.northing - watch.path.front().northing, seen.value());
        const core::Degrees half = watch.view->width / 2.0;
        return fmt::format("<path class=\"view\" d=\"M{0}L{1}A{2:.0f} {2:.0f} 0 {3} 1 {4}Z\"/>",
                           at(watch.path.front()),
                           at(core::moved(watch.path.front(), watch.view->look - half, seen)), seen.value(),
                           watch.view->width > core::Degrees(180.0) ? 1 : 0,
                           at(core::moved(watch.path.front(), watch.view->look + half, seen)));
    }

    [[nodiscard]] std::string watches(std::size_t evening) const {
        std::string svg;
        for (std::size_t w = 0; w < plan_.survey.watches.size(); ++w)
            if (plan_.survey.watch_evening[w] == evening) svg += view(plan_.survey.watches[w]);
        return svg;
    }

    /// Of very many flights every second, third … is drawn.
    [[nodiscard]] std::string flights(std::size_t evening) const {
        std::vector<const survey::Flight*> all;
        for (const auto& flight : plan_.survey.flights)
            if (flight.evening == evening && flight.placed) all.push_back(&flight);
        const std::size_t step = 1 + all.size() / most_flights;
        std::string lines, points;
        for (std::size_t i = 0; i < all.size(); i += step) {
            const geo::Line& line = all[i]->path;
            (line.size() > 1 ? lines : points) += path(line) + (line.size() > 1 ? "" : "h0");
        }
        return fmt::format("<path class=\"flown\" d=\"{}\"/><path class=\"flown-point\" d=\"{}\"/>", lines,
                           points);
    }

    [[nodiscard]] std::string sites() const {
        std::string d;
        for (const std::size_t tree : plan_.chosen)
            d += "M" + at(plan_.trees.rows[tree].stem) + "m-8-8h16v16h-16z";
        return fmt::format("<path class=\"site\" d=\"{}\"/>", d);
    }

    const plan::Plan& plan_;
    core::Box box_;
    Scale scale_;
};

}  // namespace

std::string evening_maps(const plan::Plan& plan) {
    const SmallMap map(plan);
    std::string maps;
    const std::size_t count = std::min(most_maps, plan.survey.evenings.size());
    for (std::size_t i = 0; i < count; ++i)
        maps += fmt::format("<figure>{}<figcaption><b>{}</b> {}</figcaption></figure>", map.of_evening(i),
                            day(plan.survey.evenings[i].date), html_text(map.words(i)));
    std::string note = core::said("maps.note");
    if (count < plan.survey.evenings.size())
        note += " " + core::said("maps.more", {{"shown", std::to_string(count)},
                                               {"all", std::to_string(plan.survey.evenings.size())}});
    return element("div class=\"several wide-figures\"", maps) + map.key() +
           element("p class=\"note\"", html_text(note));
}

}  // namespace roostward::report
