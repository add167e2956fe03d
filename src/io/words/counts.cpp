#include "words/counts.hpp"

#include <algorithm>
#include <array>
#include <sstream>
#include <string>
#include <variant>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

using NumberWord = Word<double>;
constexpr std::array<NumberWord, 62> number_words = {
    {{"one", 1},       {"single", 1},    {"lone", 1},    {"two", 2},     {"pair", 2},   {"pairs", 2},
     {"three", 3},     {"four", 4},      {"five", 5},    {"six", 6},     {"seven", 7},  {"eight", 8},
     {"nine", 9},      {"ten", 10},      {"eleven", 11}, {"twelve", 12}, {"dozen", 12}, {"twenty", 20},
     {"half", 0.5},    {"ein", 1},       {"eine", 1},    {"einer", 1},   {"zwei", 2},   {"drei", 3},
     {"vier", 4},      {"f\u00FCnf", 5}, {"sechs", 6},   {"sieben", 7},  {"acht", 8},   {"neun", 9},
     {"zehn", 10},     {"dutzend", 12},  {"un", 1},      {"une", 1},     {"deux", 2},   {"trois", 3},
     {"quatre", 4},    {"cinq", 5},      {"sept", 7},    {"huit", 8},    {"neuf", 9},   {"dix", 10},
     {"douzaine", 12}, {"uno", 1},       {"una", 1},     {"dos", 2},     {"tres", 3},   {"cuatro", 4},
     {"cinco", 5},     {"seis", 6},      {"siete", 7},   {"ocho", 8},    {"nueve", 9},  {"diez", 10},
     {"docena", 12},   {"een", 1},       {"twee", 2},    {"drie", 3},    {"vijf", 5},   {"zes", 6},
     {"zeven", 7},     {"tien", 10}}};

constexpr std::array<std::string_view, 10> idle = {"a",    "an",     "the",     "of", "bat",
                                                   "bats", "animal", "animals", "x",  "de"};
constexpr std::array<std::string_view, 12> roughly = {"about",   "approx", "approx.", "around",
                                                      "roughly", "circa",  "ca",      "ca.",
                                                      "nearly",  "etwa",   "environ", "couple"};
constexpr std::array<std::string_view, 8> or_more = {"or", "to", "-", "oder", "bis", "ou", "o", "of"};
constexpr std::array<std::string_view, 21> uncounted = {
    "several", "many",      "lots",     "lot",     "some",   "few",     "loads",
    "plenty",  "numerous",  "multiple", "various", "paar",   "mehrere", "viele",
    "einige",  "plusieurs", "beaucoup", "varios",  "muchos", "veel",    "enkele"};

template <std::size_t Count>
bool one_of(std::string_view word, const std::array<std::string_view, Count>& words) {
    return std::ranges::find(words, word) != words.end();
}

struct WordedCount {
    std::optional<double> value;
    bool range = false;
    bool rough = false;
    bool uncounted = false;
    bool unknown = false;
};

WordedCount worded_count(const std::string& written) {
    WordedCount count;
    std::istringstream words(core::folded(written));
    for (std::string word; words >> word;) {
        if (word.size() > 1 && word.front() == 'x') word.erase(0, 1);
        const std::optional<WrittenNumber> figure = read_number(word);
        const std::optional<double> number = figure && figure->unit.empty()
                                                 ? std::optional(figure->value)
                                                 : read_word<double>(word, number_words);
        if (number) {
            count.value = count.value.value_or(1.0) * *number;
            count.range = count.range || (figure && figure->range);
        } else if (count.value && one_of(word, or_more)) {
            count.range = true;
            return count;
        } else if (one_of(word, uncounted)) {
            count.uncounted = true;
        } else if (one_of(word, roughly)) {
            count.rough = true;
            if (word == "couple") count.value = 2.0;
        } else if (!one_of(word, idle)) {
            count.unknown = true;
        }
    }
    return count;
}

std::optional<double> written_count(const RowReader& row, const Field& field) {
    const auto in_figures = [&] { return row.number(field, {}, OtherwiseRow::is_set_aside); };
    if (!field.column) return std::nullopt;
    const auto* text = std::get_if<std::string_view>(&row.row().values[*field.column]);
    if (text == nullptr || text->empty() || is_plain_number(*text)) return in_figures();
    const std::string written = row.text(field);
    const std::optional<WrittenNumber> figure = read_number(written);
    if (says_nothing(written) || (figure && fits(figure->unit, Dimension::plain))) return in_figures();
    const WordedCount count = worded_count(written);
    if (count.uncounted) {
        row.report().set_aside(field.name, "how many?", written, core::said("finding.how_many"));
        return std::nullopt;
    }
    if (count.unknown || !count.value) return in_figures();
    if (count.range)
        row.report().doubt(field.name, "range", written, core::said("finding.range_of_counts"));
    else if (count.rough)
        row.report().doubt(field.name, "rough count", written, core::said("finding.rough_count"));
    return count.value;
}

}  // namespace

std::optional<double> count_in(const RowReader& row, const Field& field, const Bound& bound) {
    const std::optional<double> count = written_count(row, field);
    if (!count || !row.report().usable()) return count;
    if (*count > bound.possible.most)
        row.report().set_aside(
            field.name, "impossible count", row.text(field),
            core::said("finding.impossible_count", {{"count", *count}, {"most", bound.possible.most}}));
    else if (*count > bound.doubtful)
        row.report().doubt(field.name, "large count", row.text(field),
                           core::said("finding.large_count", {{"count", *count}, {"usual", bound.doubtful}}));
    return count;
}

}  // namespace roostward::io
