#include <string>

#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"
#include "words/animal_columns.hpp"
#include "words/counts.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using survey::Track;

const std::vector<FieldSpec>& track_fields() {
    static const std::vector<FieldSpec> specs = with_place_fields({
        {"time", {}, Dimension::plain, {{"datetime"}, {"timestamp"}, {"start"}, {"when"}}},
        {"date", {}, Dimension::plain, {{"day"}}},
        {"count", {}, Dimension::plain, {{"number"}, {"animals"}, {"bats"}, {"individuals"}, {"n"}}},
        {"watch", {}, Dimension::plain, {{"station"}, {"watchpoint"}, {"vantagepoint"}}},
        animal_field(),
    });
    return specs;
}

constexpr PlaceReader::OtherLines other_lines{"finding.flight_in_parts", "finding.flight_without_length"};

void read_drawn(const InputSource& source, const SiteClock& clock, const WatchHours& watches,
                const survey::AnimalDictionary& dictionary, UnplacedLayer<Track>& tracks) {
    OpenLayer layer(source, track_fields(), tracks.facts);
    if (!layer.rows->has_geometry()) {
        cannot_use(source, core::said("error.no_lines_for_tracks"));
    }
    const PlaceReader place(layer, source, tracks.facts);
    const RowClock times(clock, watches, layer, source, tracks.facts.report, {"time", "date"});
    const FieldMap& fields = layer.fields;
    AnimalColumns animals(layer, dictionary, source);
    read_rows(layer, tracks, [&](const RowReader& row) {
        Track track;
        track.row = row.report().row();
        track.path = place.line(row, other_lines);
        track.watch = row.text(fields.at("watch"));
        const RowTime time = times.at(row, fields.at("date"), fields.at("time"), track.watch);
        if (time.evening) track.evening = *time.evening;
        if (time.moment) track.time = time.moment->instant;
        track.count = count_in(row, fields.at("count"), bounds::animals_together).value_or(1.0);
        if (track.count <= 0.0 && row.report().usable()) {
            row.report().set_aside("count", "nothing counted", row.text(fields.at("count")),
                                   core::said("finding.flight_without_animal"));
        }
        track.animal = animals.animal_in(row);
        return track;
    });
    animals.tell(tracks.facts.report);
}

}  // namespace

UnplacedLayer<Track> read_tracks(const InputSource& source, const SiteClock& clock, const WatchHours& watches,
                                 const survey::AnimalDictionary& dictionary) {
    UnplacedLayer<Track> tracks{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        if (is_gpx_of_tracks(file))
            read_gpx_tracks(file, clock, tracks);
        else
            read_drawn(file, clock, watches, dictionary, tracks);
    }
    return tracks;
}

const std::vector<FieldSpec>& fields_of_tracks() {
    return track_fields();
}

}  // namespace roostward::io
