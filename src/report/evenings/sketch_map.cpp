#include "evenings/sketch_map.hpp"

#include <algorithm>
#include <vector>

#include "ground_drawing.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::report {

namespace {

constexpr core::Metres about{60.0}, beside{20.0};
constexpr double least_side = 240.0;  // m

void draw_ground(const plan::EveningsPlan& plan, GroundDrawing& drawing) {
    drawing.polygons(plan.surroundings.allowed_area, "area");
    drawing.shapes(plan.surroundings.water.shapes, "water");
    drawing.roads(plan.surroundings.roads.shapes);
    for (const geo::Line& path : plan.paths)
        drawing.line(path, "path");
    drawing.polygons(plan.keep_out, "keep-out");
    for (std::size_t i = 0; i < plan.trees.rows.size(); ++i)
        if (plan.verdicts[i].state <= trees::State::settle_first)
            drawing.dot(plan.trees.rows[i].stem, "tree");
}

void draw_round(const plan::EveningsPlan& plan, const DrawnRound& drawn, GroundDrawing& drawing) {
    geo::Line way;
    for (const evenings::Post& post : drawn.round.posts) {
        way.push_back(plan.to_come.places[post.place].position);
        if (post.view)
            drawing.sector(way.back(), post.farthest_seen, post.view->look, post.view->width, "view");
        else
            drawing.circle(way.back(), post.farthest_seen, "view");
    }
    if (way.size() > 1) drawing.line(way, "round");
    for (std::size_t i = 0; i < way.size(); ++i)
        drawing.lettered(way[i], drawn.before_letter + post_letter(i));
}

}  // namespace

std::string post_letter(std::size_t post) {
    return std::string(1, static_cast<char>('A' + post % 26));
}

std::string sketch_map(const plan::EveningsPlan& plan, const core::Box& shown,
                       std::span<const DrawnRound> rounds, std::string_view title, double most_width,
                       double most_height) {
    GroundDrawing drawing(shown, most_width, most_height);
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
