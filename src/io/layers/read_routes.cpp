#include <set>
#include <string>

#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

using survey::Route;

constexpr PlaceReader::OtherLines other_lines{"finding.route_in_parts", "finding.route_without_length"};

/// Sets aside rows whose name is missing or was given to another route.
class NameReader {
 public:
    explicit NameReader(const Field& field) : field_(field) {}

    [[nodiscard]] std::string operator()(const RowReader& row) {
        std::string name = row.text(field_);
        if (says_nothing(name)) {
            row.report().set_aside(field_.name, "route without a name", "",
                                   core::said("finding.route_without_name"));
        } else if (row.report().usable() && !known_.insert(bare_word(name)).second) {
            row.report().set_aside(field_.name, "name used twice", name,
                                   core::said("finding.route_name_twice"));
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
        cannot_use(source, core::said("error.no_lines_for_routes"));
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
