#include "roostward/report/layers.hpp"

#include <memory>
#include <utility>

#include "planned_boxes.hpp"
#include "roostward/canopy/outlines.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

using core::Document;
using geo::ColumnKind;

/// A layer of features that were composed beforehand; for layers that are small.
geo::Layer composed(const plan::Plan& plan, std::string name, geo::GeometryKind kind,
                    std::vector<geo::Column> columns, std::vector<geo::Feature> features) {
    auto kept = std::make_shared<std::vector<geo::Feature>>(std::move(features));
    return {std::move(name),    kind,         plan.planning_crs,
            std::move(columns), kept->size(), [kept](std::size_t i) { return (*kept)[i]; }};
}

geo::Layer flights(const plan::Plan& plan, std::string name, bool with_direction) {
    auto chosen = std::make_shared<std::vector<const survey::Flight*>>();
    for (const auto& flight : plan.survey.flights)
        if (flight.placed && (flight.path.size() > 1) == with_direction) chosen->push_back(&flight);
    return {std::move(name),
            with_direction ? geo::GeometryKind::line : geo::GeometryKind::point,
            plan.planning_crs,
            {{"evening", ColumnKind::text},
             {"watch", ColumnKind::text},
             {"count", ColumnKind::number},
             {"length_m", ColumnKind::number},
             {"from", ColumnKind::text}},
            chosen->size(),
            [&plan, chosen, with_direction](std::size_t i) {
                const survey::Flight& flight = *(*chosen)[i];
                geo::Geometry place =
                    with_direction ? geo::Geometry(flight.path) : geo::Geometry(flight.path.front());
                return geo::Feature{
                    std::move(place),
                    {core::to_text(plan.survey.evenings[flight.evening]),
                     flight.watch ? Document(plan.survey.watches[*flight.watch].name) : Document(),
                     flight.count, flight.length.value(), std::string(survey::to_text(flight.noted_in))}};
            }};
}

const std::vector<geo::Column>& watch_columns() {
    static const std::vector<geo::Column> columns{
        {"watch", ColumnKind::text},      {"evening", ColumnKind::text},  {"start", ColumnKind::text},
        {"end", ColumnKind::text},        {"hours", ColumnKind::number},  {"range_m", ColumnKind::number},
        {"observer", ColumnKind::text},   {"seen_by", ColumnKind::text},  {"look_deg", ColumnKind::number},
        {"view_deg", ColumnKind::number}, {"temp_c", ColumnKind::number}, {"wind_ms", ColumnKind::number},
        {"rain", ColumnKind::truth}};
    return columns;
}

std::vector<Document> about(const plan::Plan& plan, const survey::Watch& watch) {
    const auto& view = watch.view;
    return {watch.name,
            core::to_text(watch.evening),
            core::to_text(watch.start),
            core::to_text(watch.end),
            watch.hours().value(),
            watch.range.value(),
            text(watch.observer),
            text(watch.seen_by),
            view ? Document(core::normalised(view->look + plan.meridian_convergence).value()) : Document(),
            view ? Document(view->width.value()) : Document(),
            number(watch.temperature),
            number(watch.wind),
            Document(watch.rain)};
}

/// Stations as points; walks, where there are any, as lines.
void append_watches(std::vector<geo::Layer>& layers, const plan::Plan& plan) {
    std::vector<geo::Feature> stations, walks;
    for (const auto& watch : plan.survey.watches) {
        const bool walked = watch.path.size() > 1;
        geo::Geometry place = walked ? geo::Geometry(watch.path) : geo::Geometry(watch.path.front());
        (walked ? walks : stations).push_back({std::move(place), about(plan, watch)});
    }
    layers.push_back(
        composed(plan, "watches", geo::GeometryKind::point, watch_columns(), std::move(stations)));
    if (!walks.empty())
        layers.push_back(
            composed(plan, "walked_watches", geo::GeometryKind::line, watch_columns(), std::move(walks)));
}

geo::Layer boxes_to_hang_layer(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const PlannedBox& box : planned_boxes(plan))
        features.push_back(
            {plan.trees.rows[box.tree].stem,
             {box.number, plan.candidates[box.tree].site, plan.trees.rows[box.tree].id,
              plan.mounting.height.value(), box.facing.value(), siting::compass_point(box.facing)}});
    return composed(plan, "boxes_to_hang", geo::GeometryKind::point,
                    {{"box", ColumnKind::whole},
                     {"site", ColumnKind::whole},
                     {"tree", ColumnKind::text},
                     {"mount_height_m", ColumnKind::number},
                     {"facing_deg", ColumnKind::number},
                     {"facing", ColumnKind::text}},
                    std::move(features));
}

geo::Layer canopy_gaps(const plan::Plan& plan) {
    const canopy::GapMap gaps =
        canopy::find_gaps(*plan.surroundings.canopy_height, plan.settings.suitability.gaps);
    std::vector<geo::Polygon> outlines = canopy::outlines_of(gaps);
    std::vector<geo::Feature> features;
    for (std::size_t i = 0; i < outlines.size(); ++i)
        features.push_back(
            {std::vector<geo::Polygon>{std::move(outlines[i])}, {i + 1, gaps.area[i].value()}});
    return composed(plan, "canopy_gaps", geo::GeometryKind::polygons,
                    {{"gap", ColumnKind::whole}, {"area_m2", ColumnKind::number}}, std::move(features));
}

/// Where animals were seen to come out or go in.
geo::Layer roost_sightings(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const auto& sighting : plan.surroundings.roosts)
        features.push_back({sighting.position, {sighting.what}});
    return composed(plan, "roost_sightings", geo::GeometryKind::point, {{"what", ColumnKind::text}},
                    std::move(features));
}

geo::Layer road_crossings(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const core::PlanePoint crossing : plan.surroundings.crossings)
        features.push_back({crossing, {"a flight line crosses a road"}});
    return composed(plan, "road_crossings", geo::GeometryKind::point, {{"what", ColumnKind::text}},
                    std::move(features));
}

geo::Layer allowed_area(const plan::Plan& plan) {
    return composed(plan, "allowed_area", geo::GeometryKind::polygons, {{"name", ColumnKind::text}},
                    {{plan.surroundings.allowed_area, {plan.settings.site_name}}});
}

geo::Layer known_roosts(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const auto& roost : plan.surroundings.known_roosts.rows)
        features.push_back(
            {roost.position, {roost.date ? Document(core::to_text(*roost.date)) : Document(), roost.count}});
    return composed(plan, "roosts", geo::GeometryKind::point,
                    {{"date", ColumnKind::text}, {"count", ColumnKind::number}}, std::move(features));
}

geo::Layer lamps(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const auto& lamp : plan.surroundings.lamps.rows)
        features.push_back(
            {lamp.position, {number(lamp.lumens), number(lamp.lux_at_10m), number(lamp.height)}});
    return composed(plan, "lamps", geo::GeometryKind::point,
                    {{"lumens", ColumnKind::number},
                     {"lux_at_10m", ColumnKind::number},
                     {"height_m", ColumnKind::number}},
                    std::move(features));
}

geo::Layer boxes(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const auto& box : plan.surroundings.boxes.rows)
        features.push_back({box.position,
                            {text(box.id), text(box.tree), text(box.design),
                             box.hung ? Document(core::to_text(*box.hung)) : Document(), number(box.facing),
                             number(box.mount_height), trees::to_text(box.status), text(box.animal)}});
    return composed(plan, "boxes", geo::GeometryKind::point,
                    {{"box", ColumnKind::text},
                     {"tree", ColumnKind::text},
                     {"design", ColumnKind::text},
                     {"hung", ColumnKind::text},
                     {"facing_deg", ColumnKind::number},
                     {"mount_height_m", ColumnKind::number},
                     {"status", ColumnKind::text},
                     {"animal", ColumnKind::text}},
                    std::move(features));
}

/// Shapes with what is told of each: one layer a kind of geometry, as a GIS wants them.
class ShapeLayers {
 public:
    void add(const geo::Shape& shape, const std::vector<Document>& values) {
        for (const auto& point : shape.points)
            points_.push_back({point, values});
        for (const auto& line : shape.lines)
            lines_.push_back({line, values});
        if (!shape.polygons.empty()) areas_.push_back({shape.polygons, values});
    }

    void append_to(std::vector<geo::Layer>& layers, const plan::Plan& plan, const std::string& name,
                   const std::vector<geo::Column>& columns) && {
        const auto append = [&](const char* what, geo::GeometryKind kind,
                                std::vector<geo::Feature> features) {
            if (!features.empty())
                layers.push_back(composed(plan, name + what, kind, columns, std::move(features)));
        };
        append("_points", geo::GeometryKind::point, std::move(points_));
        append("_lines", geo::GeometryKind::line, std::move(lines_));
        append("_areas", geo::GeometryKind::polygons, std::move(areas_));
    }

 private:
    std::vector<geo::Feature> points_, lines_, areas_;
};

void append_avoided(std::vector<geo::Layer>& layers, const plan::Plan& plan) {
    ShapeLayers avoided;
    for (const auto& avoid : plan.surroundings.avoid)
        for (const auto& shape : avoid.shapes)
            avoided.add(shape, {avoid.reason, avoid.within.value(), trees::to_text(avoid.then), avoid.file});
    std::move(avoided).append_to(layers, plan, "avoid",
                                 {{"reason", ColumnKind::text},
                                  {"within_m", ColumnKind::number},
                                  {"then", ColumnKind::text},
                                  {"file", ColumnKind::text}});
}

void append_features(std::vector<geo::Layer>& layers, const plan::Plan& plan, const std::string& name,
                     const trees::Features& features) {
    ShapeLayers shapes;
    for (const auto& shape : features.shapes)
        shapes.add(shape, {features.file});
    std::move(shapes).append_to(layers, plan, name, {{"file", ColumnKind::text}});
}

}  // namespace

std::vector<geo::Layer> all_layers(const plan::Plan& plan) {
    const trees::Surroundings& around = plan.surroundings;
    std::vector<geo::Layer> layers{ranked_sites(plan), other_trees(plan)};
    if (!plan.screening) {
        layers.insert(layers.end(),
                      {boxes_to_hang_layer(plan), flight_lines(plan), flights(plan, "flights", true),
                       flights(plan, "flights_without_bearing", false)});
        append_watches(layers, plan);
    }
    if (!around.allowed_area.empty()) layers.push_back(allowed_area(plan));
    if (around.canopy_height) layers.push_back(canopy_gaps(plan));
    if (around.known_roosts.given()) layers.push_back(known_roosts(plan));
    if (!around.roosts.empty()) layers.push_back(roost_sightings(plan));
    if (!around.crossings.empty()) layers.push_back(road_crossings(plan));
    if (around.lamps.given()) layers.push_back(lamps(plan));
    if (around.boxes.given()) layers.push_back(boxes(plan));
    append_features(layers, plan, "road", around.roads);
    append_features(layers, plan, "water", around.water);
    append_avoided(layers, plan);
    return layers;
}

}  // namespace roostward::report
