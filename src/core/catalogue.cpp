#include "roostward/core/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>

namespace roostward::core {

namespace {

std::invalid_argument wrong(std::string_view what, std::string_view where) {
    return std::invalid_argument(fmt::format("words: {}: {}", what, where));
}

/// What stands between the quotes of `"…"`, which must be all there is.
std::string unquoted(std::string_view quoted, std::string_view line) {
    constexpr const char* not_so = "not key = \"text\"";
    if (quoted.size() < 2 || quoted.front() != '"' || quoted.back() != '"') throw wrong(not_so, line);
    std::string text;
    for (std::size_t i = 1; i + 1 < quoted.size(); ++i) {
        if (quoted[i] == '"') throw wrong(not_so, line);
        const bool escaped = quoted[i] == '\\';
        if (escaped && ++i + 1 >= quoted.size()) throw wrong(not_so, line);
        text += escaped && quoted[i] == 'n' ? '\n' : quoted[i];
    }
    return text;
}

/// A stretch of a text: words as they are, or what stands between braces.
struct Stretch {
    std::string_view words;
    bool to_fill;
};

std::vector<Stretch> stretches(std::string_view text) {
    std::vector<Stretch> parts;
    while (!text.empty()) {
        const bool to_fill = text.front() == '{';
        const std::size_t end = std::min(text.find(to_fill ? '}' : '{'), text.size());
        parts.push_back({text.substr(to_fill, end - to_fill), to_fill});
        text.remove_prefix(std::min(end + to_fill, text.size()));
    }
    return parts;
}

std::string_view name_in(std::string_view braces) {
    return braces.substr(0, braces.find(':'));
}

std::set<std::string_view> names_in(std::string_view text) {
    std::set<std::string_view> names;
    for (const Stretch& part : stretches(text))
        if (part.to_fill) names.insert(name_in(part.words));
    return names;
}

Catalogue& spoken() {
    static Catalogue words = read_catalogue(words_text);
    return words;
}

std::string_view text_of(std::string_view key) {
    const auto found = spoken().find(key);
    if (found == spoken().end()) throw std::out_of_range("words: no key " + std::string(key));
    return found->second;
}

/// A number with the decimal mark of the language in place of the point.
std::string with_mark(std::string number) {
    const std::string_view mark = text_of("number.decimal");
    const std::size_t point = number.find('.');
    return point == std::string::npos ? number : number.replace(point, 1, mark);
}

std::string filled(const Filling& filling, std::string_view braces) {
    const std::string field = fmt::format("{{{}}}", braces.substr(filling.name.size()));
    return std::visit(
        [&field]<class Value>(const Value& value) {
            const std::string text = fmt::vformat(field, fmt::make_format_args(value));
            return std::is_same_v<Value, double> ? with_mark(text) : text;
        },
        filling.value);
}

}  // namespace

Catalogue read_catalogue(std::string_view text) {
    constexpr std::string_view between = " = ";
    Catalogue words;
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(line.size() + 1, text.size()));
        if (line.empty() || line.front() == '#') continue;
        const std::size_t end_of_key = std::min(line.find(between), line.size());
        const std::size_t start = std::min(end_of_key + between.size(), line.size());
        const auto [entry, is_new] =
            words.emplace(line.substr(0, end_of_key), unquoted(line.substr(start), line));
        if (!is_new) throw wrong("twice", entry->first);
    }
    return words;
}

const Catalogue& catalogue() {
    return spoken();
}

std::vector<std::string> speak(const Catalogue& translation) {
    const Catalogue english = read_catalogue(words_text);
    std::vector<std::string> left_out;
    Catalogue words = english;
    for (const auto& [key, text] : translation) {
        const auto known = english.find(key);
        if (known == english.end() || !std::ranges::includes(names_in(known->second), names_in(text)))
            left_out.push_back(key);
        else
            words[key] = text;
    }
    spoken() = std::move(words);
    return left_out;
}

std::string said(std::string_view key, std::initializer_list<Filling> fillings) {
    std::string out;
    for (const auto& [words, to_fill] : stretches(text_of(key))) {
        const auto* const filling =
            std::ranges::find(fillings.begin(), fillings.end(), name_in(words), &Filling::name);
        if (to_fill && filling == fillings.end())
            throw wrong(fmt::format("nothing for {{{}}} in", words), key);
        try {
            out += to_fill ? filled(*filling, words) : std::string(words);
        } catch (const fmt::format_error& error) {
            throw wrong(fmt::format("{{{}}}: {}, in", words, error.what()), key);
        }
    }
    return out;
}

std::string in_words(std::size_t count) {
    return count <= 12 ? said(fmt::format("number.{}", count)) : std::to_string(count);
}

}  // namespace roostward::core
