#include <set>
#include <string>

#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

UnplacedLayer<NamedGround> read_squares(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"square", {}, Dimension::plain, {{"name"}, {"label"}, {"cell"}, {"id"}}}});
    UnplacedLayer<NamedGround> squares{facts_of_source(source), {}};
    OpenLayer layer(source, specs, squares.facts);
    const PlaceReader place(layer, source, squares.facts);
    const Field& field = layer.fields.at("square");
    std::set<std::string> known;
    read_rows(layer, squares, [&](const RowReader& row) {
        NamedGround square{row.row().number, row.text(field), place.shape(row)};
        LayerReport& report = row.report();
        if (!report.usable()) return square;
        if (square.shape.polygons.empty())
            report.set_aside("geometry", "not a polygon", "", core::said("finding.square_not_polygon"));
        else if (says_nothing(square.name))
            report.set_aside(field.name, "square without a name", "",
                             core::said("finding.square_without_name"));
        else if (!known.insert(bare_word(square.name)).second)
            report.set_aside(field.name, "name used twice", square.name,
                             core::said("finding.square_name_twice"));
        return square;
    });
    return squares;
}

}  // namespace roostward::io
