#include <algorithm>

#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

template <class Judge>
UnplacedLayer<GroundShape> read_shapes(const InputSource& source, const Judge& judge) {
    static const std::vector<FieldSpec> specs = with_place_fields({});
    UnplacedLayer<GroundShape> shapes{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, shapes.facts);
        const PlaceReader place(layer, file, shapes.facts);
        read_rows(layer, shapes, [&](const RowReader& row) {
            GroundShape ground{row.report().row(), place.shape(row)};
            if (row.report().usable()) judge(ground.shape, row.report());
            return ground;
        });
    }
    return shapes;
}

bool has_length(const geo::Line& line) {
    return std::ranges::any_of(line, [&](core::PlanePoint point) { return point != line.front(); });
}

}  // namespace

UnplacedLayer<GroundShape> read_areas(const InputSource& source) {
    return read_shapes(source, [](const geo::Shape& shape, LayerReport& report) {
        if (shape.points.empty() && shape.lines.empty() && !shape.polygons.empty()) return;
        report.set_aside("geometry", "not a polygon", "", core::said("finding.area_not_polygon"));
    });
}

UnplacedLayer<GroundShape> read_paths(const InputSource& source) {
    return read_shapes(source, [](const geo::Shape& shape, LayerReport& report) {
        if (!shape.points.empty() || !shape.polygons.empty() || shape.lines.empty())
            report.set_aside("geometry", "not a line", "", core::said("finding.path_not_line"));
        else if (!std::ranges::all_of(shape.lines, has_length))
            report.set_aside("geometry", "line without length", "",
                             core::said("finding.path_without_length"));
    });
}

UnplacedLayer<GroundShape> read_features(const InputSource& source) {
    return read_shapes(source, [](const geo::Shape&, LayerReport&) {});
}

UnplacedLayer<survey::Station> read_stations(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"name", {}, Dimension::plain, {{"station"}, {"label"}, {"id"}}}});
    UnplacedLayer<survey::Station> stations{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, stations.facts);
        const PlaceReader place(layer, file, stations.facts);
        const Field& name = layer.fields.at("name");
        read_rows(layer, stations, [&](const RowReader& row) {
            return survey::Station{row.report().row(), place.point(row), row.text(name)};
        });
    }
    return stations;
}

}  // namespace roostward::io
