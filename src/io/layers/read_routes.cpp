#include <set>
#include <string>

#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"

namespace roostward::io {

namespace {

using survey::Route;

constexpr PlaceReader::OtherLines other_lines{
    "one route is one line: give each part a row and a name of its own",
    "draw the route from one end to the other"};

/// Sets aside rows whose name is missing or was given to another route.
class NameReader {
 public:
    explicit NameReader(const Field& field) : field_(field) {}

    [[nodiscard]] std::string operator()(const RowReader& row) {
        std::string name = row.text(field_);
        if (says_nothing(name)) {
            row.report().set_aside(field_.name, "route without a name", "",
                                   "name it as the notes do, as \"creek\"");
        } else if (row.report().usable() && !known_.insert(bare_word(name)).second) {
            row.report().set_aside(field_.name, "name used twice", name,
                                   "another route has this name: give each its own");
        }
        return name;
    }

 private:
    const Field& field_;
    std::set<std::string> known_;
};

}  // namespace

UnplacedLayer<Route> read_routes(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"name", {}, Dimension::plain, {{"route"}, {"label"}}}});
    UnplacedLayer<Route> routes{facts_of_source(source), {}};
    OpenLayer layer(source, specs, routes.facts);
    if (!layer.rows->has_geometry()) {
        cannot_use(
            source,
            "routes are lines, and this format has none. Give GeoJSON, GeoPackage or another map format.");
    }
    const PlaceReader place(layer, source, routes.facts);
    NameReader name(layer.fields.at("name"));
    read_rows(layer, routes, [&](const RowReader& row) {
        geo::Line line = place.line(row, other_lines);
        return Route{row.row().number, name(row), std::move(line)};
    });
    return routes;
}

}  // namespace roostward::io
