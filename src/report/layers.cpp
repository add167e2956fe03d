#include "roostward/report/layers.hpp"

#include <memory>
#include <utility>

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
    return {
        std::move(name),
        with_direction ? geo::GeometryKind::line : geo::GeometryKind::point,
        plan.planning_crs,
        {{"evening", ColumnKind::text},
         {"watch", ColumnKind::text},
         {"count", ColumnKind::number},
         {"length_m", ColumnKind::number},
         {"from", ColumnKind::text},
         {"row", ColumnKind::whole}},
        chosen->size(),
        [&plan, chosen, with_direction](std::size_t i) {
            const survey::Flight& flight = *(*chosen)[i];
            geo::Geometry place =
                with_direction ? geo::Geometry(flight.path) : geo::Geometry(flight.path.front());
            return geo::Feature{
                std::move(place),
                {core::to_text(plan.survey.evenings[flight.evening]),
                 flight.watch ? Document(plan.survey.watches[*flight.watch].name) : Document(), flight.count,
                 flight.length.value(), flight.from_track ? "tracks" : "passes", flight.row}};
        }};
}

geo::Layer watches(const plan::Plan& plan) {
    std::vector<geo::Feature> features;
    for (const auto& watch : plan.survey.watches)
        features.push_back({watch.path.front(),
                            {watch.name, core::to_text(watch.evening), core::to_text(watch.start),
                             core::to_text(watch.end), watch.hours().value(), watch.range.value(),
                             watch.observer.empty() ? Document() : Document(watch.observer)}});
    return composed(plan, "watches", geo::GeometryKind::point,
                    {{"watch", ColumnKind::text},
                     {"evening", ColumnKind::text},
                     {"start", ColumnKind::text},
                     {"end", ColumnKind::text},
                     {"hours", ColumnKind::number},
                     {"range_m", ColumnKind::number},
                     {"observer", ColumnKind::text}},
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
            {roost.position,
             {roost.date ? Document(core::to_text(*roost.date)) : Document(), roost.count, roost.row}});
    return composed(plan, "roosts", geo::GeometryKind::point,
                    {{"date", ColumnKind::text}, {"count", ColumnKind::number}, {"row", ColumnKind::whole}},
                    std::move(features));
}

geo::Layer lamps(const plan::Plan& plan) {
    const auto number = [](const auto& quantity) {
        return quantity ? Document(quantity->value()) : Document();
    };
    std::vector<geo::Feature> features;
    for (const auto& lamp : plan.surroundings.lamps.rows)
        features.push_back(
            {lamp.position, {number(lamp.lumens), number(lamp.lux_at_10m), number(lamp.height), lamp.row}});
    return composed(plan, "lamps", geo::GeometryKind::point,
                    {{"lumens", ColumnKind::number},
                     {"lux_at_10m", ColumnKind::number},
                     {"height_m", ColumnKind::number},
                     {"row", ColumnKind::whole}},
                    std::move(features));
}

/// One layer a kind of geometry, as a GIS wants them.
std::vector<geo::Layer> avoided(const plan::Plan& plan) {
    std::vector<geo::Feature> points, lines, areas;
    for (const auto& avoid : plan.surroundings.avoid)
        for (const auto& shape : avoid.shapes) {
            const std::vector<Document> values{avoid.reason, avoid.within.value(), trees::to_text(avoid.then),
                                               avoid.file};
            for (const auto& point : shape.points)
                points.push_back({point, values});
            for (const auto& line : shape.lines)
                lines.push_back({line, values});
            if (!shape.polygons.empty()) areas.push_back({shape.polygons, values});
        }
    const std::vector<geo::Column> columns{{"reason", ColumnKind::text},
                                           {"within_m", ColumnKind::number},
                                           {"then", ColumnKind::text},
                                           {"file", ColumnKind::text}};
    std::vector<geo::Layer> layers;
    const auto add = [&](const char* name, geo::GeometryKind kind, std::vector<geo::Feature> features) {
        if (!features.empty()) layers.push_back(composed(plan, name, kind, columns, std::move(features)));
    };
    add("avoid_points", geo::GeometryKind::point, std::move(points));
    add("avoid_lines", geo::GeometryKind::line, std::move(lines));
    add("avoid_areas", geo::GeometryKind::polygons, std::move(areas));
    return layers;
}

}  // namespace

std::vector<geo::Layer> all_layers(const plan::Plan& plan) {
    std::vector<geo::Layer> layers{ranked_sites(plan),
                                   other_trees(plan),
                                   flight_lines(plan),
                                   flights(plan, "flights", true),
                                   flights(plan, "flights_without_bearing", false),
                                   watches(plan)};
    if (!plan.surroundings.allowed_area.empty()) layers.push_back(allowed_area(plan));
    if (plan.surroundings.known_roosts.given()) layers.push_back(known_roosts(plan));
    if (plan.surroundings.lamps.given()) layers.push_back(lamps(plan));
    for (auto& layer : avoided(plan))
        layers.push_back(std::move(layer));
    return layers;
}

}  // namespace roostward::report
