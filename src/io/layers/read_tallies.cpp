#include <algorithm>
#include <array>
#include <iterator>
#include <string>

#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"
#include "words/animal_columns.hpp"
#include "words/behaviour_words.hpp"
#include "words/bounds.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using survey::Tally;

const std::vector<FieldSpec>& tally_fields() {
    static const std::vector<FieldSpec> specs{
        {"watch", {}, Dimension::plain, {{"station"}, {"watchpoint"}, {"vantagepoint"}}},
        {"date", {}, Dimension::plain, {{"day"}, {"evening"}}},
        {"start", {}, Dimension::plain, {{"starttime"}, {"from"}, {"begin"}}},
        {"end", {}, Dimension::plain, {{"endtime"}, {"to"}, {"until"}}},
        {"count", {}, Dimension::plain, {{"number"}, {"passes"}, {"flights"}, {"bats"}, {"n"}}},
        {"along", {}, Dimension::plain, {{"route"}, {"line"}}},
        {"share", {}, Dimension::plain, {{"howmuch"}, {"proportion"}}},
        {"both_ways", {}, Dimension::plain, {{"bothdirections"}, {"twoway"}}},
        animal_field(),
        {"behaviour", {}, Dimension::plain, {{"behavior"}, {"activity"}}},
        {"lon1", {}, Dimension::angle, {}},
        {"lat1", {}, Dimension::angle, {}},
        {"lon2", {}, Dimension::angle, {}},
        {"lat2", {}, Dimension::angle, {}},
        {"x1", {}, Dimension::plain, {}},
        {"y1", {}, Dimension::plain, {}},
        {"x2", {}, Dimension::plain, {}},
        {"y2", {}, Dimension::plain, {}},
    };
    return specs;
}

/// "mostly" as three in four: common practice, no source.
constexpr std::array<Word<double>, 6> share_words = {
    {{"all", 1.0}, {"mostly", 0.75}, {"most", 0.75}, {"half", 0.5}, {"abouthalf", 0.5}, {"none", 0.0}}};

/// The two posts of a gate: from columns, or a line of two points.
class GateReader {
 public:
    GateReader(const OpenLayer& layer, const InputSource& source, LayerFacts& facts) {
        facts.present().crs = geo::wgs84();
        if (!PlaceReader::told(layer, "1")) return;
        first_.emplace(layer, source, facts, "1");
        if (!layer.rows->has_geometry()) second_.emplace(layer, source, facts, "2");
    }

    [[nodiscard]] geo::Line operator()(const RowReader& row) const {
        if (!first_ || (first_->blank(row) && (!second_ || second_->blank(row)))) return {};
        geo::Line gate;
        if (second_)
            gate = {first_->point(row), second_->point(row)};
        else
            gate = first_->line(row, {"finding.gate_in_parts", "finding.gate_without_length"});
        if (!row.report().usable()) return {};
        if (gate.size() != 2)
            row.report().set_aside("geometry", "not a gate",
                                   core::said("value.points", {{"count", gate.size()}}),
                                   core::said("finding.not_a_gate"));
        else if (gate[0] == gate[1])
            row.report().set_aside("geometry", "line without length", "",
                                   core::said("finding.gate_without_length"));
        return gate;
    }

 private:
    std::optional<PlaceReader> first_, second_;
};

class TallyReader {
 public:
    TallyReader(const InputSource& source, const SiteClock& clock, const WatchHours& watches,
                OpenLayer& layer, AnimalColumns& animals, LayerFacts& facts)
        : fields_(layer.fields),
          animals_(animals),
          gate_(layer, source, facts),
          clock_(clock, watches, layer, source, facts.report, {"date", "start", "end"}) {}

    [[nodiscard]] Tally operator()(const RowReader& row) const {
        Tally tally;
        tally.row = row.report().row();
        tally.watch = row.text(fields_.at("watch"));
        take_times(row, tally);
        tally.count = count(row);
        tally.along = route(row);
        tally.gate = gate_(row);
        tally.share = share(row, tally);
        tally.both_ways = row.yes_no(fields_.at("both_ways")).value_or(true);
        tally.behaviour = behaviour(row, fields_.at("behaviour"));
        tally.animal = animals_.animal_in(row);
        return tally;
    }

 private:
    void take_times(const RowReader& row, Tally& tally) const {
        const Field &date = fields_.at("date"), &start = fields_.at("start"), &end = fields_.at("end");
        if (says_nothing(row.text(start)) && says_nothing(row.text(end))) {
            if (const auto day = clock_.date(row, date)) tally.evening = core::Evening{*day};
            if (tally.watch.empty() && row.report().usable())
                row.report().set_aside("watch", "no watch", "", core::said("finding.tally_without_watch"));
            return;
        }
        const auto stretch = clock_.stretch(row, date, start, end, tally.watch);
        if (!stretch) return;
        tally.start = stretch->start.instant;
        tally.end = stretch->end;
        tally.evening = stretch->start.evening;
        if (*tally.end <= *tally.start)
            row.report().set_aside("end", "ends before it starts", row.text(end),
                                   core::said("finding.ends_before_start"));
    }

    [[nodiscard]] double count(const RowReader& row) const {
        const Field& field = fields_.at("count");
        const Bound& bound = bounds::flights_in_a_tally;
        const auto count = row.number(field, bound.possible, OtherwiseRow::is_set_aside);
        if (count && *count > bound.doubtful)
            row.report().doubt(
                field.name, "large count", row.text(field),
                core::said("finding.large_tally", {{"count", *count}, {"usual", bound.doubtful}}));
        if (!count && row.report().usable())
            row.report().set_aside("count", "no count", row.text(field),
                                   core::said("finding.tally_without_count"));
        return count.value_or(0.0);
    }

    [[nodiscard]] std::string route(const RowReader& row) const {
        std::string along = row.text(fields_.at("along"));
        return says_nothing(along) ? "" : along;
    }

    /// A word, a share, or per cent.
    [[nodiscard]] double share(const RowReader& row, const Tally& tally) const {
        const Field& field = fields_.at("share");
        const std::string written = row.text(field);
        if (says_nothing(written)) return 1.0;
        if (tally.along.empty() && tally.gate.empty()) {
            row.report().doubt("share", "share of no route", written,
                               core::said("finding.share_of_no_route"));
            return 1.0;
        }
        if (const auto known = read_word<double>(written, share_words)) return *known;
        const auto number = read_number(written);
        const bool per_cent = number && (number->unit == "%" || number->value > 1.0);
        const double share = !number ? -1.0 : per_cent ? number->value / 100.0 : number->value;
        if (share >= 0.0 && share <= 1.0 && (number->unit.empty() || number->unit == "%")) return share;
        row.report().set_aside("share", "unknown share", written, core::said("finding.unknown_share"));
        return 1.0;
    }

    const FieldMap& fields_;
    AnimalColumns& animals_;
    GateReader gate_;
    RowClock clock_;
};

}  // namespace

UnplacedTallies read_tallies(const InputSource& source, const SiteClock& clock, const WatchHours& watches,
                             const survey::AnimalDictionary& dictionary) {
    UnplacedTallies tallies{{facts_of_source(source), {}}, {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, tally_fields(), tallies.facts);
        AnimalColumns animals(layer, dictionary, source);
        const TallyReader reader(file, clock, watches, layer, animals, tallies.facts);
        read_rows(layer, tallies, reader);
        animals.tell(tallies.facts.report);
    }
    const auto without = std::stable_partition(tallies.rows.begin(), tallies.rows.end(),
                                               [](const Tally& tally) { return !tally.gate.empty(); });
    tallies.without_gate.assign(std::make_move_iterator(without),
                                std::make_move_iterator(tallies.rows.end()));
    tallies.rows.erase(without, tallies.rows.end());
    return tallies;
}

const std::vector<FieldSpec>& fields_of_tallies() {
    return tally_fields();
}

}  // namespace roostward::io
