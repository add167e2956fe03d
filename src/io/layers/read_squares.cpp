#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

UnplacedLayer<NamedGround> read_squares(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"square", {}, Dimension::plain, {{"name"}, {"label"}, {"cell"}, {"id"}}}});
    UnplacedLayer<NamedGround> squares{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, squares.facts);
        const PlaceReader place(layer, file, squares.facts);
        const Field& field = layer.fields.at("square");
        read_rows(layer, squares, [&](const RowReader& row) {
            NamedGround square{row.report().row(), row.text(field), place.shape(row)};
            LayerReport& report = row.report();
            if (!report.usable()) return square;
            if (square.shape.polygons.empty())
                report.set_aside("geometry", "not a polygon", "", core::said("finding.square_not_polygon"));
            else if (says_nothing(square.name))
                report.set_aside(field.name, "square without a name", "",
                                 core::said("finding.square_without_name"));
            return square;
        });
    }
    return squares;
}

}  // namespace roostward::io
