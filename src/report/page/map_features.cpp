#include "map_features.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "flights_behind.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

using core::Document;
using core::List;
using core::Object;

bool meet(const core::Box& a, const core::Box& b) {
    return a.south_west.easting <= b.north_east.easting && b.south_west.easting <= a.north_east.easting &&
           a.south_west.northing <= b.north_east.northing && b.south_west.northing <= a.north_east.northing;
}

bool touches(const core::Box& box, std::span<const core::PlanePoint> points) {
    const auto around = geo::box_of(points);
    return around && meet(*around, box);
}

/// Writes what lies in its box.
class Drawer {
 public:
    explicit Drawer(const core::Box& box) : box_(box) {}

    void place(List& list, core::PlanePoint point) const {
        list.emplace_back(std::llround(10.0 * (point.easting - box_.south_west.easting)));
        list.emplace_back(std::llround(10.0 * (point.northing - box_.south_west.northing)));
    }

    [[nodiscard]] List whole(std::span<const core::PlanePoint> line) const {
        List list;
        for (const auto point : line)
            place(list, point);
        return list;
    }

    /// The runs of a line whose pieces may touch the box.
    void add_runs(List& lines, const geo::Line& line) const {
        std::size_t start = 0;
        for (std::size_t i = 1; i <= line.size(); ++i) {
            const bool goes_on = i < line.size() && touches(box_, std::span(line).subspan(i - 1, 2));
            if (goes_on) continue;
            if (i - start > 1) lines.emplace_back(whole(std::span(line).subspan(start, i - start)));
            start = i;
        }
    }

    void add_polygon(List& polygons, const geo::Polygon& polygon) const {
        if (!touches(box_, polygon.outer)) return;
        List rings{whole(polygon.outer)};
        for (const auto& hole : polygon.holes)
            rings.emplace_back(whole(hole));
        polygons.emplace_back(std::move(rings));
    }

    [[nodiscard]] Object shapes(std::span<const geo::Shape> shapes) const {
        List points, lines, polygons;
        for (const auto& shape : shapes) {
            for (const auto point : shape.points)
                if (box_.holds(point)) place(points, point);
            for (const auto& line : shape.lines)
                add_runs(lines, line);
            for (const auto& polygon : shape.polygons)
                add_polygon(polygons, polygon);
        }
        return {
            {"points", std::move(points)}, {"lines", std::move(lines)}, {"polygons", std::move(polygons)}};
    }

    template <class Records>
    [[nodiscard]] Object places(const Records& records) const {
        List points;
        for (const auto& record : records.rows)
            if (box_.holds(record.position)) place(points, record.position);
        return {{"points", std::move(points)}, {"lines", List{}}, {"polygons", List{}}};
    }

 private:
    core::Box box_;
};

Object area_of(const plan::Plan& plan, const Drawer& draw) {
    return draw.shapes(std::vector<geo::Shape>{{{}, {}, plan.surroundings.allowed_area}});
}

List avoided_of(const plan::Plan& plan, const Drawer& draw) {
    List list;
    for (const auto& layer : plan.surroundings.avoid)
        list.emplace_back(Object{{"reason", layer.reason},
                                 {"within", layer.within.value()},
                                 {"shapes", draw.shapes(layer.shapes)}});
    return list;
}

/// Which ways a line is flown: as drawn, back, or both where the rarer way has a quarter of the flights and
/// more.
Document arrows(const std::vector<Heading>& flights) {
    double ahead = 0.0, all = 0.0;
    for (const Heading& flight : flights) {
        all += flight.animals;
        if (flight.ahead) ahead += flight.animals;
    }
    if (all <= 0.0) return {};
    return 4.0 * ahead > 3.0 * all ? "ahead" : 4.0 * ahead < all ? "back" : "both";
}

List lines_of(const plan::Plan& plan, const Drawer& draw) {
    const auto behind = flights_behind_lines(plan);
    List list;
    for (std::size_t i = 0; i < plan.flight_lines.size(); ++i) {
        const auto& line = plan.flight_lines[i];
        list.emplace_back(Object{{"id", line.id},
                                 {"path", draw.whole(line.path)},
                                 {"density", per_hectare(line.flight_density)},
                                 {"arrows", arrows(behind[i])}});
    }
    return list;
}

List watches_of(const plan::Plan& plan, const Drawer& draw) {
    List list;
    for (const auto& watch : plan.survey.watches) {
        Object object{
            {"name", watch.name}, {"path", draw.whole(watch.path)}, {"seen", 2.0 * watch.range.value()}};
        if (watch.view) {
            object.emplace_back("look", watch.view->look.value());
            object.emplace_back("view", watch.view->width.value());
        }
        list.emplace_back(std::move(object));
    }
    return list;
}

/// Boxes that hang.
Object boxes_of(const plan::Plan& plan, const Drawer& draw) {
    core::Records<trees::HungBox> up;
    std::ranges::copy_if(plan.surroundings.boxes.rows, std::back_inserter(up.rows),
                         [](const trees::HungBox& box) { return box.hangs(); });
    return draw.places(up);
}

}  // namespace

core::Object map_features(const plan::Plan& plan, const core::Box& box) {
    const Drawer draw(box);
    const trees::Surroundings& around = plan.surroundings;
    return {{"area", area_of(plan, draw)},
            {"water", draw.shapes(around.water.shapes)},
            {"roads", draw.shapes(around.roads.shapes)},
            {"lamps", draw.places(around.lamps)},
            {"roosts", draw.places(around.known_roosts)},
            {"boxes", boxes_of(plan, draw)},
            {"avoid", avoided_of(plan, draw)},
            {"lines", lines_of(plan, draw)},
            {"watches", watches_of(plan, draw)}};
}

}  // namespace roostward::report
