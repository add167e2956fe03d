#include "roostward/io/values.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

struct Twin {
    std::string_view mark;
    char ascii;
};
constexpr std::array<Twin, 5> twins = {
    {{"\u2013", '-'}, {"\u2014", '-'}, {"\u2212", '-'}, {"\u2010", '-'}, {"\u2011", '-'}}};

constexpr bool may_begin_twin(char c) {
    return c == '\xE2';
}
static_assert(std::all_of(twins.begin(), twins.end(),
                          [](const Twin& t) { return may_begin_twin(t.mark.front()); }));

/// The mark at the beginning of the text; null where none stands there.
const Twin* twin_before(std::string_view text) {
    const auto* twin =
        std::find_if(twins.begin(), twins.end(), [&](const Twin& t) { return text.starts_with(t.mark); });
    return twin == twins.end() ? nullptr : twin;
}

/// Folded, with every kind of dash as its ASCII twin.
std::string plain(std::string_view original) {
    const std::string lower = core::folded(original);
    std::string_view text = lower;
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const Twin* twin = may_begin_twin(text.front()) ? twin_before(text) : nullptr;
        out.push_back(twin != nullptr ? twin->ascii : text.front());
        text.remove_prefix(twin != nullptr ? twin->mark.size() : 1);
    }
    return out;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool take(std::string_view& text, std::string_view beginning) {
    if (text.substr(0, beginning.size()) != beginning) return false;
    text = trimmed(text.substr(beginning.size()));
    return true;
}

template <std::size_t Count>
bool take_any(std::string_view& text, const std::array<std::string_view, Count>& beginnings) {
    return std::any_of(beginnings.begin(), beginnings.end(),
                       [&](std::string_view b) { return take(text, b); });
}

/// Whether exactly three digits follow the separator at `at`.
bool groups_thousands(std::string_view text, std::size_t at) {
    const auto digit = [&](std::size_t i) { return i < text.size() && is_digit(text[i]); };
    return at > 0 && digit(at - 1) && digit(at + 1) && digit(at + 2) && digit(at + 3) && !digit(at + 4);
}

/// Length of the number at the beginning, with its marks.
std::size_t number_length(std::string_view text) {
    const auto digit = [&](std::size_t i) { return i < text.size() && is_digit(text[i]); };
    std::size_t end = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    while (end < text.size()) {
        const char c = text[end];
        const bool mark =
            (c == '.' || c == ',') && (digit(end + 1) || (end > 0 && digit(end - 1) && c == '.'));
        const bool gap = (c == ' ' || c == '\'') && groups_thousands(text, end);
        if (!is_digit(c) && !mark && !gap) break;
        ++end;
    }
    const bool exponent =
        end > 0 && end < text.size() && text[end] == 'e' &&
        (digit(end + 1) || (end + 2 < text.size() && text[end + 1] == '-' && digit(end + 2)));
    if (exponent) {
        end += 2;
        while (digit(end))
            ++end;
    }
    return end;
}

/// Takes the number at the beginning off `text`. Of comma and point the last is the decimal mark, unless it
/// stands more than once.
std::optional<double> take_number(std::string_view& text) {
    const std::string_view written = text.substr(0, number_length(text));
    std::size_t decimal = written.find_last_of(".,");
    if (decimal != std::string_view::npos &&
        std::count(written.begin(), written.end(), written[decimal]) > 1) {
        decimal = std::string_view::npos;
    }
    std::string digits;
    for (std::size_t i = 0; i < written.size(); ++i) {
        if (i == decimal)
            digits.push_back('.');
        else if (is_digit(written[i]) || written[i] == '-' || written[i] == 'e')
            digits.push_back(written[i]);
        else if (written[i] != '+' && !groups_thousands(written, i))
            return std::nullopt;
    }
    double value = 0.0;
    const auto [stop, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (problem != std::errc() || stop != digits.data() + digits.size()) return std::nullopt;
    text = trimmed(text.substr(written.size()));
    return value;
}

/// The upper end of "30-45", taken off `text` where it stands there.
bool take_upper_end(std::string_view& text) {
    constexpr std::array<std::string_view, 4> between = {"-", "to ", "..", "/"};
    std::string_view rest = text;
    if (!take_any(rest, between) || rest.empty() || !is_digit(rest.front()) || !take_number(rest))
        return false;
    text = rest;
    return true;
}

std::optional<double> plain_number(std::string_view text) {
    double value = 0.0;
    const auto [stop, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = problem == std::errc() && stop == text.data() + text.size() && std::isfinite(value);
    return whole ? std::optional(value) : std::nullopt;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::string bare_word(std::string_view text) {
    std::string out = plain(text);
    constexpr std::string_view dropped = " -_.()/#\t";
    out.erase(std::remove_if(out.begin(), out.end(),
                             [&](char c) { return dropped.find(c) != std::string_view::npos; }),
              out.end());
    return out;
}

bool says_nothing(std::string_view text) {
    constexpr std::array<std::string_view, 9> words = {"",     "?",   "na",          "unknown", "notknown",
                                                       "null", "nan", "notrecorded", "unk"};
    if (text.empty()) return true;
    if (text.size() > 14 || is_digit(text.front())) return false;
    if (text.size() > 1 && text.front() == '-' && is_digit(text[1])) return false;
    return std::find(words.begin(), words.end(), bare_word(text)) != words.end();
}

bool is_plain_number(std::string_view text) {
    return plain_number(text).has_value();
}

std::optional<WrittenNumber> read_number(std::string_view text) {
    if (const std::optional<double> quick = plain_number(text))
        return WrittenNumber{*quick, {}, false, false};
    constexpr std::array<std::string_view, 9> roughly = {"about", "approx.", "approx", "circa", "ca.",
                                                         "ca",    "c.",      "~",      "\u2248"};
    constexpr std::array<std::string_view, 5> above = {">=", ">", "\u2265", "over ", "at least "};
    constexpr std::array<std::string_view, 5> under = {"<=", "<", "\u2264", "under ", "up to "};
    const std::string lower = plain(text);
    std::string_view rest = trimmed(lower);
    WrittenNumber number;
    take_any(rest, roughly);
    if (take_any(rest, above))
        number.range = true;
    else
        number.below = take_any(rest, under);
    const std::optional<double> value = take_number(rest);
    if (!value || !std::isfinite(*value)) return std::nullopt;
    number.value = *value;
    number.range = take_upper_end(rest) || take(rest, "+") || number.range;
    if (rest.size() > 16 || std::any_of(rest.begin(), rest.end(), is_digit)) return std::nullopt;
    number.unit = rest;
    return number;
}

std::optional<double> micrometres_in(std::string_view unit) {
    struct Unit {
        std::string_view name;
        double micrometres;
    };
    // The inch is 25.4 mm exactly and the foot 12 inches: international yard and pound agreement, 1959. The
    // survey foot of the United States is 1200/3937 m: Mendenhall order, 1893.
    constexpr double survey_foot = 1200e6 / 3937.0;
    constexpr std::array<Unit, 34> units = {{
        {"mm", 1e3},
        {"millimetre", 1e3},
        {"millimetres", 1e3},
        {"millimeter", 1e3},
        {"millimeters", 1e3},
        {"cm", 1e4},
        {"centimetre", 1e4},
        {"centimetres", 1e4},
        {"centimeter", 1e4},
        {"centimeters", 1e4},
        {"m", 1e6},
        {"metre", 1e6},
        {"metres", 1e6},
        {"meter", 1e6},
        {"meters", 1e6},
        {"mtr", 1e6},
        {"mtrs", 1e6},
        {"in", 25400.0},
        {"in.", 25400.0},
        {"ins", 25400.0},
        {"inch", 25400.0},
        {"inches", 25400.0},
        {"\"", 25400.0},
        {"\u2033", 25400.0},
        {"ft", 304800.0},
        {"ft.", 304800.0},
        {"foot", 304800.0},
        {"feet", 304800.0},
        {"'", 304800.0},
        {"\u2032", 304800.0},
        {"\u201D", 25400.0},
        {"us-ft", survey_foot},
        {"us survey foot", survey_foot},
        {"ftus", survey_foot},
    }};
    const std::string lower = plain(unit);
    const auto* found =
        std::find_if(units.begin(), units.end(), [&](const Unit& u) { return u.name == lower; });
    return found == units.end() ? std::nullopt : std::optional(found->micrometres);
}

bool fits(std::string_view unit, Dimension dimension) {
    const auto one_of = [&](std::initializer_list<std::string_view> names) {
        return std::find(names.begin(), names.end(), unit) != names.end();
    };
    if (unit.empty()) return true;
    switch (dimension) {
        case Dimension::plain:
            return one_of({"bats", "bat", "animals", "animal", "x"});
        case Dimension::length:
            return micrometres_in(unit).has_value();
        case Dimension::angle:
            return one_of({"\u00B0", "deg", "degrees", "\u00BA"});
        case Dimension::temperature:
            return one_of({"c", "\u00B0c", "\u00B0", "deg c", "\u00B0 c", "\u2103"});
        case Dimension::speed:
            return one_of({"m/s", "ms-1", "m s-1", "mps"});
    }
    return false;
}

std::optional<bool> read_yes_no(std::string_view text) {
    static constexpr std::array<Word<bool>, 18> words = {{{"yes", true},
                                                          {"y", true},
                                                          {"true", true},
                                                          {"t", true},
                                                          {"1", true},
                                                          {"x", true},
                                                          {"ja", true},
                                                          {"oui", true},
                                                          {"si", true},
                                                          {"present", true},
                                                          {"no", false},
                                                          {"n", false},
                                                          {"false", false},
                                                          {"f", false},
                                                          {"0", false},
                                                          {"none", false},
                                                          {"nein", false},
                                                          {"absent", false}}};
    return read_word<bool>(text, words);
}

}  // namespace roostward::io
