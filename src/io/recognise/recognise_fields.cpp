#include "recognise/recognise_fields.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>
#include <set>

#include "recognise/recognise_pairing.hpp"
#include "recognise/recognise_places.hpp"
#include "recognise/recognise_words.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

std::string_view key_of(std::string_view field) {
    return field == girth_field ? "dbh_cm" : field;
}

class Assignment {
 public:
    Assignment(const LayerSample& sample, std::string_view role,
               const std::optional<core::GeographicPoint>& place)
        : sample_(sample), role_(role), custom_(custom_at(place)), taken_(sample.columns.size()) {
        take_places(place);
        take_names();
        if (role == "trees") take_by_values();
    }

    [[nodiscard]] FieldsFound found() && {
        measure_lengths();
        for (std::size_t i = 0; i < taken_.size(); ++i)
            if (taken_[i]) found_.fields.push_back(guess_of(i));
        take_what_the_reader_would();
        for (std::size_t i = 0; i < taken_.size(); ++i)
            if (!taken_[i] && !spoken_of_.contains(i)) found_.left.push_back(sample_.columns[i].name);
        return std::move(found_);
    }

 private:
    struct Taken {
        std::string field;  ///< girth_field too
        NameMatch name;
        std::string confirm;
        LengthGuess length;
    };

    [[nodiscard]] bool has(std::string_view key) const {
        return std::ranges::any_of(taken_, [&](const auto& t) { return t && key_of(t->field) == key; });
    }

    void take_places(const std::optional<core::GeographicPoint>& place) {
        if (!is_read(role_, "lon")) return;
        const auto columns = place_columns(sample_, role_, place);
        if (!columns) {
            for (std::size_t i = 0; sample_.has_geometry && i < taken_.size(); ++i)
                for (const std::string_view field : place_fields)
                    if (column_named(sample_, role_, field) == i) spoken_of_.insert(i);
            return;
        }
        taken_[columns->x] = Taken{columns->degrees ? "lon" : "x", {}, columns->confirm, {}};
        taken_[columns->y] = Taken{columns->degrees ? "lat" : "y", {}, columns->confirm, {}};
    }

    void take_names() {
        for (const Pairing& pairing : pairings_of(sample_, role_))
            consider(pairing);
    }

    void consider(const Pairing& pairing) {
        const ColumnSample& column = sample_.columns[pairing.column];
        const std::string_view field = pairing.words->field;
        if (taken_[pairing.column] || spoken_of_.contains(pairing.column)) return;
        if (field == crown_width_field)
            note(pairing.column, core::said("guess.crown_width", {{"column", column.name}}));
        else if (!values_fit(sample_, column, field))
            tell_misfit(pairing);
        else if (!has(key_of(field)))
            taken_[pairing.column] = Taken{std::string(field), pairing.name, {}, {}};
    }

    /// Where a name says a field that the values cannot be.
    void tell_misfit(const Pairing& pairing) {
        const ColumnSample& column = sample_.columns[pairing.column];
        const std::string_view key = key_of(pairing.words->field);
        if (column.filled == 0 || (key != "height_m" && key != "dbh_cm" && key != "condition")) return;
        const std::string& example = column.values.begin()->first;
        if (key == "height_m" && column.all_numeric() && !height_guess(column, {}))
            note(pairing.column,
                 core::said("guess.classes", {{"column", column.name}, {"values", values_told(column)}}));
        else if (key == "condition")
            note(pairing.column,
                 core::said("guess.condition", {{"column", column.name}, {"example", example}}));
        else if (!column.all_numeric())
            note(pairing.column, core::said("guess.no_number",
                                            {{"column", column.name}, {"field", key}, {"example", example}}));
    }

    void note(std::size_t column, std::string text) {
        spoken_of_.insert(column);
        found_.notes.push_back(std::move(text));
    }

    /// What values alone can tell: species by Latin names, condition by its words, the tree by being unique.
    void take_by_values() {
        for (std::size_t i = 0; i < taken_.size(); ++i) {
            const ColumnSample& column = sample_.columns[i];
            if (taken_[i] || spoken_of_.contains(i)) continue;
            if (!has("species") && holds_latin_names(column))
                taken_[i] = Taken{"species", {}, core::said("guess.latin_names"), {}};
            else if (!has("condition") && kinds_of_condition(column) >= 2 &&
                     share_of_condition_words(column) >= 0.8)
                taken_[i] = Taken{"condition", {}, core::said("guess.condition_words"), {}};
        }
        if (has("tree")) return;
        std::vector<std::size_t> unique;
        for (std::size_t i = 0; i < taken_.size(); ++i) {
            const ColumnSample& column = sample_.columns[i];
            const bool whole = column.numbers.empty() || column.share_whole() == 1.0;
            if (!taken_[i] && !spoken_of_.contains(i) && whole && column.dates == 0 &&
                column.distinct(sample_.rows))
                unique.push_back(i);
        }
        if (!unique.empty()) taken_[unique.front()] = Taken{"tree", {}, core::said("guess.unique"), {}};
    }

    [[nodiscard]] LengthHints hints_of(std::size_t column) const {
        const NameMatch& name = taken_[column]->name;
        return {unit_in(sample_.columns[column].parts, name.stem), name.metric_word, custom_};
    }

    /// Heights first: they help to tell the unit of trunks.
    void measure_lengths() {
        std::vector<double> heights;
        for (std::size_t i = 0; i < taken_.size(); ++i) {
            if (!taken_[i] || taken_[i]->field != "height_m") continue;
            taken_[i]->length = height_guess(sample_.columns[i], hints_of(i)).value_or(LengthGuess{});
            const std::string& unit = taken_[i]->length.unit;
            for (const double value : sample_.columns[i].by_row)
                heights.push_back(value * metres_in_one(unit.empty() ? "m" : unit));
        }
        for (std::size_t i = 0; i < taken_.size(); ++i) {
            if (!taken_[i]) continue;
            const std::string& field = taken_[i]->field;
            if (field == "dbh_cm" || field == girth_field)
                taken_[i]->length = trunk_guess(sample_.columns[i], told_around(i), hints_of(i), heights);
            else if (field == "crown_radius_m" || field == "farthest_seen_m")
                taken_[i]->length.unit = hints_of(i).unit;
        }
    }

    [[nodiscard]] Around told_around(std::size_t column) const {
        if (taken_[column]->field == girth_field) return Around::round;
        static const std::set<std::string> only_of_a_trunk{"trunk",  "stem",  "tronc",
                                                           "tronco", "stamm", "stam"};
        return only_of_a_trunk.contains(taken_[column]->name.stem) ? Around::not_told : Around::across;
    }

    [[nodiscard]] FieldGuess guess_of(std::size_t i) const {
        const ColumnSample& column = sample_.columns[i];
        const Taken& taken = *taken_[i];
        FieldGuess guess{std::string(key_of(taken.field)),
                         {column.name, taken.length.unit, taken.length.girth, {}},
                         taken.confirm};
        add_evidence(guess, taken.length.confirm);
        std::optional<ValuesGuess> values;
        if (guess.field == "condition") values = condition_values(column);
        if (guess.field == "has_hollow" || guess.field == "protected" || guess.field == "rain")
            values = yes_no_values(column);
        if (guess.field == "planned_work") values = nothing_planned(column);
        if (values) {
            guess.source.values = values->values;
            add_evidence(guess, values->confirm);
        }
        return guess;
    }

    static void add_evidence(FieldGuess& guess, const std::string& evidence) {
        if (!evidence.empty())
            guess.confirm = guess.confirm.empty()
                                ? evidence
                                : core::said("list.semicolon", {{"list", guess.confirm}, {"next", evidence}});
    }

    /// Words for no in a column of work mean that none is planned.
    static std::optional<ValuesGuess> nothing_planned(const ColumnSample& column) {
        ValuesGuess guess;
        for (const auto& [value, count] : column.values)
            for (const ValueWord& word : yes_no_words_of_the_world())
                // A letter may be a code of the work, as F for felling.
                if (word.ours == "no" && word.theirs.size() > 2 && word.theirs == taken_apart(value).joined)
                    guess.values[value] = "no";
        if (guess.values.empty()) return std::nullopt;
        guess.confirm = core::said("guess.nothing_planned");
        return guess;
    }

    /// Fields that the layer's own reader finds by name although nothing here took them.
    void take_what_the_reader_would() {
        const std::vector<FieldSpec>* const specs = fields_read_of(role_);
        if (specs == nullptr) return;
        std::vector<std::string> names;
        for (const ColumnSample& column : sample_.columns)
            names.push_back(column.name);
        InputSource source = sample_.source;
        for (const FieldGuess& guess : found_.fields)
            source.fields[guess.field] = guess.source;
        LayerReport unheard("", "");
        const FieldMap map(*specs, names, source, unheard);
        for (const FieldSpec& spec : *specs) {
            const Field& field = map.at(spec.name);
            if (!field.column || source.fields.contains(field.name)) continue;
            const bool repeats_geometry =
                sample_.has_geometry && std::ranges::find(place_fields, spec.name) != place_fields.end();
            if (repeats_geometry || taken_[*field.column]) continue;
            spoken_of_.insert(*field.column);
            const bool judged = std::ranges::any_of(field_words(), [&](const FieldWords& words) {
                return words.role == role_ && words.field == field.name;
            });
            found_.fields.push_back({field.name,
                                     {names[*field.column], {}, field.girth, {}},
                                     judged ? core::said("guess.by_name_only") : ""});
        }
    }

    const LayerSample& sample_;
    std::string_view role_;
    Custom custom_;
    std::vector<std::optional<Taken>> taken_;
    std::set<std::size_t> spoken_of_;
    FieldsFound found_;
};

}  // namespace

FieldsFound fields_of(const LayerSample& sample, std::string_view role,
                      const std::optional<core::GeographicPoint>& place) {
    FieldsFound found = Assignment(sample, role, place).found();
    const bool told_elsewhere =
        role == "tallies" || std::ranges::any_of(found.fields, [](const FieldGuess& guess) {
            static const std::set<std::string_view> instead{"distance_m", "square", "near_tree"};
            return instead.contains(guess.field);
        });
    if (sample.has_geometry || told_elsewhere || place_columns(sample, role, place)) return found;
    if (const auto pairs = column_of_pairs(sample))
        found.notes.push_back(core::said("guess.pairs", {{"column", *pairs}}));
    else
        found.notes.emplace_back(core::said("guess.no_place"));
    return found;
}

}  // namespace roostward::io
