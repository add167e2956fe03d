#include "words/column_names.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

/// What is no letter with a mark, and yet stands for Latin letters.
constexpr std::array<std::pair<std::string_view, std::string_view>, 8> letters = {
    {{"æ", "a"}, {"ø", "o"}, {"œ", "o"}, {"ß", "ss"}, {"Æ", "A"}, {"Ø", "O"}, {"Œ", "O"}, {"″", "in "}}};

bool is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}
bool is_lower(char c) {
    return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Accents taken off, case kept; every other mark is a space.
std::string latin(std::string_view written) {
    const std::string bare = core::without_marks(written);
    std::string_view text = bare;
    std::string out;
    while (!text.empty()) {
        const auto* letter = std::find_if(letters.begin(), letters.end(),
                                          [&](const auto& l) { return text.starts_with(l.first); });
        if (letter != letters.end()) {
            out += letter->second;
            text.remove_prefix(letter->first.size());
            continue;
        }
        const char c = text.front();
        out += is_upper(c) || is_lower(c) || is_digit(c) ? c : ' ';
        text.remove_prefix(1);
    }
    return out;
}

/// Vowels that are written with an e where there are no dots on the keyboard.
std::string without_written_dots(std::string_view lower) {
    std::string out;
    for (const char c : lower) {
        const bool dots =
            c == 'e' && !out.empty() && (out.back() == 'a' || out.back() == 'o' || out.back() == 'u');
        if (!dots) out += c;
    }
    return out;
}

struct NamedUnit {
    std::string_view word;
    std::string_view unit;
};
constexpr std::array<NamedUnit, 36> unit_words = {
    {{"cm", "cm"},          {"centimeter", "cm"},  {"centimetre", "cm"},
     {"centimetres", "cm"}, {"centimeters", "cm"}, {"mm", "mm"},
     {"millimeter", "mm"},  {"millimetres", "mm"}, {"m", "m"},
     {"mtr", "m"},          {"meter", "m"},        {"metre", "m"},
     {"metres", "m"},       {"meters", "m"},       {"metros", "m"},
     {"metri", "m"},        {"in", "in"},          {"inch", "in"},
     {"inches", "in"},      {"ins", "in"},         {"zoll", "in"},
     {"pouces", "in"},      {"po", "in"},          {"pulgadas", "in"},
     {"pollici", "in"},     {"tum", "in"},         {"duim", "in"},
     {"ft", "ft"},          {"feet", "ft"},        {"foot", "ft"},
     {"fuss", "ft"},        {"pieds", "ft"},       {"pies", "ft"},
     {"piedi", "ft"},       {"voet", "ft"},        {"fot", "ft"}}};

std::string_view unit_of(std::string_view word) {
    const auto* found = std::ranges::find(unit_words, word, &NamedUnit::word);
    return found == unit_words.end() ? std::string_view() : found->unit;
}

/// "cm" of "girthcm" behind "girth".
std::string_view unit_behind(const ColumnName& name, std::string_view stem) {
    if (!name.joined.starts_with(stem)) return {};
    return unit_of(std::string_view(name.joined).substr(stem.size()));
}

}  // namespace

ColumnName taken_apart(std::string_view name) {
    const std::string plain = latin(name);
    ColumnName parts;
    std::string word;
    const auto end_word = [&] {
        if (!word.empty()) parts.words.push_back(without_written_dots(core::folded(std::exchange(word, {}))));
    };
    for (std::size_t i = 0; i < plain.size(); ++i) {
        const char c = plain[i];
        const bool hump = is_upper(c) && i > 0 && is_lower(plain[i - 1]);
        if (c == ' ' || hump) end_word();
        if (c != ' ') word += c;
    }
    end_word();
    for (const std::string& part : parts.words)
        parts.joined += part;
    for (std::size_t begin = 0; begin < plain.size();) {
        const std::size_t end = std::min(plain.find(' ', begin), plain.size());
        if (end > begin)
            parts.as_parted.push_back(without_written_dots(core::folded(plain.substr(begin, end - begin))));
        begin = end + 1;
    }
    return parts;
}

ListedWord::ListedWord(std::string_view written) : whole(written.starts_with('=')) {
    constexpr std::size_t short_word = 3;  // such stand in too many others
    bare = taken_apart(whole ? written.substr(1) : written).joined;
    whole = whole || bare.size() <= short_word;
}

int match(const ColumnName& name, const ListedWord& word) {
    const int length = static_cast<int>(word.bare.size());
    if (name.joined == word.bare) return 1000 + length;
    for (const auto* const words : {&name.words, &name.as_parted})
        if (std::ranges::find(*words, word.bare) != words->end()) return 500 + length;
    if (!word.whole && name.joined.find(word.bare) != std::string::npos) return 100 + length;
    if (!unit_behind(name, word.bare).empty()) return 100 + length;
    return 0;
}

std::string_view unit_in(const ColumnName& name, std::string_view stem) {
    const auto is_number = [](const std::string& word) { return std::ranges::all_of(word, is_digit); };
    for (std::size_t i = 1; i < name.words.size(); ++i) {
        const std::string& word = name.words[i];
        // "m" and "in" may be words of a language: they count at the end only. "1.30 m" is where was
        // measured.
        const bool at_end = i + 1 == name.words.size();
        const bool may_be_a_word = word == "m" || word == "in" || word == "po";
        if ((may_be_a_word && !at_end) || is_number(name.words[i - 1])) continue;
        if (!unit_of(word).empty()) return unit_of(word);
    }
    return unit_behind(name, stem);
}

}  // namespace roostward::io
