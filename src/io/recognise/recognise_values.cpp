#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "recognise/recognise_fields.hpp"
#include "recognise/recognise_words.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/tree_words.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

std::optional<std::string_view> meaning_of(const std::string& written, const std::vector<ValueWord>& words) {
    const std::string bare = taken_apart(written).joined;
    const auto found = std::ranges::find(words, bare, &ValueWord::theirs);
    return found == words.end() ? std::nullopt : std::optional(found->ours);
}

/// Share of the filled cells whose value is among the words.
double share_known(const ColumnSample& column, const std::vector<ValueWord>& words) {
    std::size_t known = 0, all = 0;
    for (const auto& [value, count] : column.values) {
        all += count;
        if (meaning_of(value, words)) known += count;
    }
    return all == 0 ? 0.0 : static_cast<double>(known) / static_cast<double>(all);
}

/// Codes 0 or 1 to 3, 4 or 5, each with how often it stands there.
std::optional<std::vector<std::pair<int, std::size_t>>> codes_in(const ColumnSample& column) {
    std::vector<std::pair<int, std::size_t>> codes;
    if (column.many || column.values.size() < 3 || column.values.size() > 6) return std::nullopt;
    for (const auto& [value, count] : column.values) {
        const std::optional<WrittenNumber> number = read_number(value);
        if (!number || number->value != std::floor(number->value) || number->value < 0.0 ||
            number->value > 5.0)
            return std::nullopt;
        codes.emplace_back(static_cast<int>(number->value), count);
    }
    std::ranges::sort(codes);
    return codes;
}

/// Words for so many steps, best first.
std::vector<const char*> steps(std::size_t count) {
    if (count == 3) return {"good", "fair", "poor"};
    if (count == 4) return {"good", "fair", "poor", "dead"};
    if (count == 5) return {"good", "good", "fair", "poor", "dead"};
    return {"good", "good", "fair", "fair", "poor", "dead"};
}

/// Most trees of an inventory are well: the end of the codes that stands more often is the good one.
std::optional<ValuesGuess> by_codes(const ColumnSample& column) {
    const auto codes = codes_in(column);
    if (!codes) return std::nullopt;
    const std::size_t half = codes->size() / 2;
    std::size_t low = 0, high = 0;
    for (std::size_t i = 0; i < half; ++i) {
        low += (*codes)[i].second;
        high += (*codes)[codes->size() - 1 - i].second;
    }
    if (std::max(low, high) * 10 < 13 * std::min(low, high)) return std::nullopt;
    const bool low_is_good = low > high;
    const std::vector<const char*> words = steps(codes->size());
    ValuesGuess guess;
    for (const auto& [value, count] : column.values) {
        const auto at = std::ranges::find(*codes, static_cast<int>(read_number(value)->value),
                                          &std::pair<int, std::size_t>::first) -
                        codes->begin();
        const auto step = static_cast<std::size_t>(at);
        guess.values[value] = words[low_is_good ? step : codes->size() - 1 - step];
    }
    guess.confirm = core::said(low_is_good ? "guess.low_codes" : "guess.high_codes",
                               {{"first", codes->front().first}, {"last", codes->back().first}});
    return guess;
}

/// As a literal of the filter's language.
std::string sql_text(const std::string& text) {
    std::string quoted = "'";
    for (const char c : text)
        quoted += c == '\'' ? "''" : std::string(1, c);
    return quoted + "'";
}

}  // namespace

double share_of_condition_words(const ColumnSample& column) {
    return column.many ? 0.0 : share_known(column, condition_words_of_the_world());
}

std::size_t kinds_of_condition(const ColumnSample& column) {
    std::set<std::string_view> kinds;
    for (const auto& [value, count] : column.values)
        if (const auto meaning = meaning_of(value, condition_words_of_the_world())) kinds.insert(*meaning);
    return kinds.size();
}

std::optional<ValuesGuess> condition_values(const ColumnSample& column) {
    constexpr double enough = 0.6;
    constexpr std::array<std::string_view, 14> ours = {
        "good", "verygood", "excellent", "healthy",   "fair",  "moderate", "average",
        "poor", "verypoor", "bad",       "declining", "dying", "dead",     "standingdead"};
    if (column.many || column.values.size() > 20) return std::nullopt;
    if (share_of_condition_words(column) < enough) return by_codes(column);
    ValuesGuess guess;
    std::vector<std::string> unknown, told;
    for (const auto& [value, count] : column.values) {
        const auto meaning = meaning_of(value, condition_words_of_the_world());
        if (!meaning) {
            unknown.push_back(value);
        } else if (std::ranges::find(ours, bare_word(value)) == ours.end()) {
            guess.values[value] = *meaning;
            told.push_back(core::said("guess.word_as", {{"theirs", value}, {"ours", *meaning}}));
        }
    }
    if (!told.empty())
        guess.confirm = core::said("guess.words", {{"words", fmt::format("{}", fmt::join(told, ", "))}});
    if (unknown.empty()) return guess;
    const std::string left_out =
        core::said("guess.unknown_words", {{"words", fmt::format("{}", fmt::join(unknown, ", "))}});
    guess.confirm =
        told.empty() ? left_out : core::said("list.semicolon", {{"list", guess.confirm}, {"next", left_out}});
    return guess;
}

std::optional<ValuesGuess> yes_no_values(const ColumnSample& column) {
    if (column.many || column.values.empty() || column.values.size() > 6) return std::nullopt;
    if (share_known(column, yes_no_words_of_the_world()) < 0.9) return std::nullopt;
    ValuesGuess guess;
    for (const auto& [value, count] : column.values) {
        const auto meaning = meaning_of(value, yes_no_words_of_the_world());
        if (meaning && !read_yes_no(value)) guess.values[value] = *meaning;
    }
    if (!guess.values.empty()) guess.confirm = core::said("guess.yes_no");
    return guess;
}

bool holds_latin_names(const ColumnSample& column) {
    std::size_t known = 0, all = 0;
    for (const auto& [value, count] : column.values) {
        all += count;
        const ColumnName parts = taken_apart(value);
        const auto genus = [&](const std::string& name) {
            return !parts.words.empty() && parts.words.front() == name;
        };
        if (std::ranges::any_of(genera(), genus)) known += count;
    }
    return all >= 5 && known * 2 > all;
}

bool holds_two_words(const ColumnSample& column) {
    std::size_t two = 0, all = 0;
    for (const auto& [value, count] : column.values) {
        all += count;
        if (taken_apart(value).words.size() >= 2) two += count;
    }
    return two * 2 > all;
}

std::optional<OnlyGuess> only_guess(const LayerSample& sample, const std::vector<FieldGuess>& taken) {
    std::vector<std::string> names;
    for (const ColumnSample& column : sample.columns)
        names.push_back(column.name);
    const KindColumns kinds(names, tree_words_within());
    for (std::size_t i = 0; i < names.size(); ++i) {
        const ColumnSample& column = sample.columns[i];
        // "refused" of a permission is no tree's end.
        const bool is_field = std::ranges::any_of(
            taken, [&](const FieldGuess& guess) { return guess.source.column == names[i]; });
        const bool read_anyway = std::ranges::find(kinds.columns(), i) != kinds.columns().end();
        const bool looked_at = !is_field && !read_anyway && !column.many && column.values.size() <= 12;
        if (!looked_at || names[i].find('"') != std::string::npos) continue;
        std::vector<std::string> gone;
        std::size_t rows = 0;
        for (const auto& [value, count] : column.values) {
            if (!tree_words_within().meaning_of(value).no_tree) continue;
            gone.push_back(sql_text(value));
            rows += count;
        }
        if (gone.empty() || rows * 2 > column.filled) continue;
        return OnlyGuess{
            fmt::format("\"{0}\" NOT IN ({1}) OR \"{0}\" IS NULL", names[i], fmt::join(gone, ", ")),
            core::said("guess.no_trees", {{"rows", rows},
                                          {"all", sample.rows},
                                          {"words", fmt::format("{}", fmt::join(gone, ", "))},
                                          {"column", names[i]}})};
    }
    return std::nullopt;
}

}  // namespace roostward::io
