#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

using survey::Route;

constexpr PlaceReader::OtherLines other_lines{"finding.route_in_parts", "finding.route_without_length"};

}  // namespace

UnplacedLayer<Route> read_routes(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"name", {}, Dimension::plain, {{"route"}, {"label"}}}});
    UnplacedLayer<Route> routes{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, routes.facts);
        if (!layer.rows->has_geometry()) cannot_use(file, core::said("error.no_lines_for_routes"));
        const PlaceReader place(layer, file, routes.facts);
        const Field& name = layer.fields.at("name");
        read_rows(layer, routes, [&](const RowReader& row) {
            Route route{row.report().row(), row.text(name), place.line(row, other_lines)};
            if (says_nothing(route.name))
                row.report().set_aside(name.name, "route without a name", "",
                                       core::said("finding.route_without_name"));
            return route;
        });
    }
    return routes;
}

}  // namespace roostward::io
