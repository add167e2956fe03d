#include "roostward/core/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <unordered_map>

namespace roostward::core {

namespace {

std::invalid_argument wrong(std::string_view what, std::string_view where) {
    return std::invalid_argument(fmt::format("words: {}: {}", what, where));
}

/// What stands between the quotes of `"…"`; nothing where that is not all there is.
std::optional<std::string> unquoted(std::string_view quoted) {
    if (quoted.size() < 2 || quoted.front() != '"' || quoted.back() != '"') return std::nullopt;
    std::string text;
    for (std::size_t i = 1; i + 1 < quoted.size(); ++i) {
        if (quoted[i] == '"') return std::nullopt;
        const bool escaped = quoted[i] == '\\';
        if (escaped && ++i + 1 >= quoted.size()) return std::nullopt;
        text += escaped && quoted[i] == 'n' ? '\n' : quoted[i];
    }
    return text;
}

std::string_view without_blanks(std::string_view line) {
    constexpr std::string_view blanks = " \t\r";
    const std::size_t first = std::min(line.find_first_not_of(blanks), line.size());
    return line.substr(first, line.find_last_not_of(blanks) + 1 - first);
}

/// A stretch of a text: words as they are, or what stands between braces.
struct Stretch {
    std::string_view words;
    bool to_fill;
};

/// Where the next {name} begins; a brace before a blank is one of the words.
std::size_t next_hole(std::string_view text) {
    std::size_t brace = text.find('{');
    while (brace < text.size() && text.substr(brace + 1, 1) == " ")
        brace = text.find('{', brace + 1);
    return std::min(brace, text.size());
}

/// Takes the first stretch off a text that is not empty.
Stretch next_stretch(std::string_view& text) {
    const std::size_t hole = next_hole(text);
    const bool to_fill = hole == 0;
    const std::size_t end = to_fill ? std::min(text.find('}'), text.size()) : hole;
    const Stretch first{text.substr(to_fill, end - to_fill), to_fill};
    text.remove_prefix(std::min(end + to_fill, text.size()));
    return first;
}

std::vector<Stretch> stretches(std::string_view text) {
    std::vector<Stretch> parts;
    while (!text.empty())
        parts.push_back(next_stretch(text));
    return parts;
}

std::string_view name_in(std::string_view braces) {
    return braces.substr(0, braces.find(':'));
}

std::string_view spec_in(std::string_view braces) {
    return braces.substr(name_in(braces).size());
}

/// Whether it says how a number with decimals is written, and the number can be.
bool writes_decimals(std::string_view spec) {
    if (spec.empty() || std::string_view("fgeFGE").find(spec.back()) == std::string_view::npos) return false;
    constexpr double sample = 1.0;
    try {
        return !fmt::vformat(fmt::format("{{{}}}", spec), fmt::make_format_args(sample)).empty();
    } catch (const fmt::format_error&) {
        return false;
    }
}

/// Whether what fills the braces of an English text can be written as these braces say.
bool can_fill(std::string_view english, std::string_view braces) {
    const std::string_view spec = spec_in(braces);
    return spec.empty() || spec == spec_in(english) ||
           (writes_decimals(spec_in(english)) && writes_decimals(spec));
}

/// Whether whatever fills the English text fills this one.
bool fits(std::string_view text, std::string_view english) {
    const std::vector<Stretch> known = stretches(english);
    return std::ranges::all_of(stretches(text), [&known](const Stretch& part) {
        return !part.to_fill || std::ranges::any_of(known, [&part](const Stretch& of_english) {
            return of_english.to_fill && name_in(of_english.words) == name_in(part.words) &&
                   can_fill(of_english.words, part.words);
        });
    });
}

/// The words that are said, with what is looked up for each tree at hand.
struct Spoken {
    explicit Spoken(Catalogue all) : words(std::move(all)) {
        for (const auto& [key, text] : words)
            texts.emplace(key, text);
        decimal_mark = texts.at("number.decimal");
    }
    Catalogue words;
    std::unordered_map<std::string_view, std::string_view> texts;  ///< of `words`
    std::string_view decimal_mark;
};

std::unique_ptr<const Spoken>& spoken() {
    static auto words = std::make_unique<const Spoken>(read_catalogue(words_text));
    return words;
}

std::string_view text_of(std::string_view key) {
    const auto found = spoken()->texts.find(key);
    if (found == spoken()->texts.end()) throw std::out_of_range("words: no key " + std::string(key));
    return found->second;
}

/// As the spec behind a name says; decimals with the mark of the language in place of the point.
template <class Value>
void append_number(std::string& out, Value value, std::string_view spec) {
    fmt::memory_buffer field, digits;
    fmt::format_to(std::back_inserter(field), "{{{}}}", spec);
    fmt::vformat_to(std::back_inserter(digits), {field.data(), field.size()}, fmt::make_format_args(value));
    const std::string_view number(digits.data(), digits.size());
    const std::size_t point = std::is_same_v<Value, double> ? number.find('.') : std::string_view::npos;
    out += number.substr(0, point);
    if (point == std::string_view::npos) return;
    out += spoken()->decimal_mark;
    out += number.substr(point + 1);
}

void append_filled(std::string& out, const Filling& filling, std::string_view braces) {
    const std::string_view spec = spec_in(braces);
    if (const auto* const text = std::get_if<std::string>(&filling.value))
        out += spec.empty() ? *text : fmt::vformat(fmt::format("{{{}}}", spec), fmt::make_format_args(*text));
    else if (const auto* const whole = std::get_if<std::int64_t>(&filling.value))
        append_number(out, *whole, spec);
    else
        append_number(out, std::get<double>(filling.value), spec);
}

std::string said_with(std::string_view key, std::span<const Filling> fillings) {
    std::string out;
    for (std::string_view text = text_of(key); !text.empty();) {
        const auto [words, to_fill] = next_stretch(text);
        if (!to_fill) {
            out += words;
            continue;
        }
        const auto filling = std::ranges::find(fillings, name_in(words), &Filling::name);
        if (filling == fillings.end()) throw wrong(fmt::format("nothing for {{{}}} in", words), key);
        try {
            append_filled(out, *filling, words);
        } catch (const fmt::format_error& error) {
            throw wrong(fmt::format("{{{}}}: {}, in", words, error.what()), key);
        }
    }
    return out;
}

/// `last` joins the last item to those before it.
std::string joined(const std::vector<std::string>& items, std::string_view last) {
    std::string text = items.empty() ? std::string() : items.front();
    for (std::size_t i = 1; i < items.size(); ++i)
        text = said(i + 1 == items.size() ? last : "list.next", {{"list", text}, {"item", items[i]}});
    return text;
}

}  // namespace

UnreadableLine::UnreadableLine(std::size_t number, std::string key_told_before)
    : std::invalid_argument(fmt::format("words: line {} cannot be read", number)),
      number_(number),
      key_(std::move(key_told_before)) {}

Catalogue read_catalogue(std::string_view text) {
    Catalogue words;
    for (std::size_t number = 1; !text.empty(); ++number) {
        const std::string_view whole = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(whole.size() + 1, text.size()));
        const std::string_view line = without_blanks(whole);
        if (line.empty() || line.front() == '#') continue;
        const std::size_t between = std::min(line.find('='), line.size());
        const std::string key(without_blanks(line.substr(0, between)));
        auto said_there = unquoted(without_blanks(line.substr(std::min(between + 1, line.size()))));
        if (key.empty() || !said_there) throw UnreadableLine(number, {});
        if (!words.emplace(key, std::move(*said_there)).second) throw UnreadableLine(number, key);
    }
    return words;
}

const Catalogue& catalogue() {
    return spoken()->words;
}

std::vector<std::string> speak(const Catalogue& translation) {
    const Catalogue english = read_catalogue(words_text);
    std::vector<std::string> left_out;
    Catalogue words = english;
    for (const auto& [key, text] : translation) {
        const auto known = english.find(key);
        if (known == english.end() || !fits(text, known->second))
            left_out.push_back(key);
        else
            words[key] = text;
    }
    spoken() = std::make_unique<const Spoken>(std::move(words));
    return left_out;
}

std::string said(std::string_view key, std::initializer_list<Filling> fillings) {
    return said_with(key, {fillings.begin(), fillings.size()});
}

std::string said_for(std::size_t count, std::string_view key, std::initializer_list<Filling> fillings) {
    std::vector<Filling> all(fillings);
    all.emplace_back("count", count);
    return said_with(fmt::format("{}.{}", key, count == 1 ? "one" : "many"), all);
}

std::string key_of(std::string_view topic, std::string_view word) {
    std::string key(topic);
    char before = '.';
    for (const char c : word) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        if (plain && before != 0) key += before;
        if (plain) key += c;
        before = plain ? '\0' : before == '.' ? '.' : '_';
    }
    return key;
}

std::string shown(std::string_view topic, std::string_view word) {
    const auto& texts = spoken()->texts;
    const auto takes_rest = [](std::string_view text) {
        return text.find("{rest}") != std::string_view::npos;
    };
    const auto whole = texts.find(key_of(topic, word));
    if (whole != texts.end() && !takes_rest(whole->second)) return std::string(whole->second);
    const std::size_t blank = std::min(word.find(' '), word.size());
    const auto first = texts.find(key_of(topic, word.substr(0, blank)));
    if (blank == word.size() || first == texts.end() || !takes_rest(first->second)) return std::string(word);
    return said(first->first, {{"rest", word.substr(blank + 1)}});
}

std::string all_of(const std::vector<std::string>& items) {
    return joined(items, "list.and");
}

std::string one_of(const std::vector<std::string>& items) {
    return joined(items, "list.or");
}

std::string in_words(std::size_t count) {
    return count <= 12 ? said(fmt::format("number.{}", count)) : std::to_string(count);
}

}  // namespace roostward::core
