#include <array>
#include <string>

#include "layers/layers.hpp"
#include "places/landmarks.hpp"
#include "places/notes_place.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/bearings.hpp"
#include "words/animal_columns.hpp"
#include "words/behaviour_words.hpp"
#include "words/counts.hpp"
#include "words/planned_rows.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using survey::PlaceOf;

const std::vector<FieldSpec>& pass_fields() {
    static const std::vector<FieldSpec> specs = with_place_fields(with_notes_fields(with_planned_fields({
        {"time", {}, Dimension::plain, {{"datetime"}, {"timestamp"}, {"clock"}, {"recordedat"}, {"when"}}},
        {"date", {}, Dimension::plain, {{"day"}, {"evening"}}},
        {"place_of", {}, Dimension::plain, {}},
        {"count", {}, Dimension::plain, {{"number"}, {"animals"}, {"bats"}, {"individuals"}, {"n"}}},
        {"bearing_deg", {}, Dimension::angle, {{"bearing"}, {"heading"}, {"flightdirection"}, {"course"}}},
        {"height_m",
         "m",
         Dimension::length,
         {{"height"}, {"flightheight"}, {"flightheightm"}, {"heightft", "ft"}}},
        {"accuracy_m", "m", Dimension::length, {{"accuracy"}, {"horizontalaccuracy"}, {"precisionm"}}},
        {"watch", {}, Dimension::plain, {{"station"}, {"watchpoint"}, {"vantagepoint"}}},
        {"observer",
         {},
         Dimension::plain,
         {{"who"}, {"writer"}, {"writtenby"}, {"notedby"}, {"recordedby"}, {"surveyor"}}},
        animal_field(),
        {"behaviour", {}, Dimension::plain, {{"behavior"}, {"activity"}}},
    })));
    return specs;
}

constexpr std::array<Word<PlaceOf>, 9> place_words = {{{"animal", PlaceOf::animal},
                                                       {"bat", PlaceOf::animal},
                                                       {"bird", PlaceOf::animal},
                                                       {"observer", PlaceOf::observer},
                                                       {"surveyor", PlaceOf::observer},
                                                       {"me", PlaceOf::observer},
                                                       {"recorder", PlaceOf::recorder},
                                                       {"detector", PlaceOf::recorder},
                                                       {"device", PlaceOf::recorder}}};

class PassReader {
 public:
    PassReader(const InputSource& source, const SiteClock& clock, const WatchHours& watches, OpenLayer& layer,
               AnimalColumns& animals, UnplacedPasses& passes)
        : fields_(layer.fields),
          animals_(animals),
          notes_(layer),
          ways_(passes.ways),
          clock_(clock, watches, layer, source, passes.facts.report, {"time", "date"}),
          planned_(passes.facts, layer.fields) {
        LayerFacts& facts = passes.facts;
        facts.present().crs = geo::wgs84();
        if (PlaceReader::told(layer) || !elsewhere_told()) place_.emplace(layer, source, facts);
        if (layer.fields.at("direction").given() && !layer.fields.at("distance_m").given()) {
            facts.report.doubt_layer("direction without distance", "",
                                     core::said("finding.direction_without_distance"));
        }
    }

    [[nodiscard]] MaybePlaced<Pass> operator()(const RowReader& row) const {
        MaybePlaced<Pass> made;
        if (planned_.has(row) && planned_.blank(row, {"date", "watch"})) {
            planned_.set_apart(row, "nothing written", "finding.nothing_written");
            return made;
        }
        Pass& pass = made.record;
        pass.row = row.report().row();
        pass.watch = row.text(watch_);
        const RowTime time = clock_.at(row, date_, time_, pass.watch);
        if (time.evening) pass.evening = *time.evening;
        if (time.moment) pass.time = time.moment->instant;
        pass.count = count_in(row, count_, bounds::animals_together).value_or(1.0);
        if (pass.count <= 0.0 && row.report().usable()) {
            row.report().set_aside("count", "nothing counted", row.text(count_),
                                   core::said("finding.pass_without_animal"));
        }
        pass.bearing = bearing(row);
        pass.accuracy = core::Metres(row.number(accuracy_, bounds::accuracy_m).value_or(0.0));
        pass.place_of =
            row.word<PlaceOf>(place_of_, place_words, "choices.place_of").value_or(PlaceOf::not_told);
        take_place(row, made);
        if (const auto height = row.number(height_, bounds::flight_height_m))
            pass.height = core::Metres(*height);
        pass.behaviour = behaviour(row, behaviour_);
        pass.animal = animals_.animal_in(row);
        if (const std::string observer = row.text(observer_); !says_nothing(observer))
            pass.observer = observer;
        return made;
    }

 private:
    [[nodiscard]] bool elsewhere_told() const { return notes_.told() || place_of_.given(); }

    void take_place(const RowReader& row, MaybePlaced<Pass>& made) const {
        Pass& pass = made.record;
        if (place_ && !(elsewhere_told() && place_->blank(row))) {
            const PlaceReader::Place place = place_->place(row);
            pass.position = place.point;
            pass.step = place.side;
            if (place.side.value() > 0.0) pass.accuracy = accuracy_in_square(pass.accuracy, place.side);
            return;
        }
        made.elsewhere = notes_.of(row);
        if (made.elsewhere || !row.report().usable()) return;
        // What an observer or recorder heard was at no place that counts: where they were will do.
        if (!pass.says_where()) {
            made.elsewhere = FromStation{};
        } else {
            row.report().set_aside("coordinates", "no coordinates", "",
                                   core::said("finding.pass_without_place"));
        }
    }

    [[nodiscard]] std::optional<core::Degrees> bearing(const RowReader& row) const {
        const std::string written = row.text(bearing_);
        if (says_nothing(written)) return std::nullopt;
        const Reading<double> reading = read_bearing(written);
        if (const double* degrees = value_in(reading)) return core::Degrees(*degrees);
        if (std::optional<NamedWay> way = read_named_way(written)) {
            ways_.push_back({row.report().row(), std::move(*way), written});
            return std::nullopt;
        }
        const Trouble& trouble = trouble_in(reading);
        row.report().doubt(bearing_.name, trouble.kind, written,
                           core::said("finding.no_bearing_until", {{"sentence", core::said(trouble.key)}}));
        return std::nullopt;
    }

    const FieldMap& fields_;
    AnimalColumns& animals_;
    std::optional<PlaceReader> place_;
    NotesPlace notes_;
    std::vector<PassWay>& ways_;
    RowClock clock_;
    PlannedRows planned_;
    const Field& time_ = fields_.at("time");
    const Field& date_ = fields_.at("date");
    const Field& count_ = fields_.at("count");
    const Field& bearing_ = fields_.at("bearing_deg");
    const Field& height_ = fields_.at("height_m");
    const Field& accuracy_ = fields_.at("accuracy_m");
    const Field& place_of_ = fields_.at("place_of");
    const Field& watch_ = fields_.at("watch");
    const Field& observer_ = fields_.at("observer");
    const Field& behaviour_ = fields_.at("behaviour");
};

}  // namespace

UnplacedPasses read_passes(const InputSource& source, const SiteClock& clock, const WatchHours& watches,
                           const survey::AnimalDictionary& dictionary) {
    UnplacedPasses passes{{facts_of_source(source), {}}, {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, pass_fields(), passes.facts);
        AnimalColumns animals(layer, dictionary, source);
        const PassReader reader(file, clock, watches, layer, animals, passes);
        read_placed_or_not(layer, passes, reader);
        animals.tell(passes.facts.report);
    }
    return passes;
}

const std::vector<FieldSpec>& fields_of_passes() {
    return pass_fields();
}

}  // namespace roostward::io
