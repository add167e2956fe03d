#include "layers.hpp"
#include "place_reader.hpp"
#include "row_clock.hpp"

namespace roostward::io {

namespace {

using trees::KnownRoost;
using trees::Lamp;

constexpr double most_animals = 1e6, most_lumens = 1e6, most_lux = 1e4, highest_lamp = 100.0;

template <class Quantity>
std::optional<Quantity> in_unit(std::optional<double> number) {
    return number ? std::optional(Quantity(*number)) : std::nullopt;
}

}  // namespace

UnplacedLayer<KnownRoost> read_roosts(const InputSource& source, const SiteClock& clock) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"date", {}, Dimension::plain, {{"seen"}, {"found"}}},
                           {"count", {}, Dimension::plain, {{"animals"}, {"number"}}}});
    UnplacedLayer<KnownRoost> roosts{facts_of_source(source), {}};
    OpenLayer layer(source, specs, roosts.facts);
    const PlaceReader place(layer, source, roosts.facts);
    const RowClock dates(clock, layer, source, {"date"});
    const Field &date = layer.fields.at("date"), &count = layer.fields.at("count");
    read_rows(layer, roosts, [&](const RowReader& row) {
        return KnownRoost{row.row().number, place.point(row), dates.date(row, date),
                          row.number(count, {0.0, most_animals})};
    });
    return roosts;
}

UnplacedLayer<Lamp> read_lamps(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"lumens", {}, Dimension::plain, {{"lm"}, {"flux"}}},
                           {"lux_at_10m", {}, Dimension::plain, {{"luxat10m"}}},
                           {"height_m", "m", Dimension::length, {{"height"}, {"mountingheight"}}}});
    UnplacedLayer<Lamp> lamps{facts_of_source(source), {}};
    OpenLayer layer(source, specs, lamps.facts);
    const PlaceReader place(layer, source, lamps.facts);
    const Field &lumens = layer.fields.at("lumens"), &lux = layer.fields.at("lux_at_10m"),
                &height = layer.fields.at("height_m");
    read_rows(layer, lamps, [&](const RowReader& row) {
        return Lamp{row.row().number, place.point(row),
                    in_unit<trees::Lumens>(row.number(lumens, {0.0, most_lumens, true})),
                    in_unit<trees::Lux>(row.number(lux, {0.0, most_lux, true})),
                    in_unit<core::Metres>(row.number(height, {0.0, highest_lamp, true}))};
    });
    return lamps;
}

}  // namespace roostward::io
