#include "recognise/recognise_pairing.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "layers/layers.hpp"
#include "recognise/recognise_fields.hpp"
#include "recognise/recognise_word_lists.hpp"

namespace roostward::io {

namespace {

NameMatch name_match(const ColumnName& name, const FieldWords& words) {
    NameMatch best;
    const auto look = [&](const std::vector<ListedWord>& list, bool metric) {
        for (const ListedWord& word : list) {
            const int score = match(name, word);
            if (score > best.score) best = {score, metric, word.bare};
        }
    };
    look(words.english, false);
    look(words.others, true);
    const bool vetoed =
        std::ranges::any_of(words.never, [&](const ListedWord& w) { return match(name, w) > 0; });
    return vetoed ? NameMatch{} : best;
}

bool mostly(std::size_t part, const ColumnSample& column) {
    return column.filled > 0 && part * 10 >= column.filled * 9;
}

bool any_matches(const ColumnName& name, const std::vector<ListedWord>& words) {
    return std::ranges::any_of(words, [&](const ListedWord& word) { return match(name, word) > 0; });
}

/// Beside a column for the genus, that of the species holds the second half of the Latin name.
bool is_half_a_name(const LayerSample& sample, std::size_t column, const NameMatch& name) {
    static const std::vector<ListedWord> genus =
        word_list("genus gattung =genre género geslacht =genere slægt släkte");
    static const std::set<std::string> of_the_species{"species", "art",    "espece",
                                                      "especie", "specie", "soort"};
    return of_the_species.contains(name.stem) && !holds_latin_names(sample.columns[column]) &&
           std::ranges::any_of(sample.columns,
                               [&](const ColumnSample& other) { return any_matches(other.parts, genus); });
}

/// Numbers that a program gives to any row, beside those that stand on the tree.
bool is_any_row(const ColumnName& name) {
    static const std::vector<ListedWord> any = word_list(
        "id objectid fid gid globalid uniqueid number no nr nummer num numero lfdnr code codigo codice");
    return std::ranges::any_of(any, [&](const ListedWord& word) { return name.joined == word.bare; });
}

/// Beside a distance, a direction is the way from the station; else the way that animals flew.
int preferred_direction(const LayerSample& sample, const NameMatch& name, std::string_view field) {
    static const std::vector<ListedWord> distance =
        word_list("distance entfernung =abstand afstand distanza distancia avstånd");
    static const std::set<std::string> either{"direction", "richtung", "richting", "direccion",
                                              "direzione", "retning",  "riktning"};
    if (!either.contains(name.stem)) return 0;
    const bool from_station = std::ranges::any_of(
        sample.columns, [&](const ColumnSample& c) { return any_matches(c.parts, distance); });
    return (field == "direction") == from_station ? 0 : -2000;
}

/// What values say for a column beside another whose name is as good.
int preference(const LayerSample& sample, std::size_t i, std::string_view field) {
    const ColumnSample& column = sample.columns[i];
    if (field == "tree" && is_any_row(column.parts)) return -600;
    if (field == "species" && holds_latin_names(column)) return holds_two_words(column) ? 2000 : 0;
    const bool tells_units = column.with_unit * 2 > column.filled;
    return tells_units && (field == "height_m" || field == girth_field || field == "dbh_cm") ? 50 : 0;
}

}  // namespace

const std::vector<FieldSpec>* fields_read_of(std::string_view role) {
    if (role == "trees") return &fields_of_trees();
    if (role == "passes") return &fields_of_passes();
    if (role == "watches") return &fields_of_watches();
    if (role == "tracks") return &fields_of_tracks();
    if (role == "tallies") return &fields_of_tallies();
    return role == "boxes" ? &fields_of_boxes() : nullptr;
}

bool is_read(std::string_view role, std::string_view field) {
    const std::vector<FieldSpec>* const specs = fields_read_of(role);
    const bool stands_for_another = field == girth_field || field == crown_width_field;
    return specs == nullptr || stands_for_another ||
           std::ranges::find(*specs, field, &FieldSpec::name) != specs->end();
}

std::vector<Pairing> pairings_of(const LayerSample& sample, std::string_view role) {
    std::vector<Pairing> pairings;
    for (const FieldWords& words : field_words()) {
        if (words.role != role || std::ranges::find(place_fields, words.field) != place_fields.end())
            continue;
        for (std::size_t i = 0; i < sample.columns.size(); ++i) {
            const NameMatch name = name_match(sample.columns[i].parts, words);
            if (name.score == 0 || !is_read(role, words.field) ||
                (words.field == "species" && is_half_a_name(sample, i, name)))
                continue;
            int score = name.score + preference(sample, i, words.field);
            if (role == "passes") score += preferred_direction(sample, name, words.field);
            if (score > 0) pairings.push_back({score, i, &words, name});
        }
    }
    std::ranges::stable_sort(pairings, std::ranges::greater(), &Pairing::score);
    return pairings;
}

bool values_fit(const LayerSample& sample, const ColumnSample& column, std::string_view field) {
    using Set = std::set<std::string_view>;
    static const Set numeric{"dbh_cm", girth_field, "height_m", "crown_radius_m", crown_width_field,
                             "lumens", "count",     "temp_c",   "wind_ms",        "farthest_seen_m"};
    static const Set dates{"inspected", "work_due", "date"}, times{"time", "start", "end"};
    if (column.filled == 0) return false;
    if (field == "tree" && sample.source.role == "trees") return column.distinct(sample.rows);
    if (field == "height_m") return column.all_numeric() && height_guess(column, {}).has_value();
    if (numeric.contains(field))
        return column.numeric * 10 >= column.filled * 6 && (column.with_unit > 0 || column.highest() > 0.0);
    if (dates.contains(field))
        return mostly(column.dates, column) || (field != "date" && column.all_numeric());
    if (times.contains(field))
        return mostly(column.times, column) || mostly(column.dates, column) || column.all_numeric();
    if (field == "condition") return condition_values(column).has_value();
    if (field == "has_hollow" || field == "protected") return yes_no_values(column).has_value();
    if (field == "species" || field == "owner") return !column.all_numeric();
    return true;
}

std::optional<std::size_t> column_named(const LayerSample& sample, std::string_view role,
                                        std::string_view field) {
    std::optional<std::size_t> best;
    int score = 0;
    for (const FieldWords& words : field_words()) {
        if (words.role != role || words.field != field) continue;
        for (std::size_t i = 0; i < sample.columns.size(); ++i) {
            const int found = name_match(sample.columns[i].parts, words).score;
            if (found > score) best = i;
            score = std::max(score, found);
        }
    }
    return best;
}

}  // namespace roostward::io
