#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

UnplacedLayer<GroundShape> read_shapes(const InputSource& source, bool polygons_only) {
    static const std::vector<FieldSpec> specs = with_place_fields({});
    UnplacedLayer<GroundShape> shapes{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, shapes.facts);
        const PlaceReader place(layer, file, shapes.facts);
        read_rows(layer, shapes, [&](const RowReader& row) {
            GroundShape ground{row.report().row(), place.shape(row)};
            const bool others = !ground.shape.points.empty() || !ground.shape.lines.empty();
            if (row.report().usable() && polygons_only && (others || ground.shape.polygons.empty()))
                row.report().set_aside("geometry", "not a polygon", "",
                                       core::said("finding.area_not_polygon"));
            return ground;
        });
    }
    return shapes;
}

}  // namespace

UnplacedLayer<GroundShape> read_allowed_area(const InputSource& source) {
    return read_shapes(source, true);
}

UnplacedLayer<GroundShape> read_features(const InputSource& source) {
    return read_shapes(source, false);
}

}  // namespace roostward::io
