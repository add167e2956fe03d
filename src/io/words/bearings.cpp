#include "roostward/io/bearings.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "roostward/core/folding.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

constexpr std::array<std::string_view, 16> compass = {"n", "nne", "ne", "ene", "e", "ese", "se", "sse",
                                                      "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"};

struct Part {
    std::string_view word;
    char letter;
};
/// Longer words before those that they contain. `o` is east or west, and `z` is Dutch.
constexpr std::array<Part, 35> parts = {
    {{"north", 'n'}, {"noord", 'n'},    {"norte", 'n'},    {"nord", 'n'},       {"nor", 'n'},
     {"south", 's'}, {"sued", 's'},     {"s\u00FCd", 's'}, {"zuid", 's'},       {"sud", 's'},
     {"sur", 's'},   {"sul", 's'},      {"syd", 's'},      {"s\u00F6der", 's'}, {"west", 'w'},
     {"ouest", 'w'}, {"oeste", 'w'},    {"ovest", 'w'},    {"vest", 'w'},       {"v\u00E4st", 'w'},
     {"east", 'e'},  {"leste", 'e'},    {"este", 'e'},     {"oost", 'e'},       {"ost", 'e'},
     {"est", 'e'},   {"\u00F8st", 'e'}, {"\u00F6st", 'e'}, {"n", 'n'},          {"e", 'e'},
     {"s", 's'},     {"w", 'w'},        {"o", 'o'},        {"z", 'z'},          {"\u00F6", 'e'}}};

/// "nordnordost" as "nne"; empty where anything else stands in it.
std::string letters_of(std::string_view bare) {
    std::string letters;
    while (!bare.empty()) {
        const auto* part =
            std::ranges::find_if(parts, [&](const Part& p) { return bare.starts_with(p.word); });
        if (part == parts.end()) return {};
        letters.push_back(part->letter);
        bare.remove_prefix(part->word.size());
    }
    return letters;
}

std::optional<double> point_of(std::string_view letters) {
    const auto* word = std::ranges::find(compass, letters);
    if (word == compass.end()) return std::nullopt;
    return 22.5 * static_cast<double>(word - compass.begin());
}

std::string with_letter(std::string letters, char from, char to) {
    std::ranges::replace(letters, from, to);
    return letters;
}

const Trouble east_or_west{"east or west?", "finding.east_or_west"};

const Trouble two_ways{"two ways at once", "finding.two_ways"};

const Trouble unknown{"unknown bearing", "finding.unknown_bearing"};

std::string_view without_suffix(std::string_view bare) {
    constexpr std::array<std::string_view, 5> suffixes = {"wards", "ward", "bound", "w\u00E4rts", "waerts"};
    for (const std::string_view suffix : suffixes)
        if (bare.size() > suffix.size() && bare.ends_with(suffix))
            return bare.substr(0, bare.size() - suffix.size());
    return bare;
}

/// One point of the compass and nothing else; empty for any other text.
std::optional<Reading<double>> read_point(std::string_view text) {
    const std::string bare = bare_word(text);
    std::string letters = letters_of(without_suffix(bare));
    const bool dutch = letters.find('z') != std::string::npos;
    letters = with_letter(std::move(letters), 'z', 's');
    if (letters.find('o') == std::string::npos || dutch) {
        const std::optional<double> point = point_of(with_letter(letters, 'o', 'e'));
        return point ? std::optional<Reading<double>>(*point) : std::nullopt;
    }
    const bool either = point_of(with_letter(letters, 'o', 'e')) || point_of(with_letter(letters, 'o', 'w'));
    return either ? std::optional<Reading<double>>(east_or_west) : std::nullopt;
}

/// Whatever its case; a blank at the end of the beginning is one in the text.
bool begins_with(std::string_view text, std::string_view beginning) {
    const std::string_view same = text.substr(0, beginning.size());
    return same.size() == beginning.size() && core::folded(same) == core::folded(beginning) &&
           (same.back() == ' ') == (beginning.back() == ' ');
}

template <std::size_t Count>
std::size_t length_of_beginning(std::string_view text,
                                const std::array<std::string_view, Count>& beginnings) {
    const auto* found =
        std::ranges::find_if(beginnings, [&](std::string_view b) { return begins_with(text, b); });
    return found == beginnings.end() ? 0 : found->size();
}

/// What stands behind words such as "towards the" and "from".
struct Way {
    std::string_view of;
    bool from = false;
};

std::optional<Way> read_way(std::string_view text) {
    constexpr std::array<std::string_view, 8> verbs = {"flying ",  "flew ",   "going ",  "went ",
                                                       "heading ", "headed ", "moving ", "off "};
    constexpr std::array<std::string_view, 8> to = {"towards ", "toward ",   "to ",   "vers ",
                                                    "nach ",    "richtung ", "naar ", "hacia "};
    constexpr std::array<std::string_view, 5> from = {"from ", "von ", "depuis ", "desde ", "van "};
    constexpr std::array<std::string_view, 10> articles = {"the ", "le ",  "la ",  "l'",  "les ",
                                                           "der ", "die ", "das ", "el ", "de "};
    std::string_view rest = trimmed(text);
    const std::size_t verb = length_of_beginning(rest, verbs);
    rest = trimmed(rest.substr(verb));
    const std::size_t towards = length_of_beginning(rest, to);
    const std::size_t back = towards > 0 ? 0 : length_of_beginning(rest, from);
    rest = trimmed(rest.substr(towards + back));
    if (verb + towards + back == 0) return std::nullopt;
    rest = trimmed(rest.substr(length_of_beginning(rest, articles)));
    return rest.empty() ? std::nullopt : std::optional(Way{rest, back > 0});
}

/// "SW to NE" and "SW → NE" go to the second; "SW-NE" and "SW/NE" say no way.
std::optional<Reading<double>> read_two_points(std::string_view text) {
    struct Mark {
        std::string_view text;
        bool tells_the_way;
    };
    constexpr std::array<Mark, 12> marks = {{{"<->", false},
                                             {"\u2194", false},
                                             {"->", true},
                                             {"\u2192", true},
                                             {">", true},
                                             {" to ", true},
                                             {"-", false},
                                             {"\u2013", false},
                                             {"/", false},
                                             {" and ", false},
                                             {"&", false},
                                             {"+", false}}};
    for (const Mark& mark : marks) {
        const std::size_t at = text.find(mark.text);
        if (at == std::string::npos || at == 0) continue;
        const std::optional<Way> way = read_way(text.substr(0, at));
        const auto first = read_point(way && way->from ? way->of : text.substr(0, at));
        std::string_view behind = trimmed(text.substr(at + mark.text.size()));
        const auto second = read_point(behind.substr(0, behind.find(' ')));
        if (!first || !second) continue;
        return mark.tells_the_way ? second : std::optional<Reading<double>>(two_ways);
    }
    return std::nullopt;
}

Reading<double> turned(const Reading<double>& reading) {
    const double* degrees = value_in(reading);
    return degrees == nullptr ? reading : Reading<double>(std::fmod(*degrees + 180.0, 360.0));
}

Reading<double> read_degrees(std::string_view text) {
    const std::optional<WrittenNumber> number = read_number(text);
    if (!number || number->range || number->below || !fits(number->unit, Dimension::angle)) return unknown;
    if (number->value < 0.0 || number->value > 360.0)
        return Trouble{"impossible bearing", "finding.impossible_bearing"};
    return number->value == 360.0 ? 0.0 : number->value;
}

}  // namespace

Reading<double> read_bearing(std::string_view written) {
    if (!written.empty() && written.front() >= '0' && written.front() <= '9') return read_degrees(written);
    const std::string text = core::folded(written);
    if (const auto point = read_point(text)) return *point;
    if (const std::optional<Way> way = read_way(text)) {
        if (const auto point = read_point(way->of)) return way->from ? turned(*point) : *point;
    }
    if (const auto points = read_two_points(text)) return *points;
    return read_degrees(text);
}

std::optional<NamedWay> read_named_way(std::string_view text) {
    const std::optional<Way> way = read_way(text);
    if (!way) return std::nullopt;
    return NamedWay{std::string(way->of), way->from};
}

}  // namespace roostward::io
