#include <array>
#include <set>
#include <string>

#include "layers/layers.hpp"
#include "places/tree_or_place.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/bearings.hpp"
#include "roostward/io/wind.hpp"
#include "words/bounds.hpp"
#include "words/planned_rows.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using survey::Watch;

const std::vector<FieldSpec>& watch_fields() {
    static const std::vector<FieldSpec> specs = with_place_fields(with_planned_fields({
        {"watch", {}, Dimension::plain, {{"id"}, {"name"}, {"station"}, {"watchpoint"}, {"vantagepoint"}}},
        {"date", {}, Dimension::plain, {{"day"}, {"evening"}}},
        {"start", {}, Dimension::plain, {{"starttime"}, {"from"}, {"begin"}, {"started"}}},
        {"end", {}, Dimension::plain, {{"endtime"}, {"to"}, {"finish"}, {"until"}, {"stop"}, {"ended"}}},
        {"farthest_seen_m",
         "m",
         Dimension::length,
         {{"farthestseen"}, {"howfar"}, {"howfarm"}, {"visibilitym"}}},
        {"range_m", "m", Dimension::length, {}},
        {"look_deg", {}, Dimension::angle, {{"look"}, {"looking"}, {"facing"}, {"facingdeg"}}},
        {"view_deg", {}, Dimension::angle, {{"view"}, {"fieldofview"}, {"fov"}}},
        {"observer", {}, Dimension::plain, {{"who"}, {"surveyor"}}},
        {"seen_by", {}, Dimension::plain, {{"method"}, {"equipment"}}},
        {"temp_c", {}, Dimension::temperature, {{"temp"}, {"temperature"}, {"temperaturec"}}},
        {"wind_ms", {}, Dimension::speed, {{"wind"}, {"windspeedms"}}},
        {"rain", {}, Dimension::plain, {{"wet"}}},
        {"near_tree", {}, Dimension::plain, {{"nearesttree"}, {"bytree"}, {"attree"}}},
    }));
    return specs;
}

constexpr std::array<Word<bool>, 6> rain_words = {
    {{"dry", false}, {"light", true}, {"heavy", true}, {"drizzle", true}, {"wet", true}, {"rain", true}}};

class WatchReader {
 public:
    WatchReader(const InputSource& source, const SiteClock& clock, OpenLayer& layer, LayerFacts& facts)
        : fields_(layer.fields),
          place_(layer, source, facts, layer.fields.at("near_tree")),
          clock_(clock, layer, source, facts.report, {"date", "start", "end"}),
          planned_(facts, layer.fields) {}

    [[nodiscard]] DateOrder date_order() const { return clock_.date_order(); }

    [[nodiscard]] MaybePlaced<Watch> operator()(const RowReader& row) const {
        MaybePlaced<Watch> made;
        Watch& watch = made.record;
        if (!was_held(row)) return made;
        watch.row = row.report().row();
        watch.name = row.text(fields_.at("watch"));
        if (watch.name.empty())
            watch.name = core::said("name.row", {{"row", row.report().name_of(watch.row)}});
        watch.path = {place_.take(row, made.elsewhere)};
        take_times(row, watch);
        watch.range = range(row);
        watch.view = view(row);
        watch.observer = row.text(fields_.at("observer"));
        watch.seen_by = row.text(fields_.at("seen_by"));
        if (const auto t = row.number(fields_.at("temp_c"), bounds::temperature_c))
            watch.temperature = core::Celsius(*t);
        watch.wind = wind(row);
        watch.rain = rain(row);
        return made;
    }

 private:
    /// What was planned is no watch until somebody wrote from when to when it was held.
    [[nodiscard]] bool was_held(const RowReader& row) const {
        if (!planned_.has(row)) return true;
        const bool began = !says_nothing(row.text(fields_.at("start")));
        const bool ended = !says_nothing(row.text(fields_.at("end")));
        if (began && ended) return true;
        if (!began && !ended)
            planned_.set_apart(row, "not held yet", "finding.not_held_yet");
        else
            row.report().set_aside(began ? "end" : "start", "half of the hours", "",
                                   core::said(began ? "finding.start_alone" : "finding.end_alone"));
        return false;
    }

    void take_times(const RowReader& row, Watch& watch) const {
        const auto date_of = planned_.has(row) ? RowClock::DateOf::evening : RowClock::DateOf::start;
        const auto stretch =
            clock_.stretch(row, fields_.at("date"), fields_.at("start"), fields_.at("end"), {}, date_of);
        if (!stretch) return;
        watch.start = stretch->start.instant;
        watch.end = stretch->end;
        watch.evening = stretch->start.evening;
        judge_length(watch, row.report());
    }

    static void judge_length(const Watch& watch, LayerReport& report) {
        const double hours = watch.hours().value();
        if (hours < 0.0)
            report.set_aside("end", "ends before it starts", core::said("value.hours", {{"hours", hours}}),
                             core::said("finding.ends_before_start"));
        if (hours == 0.0)
            report.set_aside("end", "watch of no length", core::said("value.no_hours"),
                             core::said("finding.watch_of_no_length"));
        if (hours > bounds::watch_hours) {
            report.set_aside("end", "watch of over 12 hours", core::said("value.hours", {{"hours", hours}}),
                             core::said("finding.watch_too_long"));
        }
    }

    /// Half of how far a pass could be seen is the half-normal's scale.
    [[nodiscard]] core::Metres range(const RowReader& row) const {
        if (const auto scale = seen_to(row, fields_.at("range_m"), bounds::range_m))
            return core::Metres(*scale);
        if (const auto farthest = seen_to(row, fields_.at("farthest_seen_m"), bounds::farthest_seen_m))
            return core::Metres(*farthest / 2.0);
        row.report().doubt("farthest_seen_m", "how far was not told", "",
                           core::said("finding.range_by_eye", {{"metres", 2.0 * range_by_eye.value()}}));
        return range_by_eye;
    }

    [[nodiscard]] static std::optional<double> seen_to(const RowReader& row, const Field& field,
                                                       const Bound& bound) {
        const std::optional<double> metres = row.number(field, bound.possible);
        if (metres && *metres > bound.doubtful)
            row.report().doubt(
                field.name, "farther than people see", row.text(field),
                core::said("finding.far_seen", {{"metres", *metres}, {"usual", bound.doubtful}}));
        return metres;
    }

    /// Metres a second, or what people say of the wind.
    [[nodiscard]] std::optional<core::MetresPerSecond> wind(const RowReader& row) const {
        const Field& field = fields_.at("wind_ms");
        const std::string written = row.text(field);
        if (const auto speed = wind_in_words(written)) {
            row.report().doubt(field.name, "wind in words", written,
                               core::said("finding.wind_in_words", {{"speed", speed->value()}}));
            return speed;
        }
        const std::optional<double> speed = row.number(field, bounds::wind_ms);
        return speed ? std::optional(core::MetresPerSecond(*speed)) : std::nullopt;
    }

    [[nodiscard]] std::optional<survey::FieldOfView> view(const RowReader& row) const {
        const std::optional<double> width = row.number(fields_.at("view_deg"), {0.0, 360.0, true});
        const std::string look = row.text(fields_.at("look_deg"));
        if (!width || *width >= 360.0) return std::nullopt;
        const Reading<double> reading =
            says_nothing(look) ? Trouble{"no look_deg", "finding.no_look"} : read_bearing(look);
        if (const double* degrees = value_in(reading))
            return survey::FieldOfView{core::Degrees(*degrees), core::Degrees(*width)};
        row.report().set_aside(
            "look_deg", trouble_in(reading).kind, look,
            core::said("finding.look_or_all_round", {{"sentence", core::said(trouble_in(reading).key)}}));
        return std::nullopt;
    }

    /// yes, no, how it rained, or how many millimetres.
    [[nodiscard]] std::optional<bool> rain(const RowReader& row) const {
        const Field& field = fields_.at("rain");
        const std::string written = row.text(field);
        if (const std::optional<bool> known = read_word<bool>(written, rain_words)) return known;
        const std::optional<WrittenNumber> amount = read_number(written);
        if (amount && (amount->unit.empty() || amount->unit == "mm")) return amount->value > 0.0;
        return row.yes_no(field);
    }

    const FieldMap& fields_;
    TreeOrPlace place_;
    RowClock clock_;
    PlannedRows planned_;
};

}  // namespace

UnplacedWatches read_watches(const InputSource& source, const SiteClock& clock) {
    UnplacedWatches watches{{facts_of_source(source), {}}, {}};
    std::set<DateOrder> orders;
    for (const InputSource& file : each_file(source)) {
        if (is_gpx_of_tracks(file)) {
            read_gpx_watches(file, clock, watches);
            continue;
        }
        OpenLayer layer(file, watch_fields(), watches.facts);
        const WatchReader reader(file, clock, layer, watches.facts);
        if (reader.date_order() != DateOrder::unknown) orders.insert(reader.date_order());
        read_placed_or_not(layer, watches, reader);
    }
    if (orders.size() == 1) watches.date_order = *orders.begin();
    return watches;
}

const std::vector<FieldSpec>& fields_of_watches() {
    return watch_fields();
}

}  // namespace roostward::io
