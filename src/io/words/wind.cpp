#include "roostward/io/wind.hpp"

#include <array>
#include <string>

#include "roostward/core/folding.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

/// Classes of the Beaufort scale, m/s.
struct Force {
    double from, to;
};
constexpr std::array<Force, 13> beaufort = {{{0.0, 0.2},
                                             {0.3, 1.5},
                                             {1.6, 3.3},
                                             {3.4, 5.4},
                                             {5.5, 7.9},
                                             {8.0, 10.7},
                                             {10.8, 13.8},
                                             {13.9, 17.1},
                                             {17.2, 20.7},
                                             {20.8, 24.4},
                                             {24.5, 28.4},
                                             {28.5, 32.6},
                                             {32.7, 32.7}}};

/// The first thirteen are those of the scale.
constexpr std::array<Word<std::size_t>, 34> words = {
    {{"calm", 0},        {"lightair", 1},      {"lightbreeze", 2}, {"gentlebreeze", 3}, {"moderatebreeze", 4},
     {"freshbreeze", 5}, {"strongbreeze", 6},  {"neargale", 7},    {"gale", 8},         {"stronggale", 9},
     {"storm", 10},      {"violentstorm", 11}, {"hurricane", 12},  {"none", 0},         {"nowind", 0},
     {"still", 0},       {"windless", 0},      {"windstill", 0},   {"lightairs", 1},    {"verylight", 1},
     {"light", 2},       {"lightwind", 2},     {"slight", 2},      {"slightbreeze", 2}, {"gentle", 3},
     {"moderate", 4},    {"moderatewind", 4},  {"breezy", 4},      {"breeze", 4},       {"fresh", 5},
     {"windy", 5},       {"gusty", 5},         {"strong", 6},      {"strongwind", 6}}};

/// Longer names first: "bft" before "b".
constexpr std::array<std::string_view, 11> names_of_scale = {
    "beaufortscale", "windstärke", "beaufort", "windforce", "force", "scale", "bft", "bf", "fc", "f", "b"};

double middle(std::size_t force) {
    return 0.5 * (beaufort[force].from + beaufort[force].to);
}

/// Without the name of the scale before or behind it; empty where none stands there.
std::optional<std::string> without_scale(std::string_view written) {
    const std::string lower = core::folded(written);
    std::string text;
    for (const char c : lower)
        if (c != ' ' && c != '.' && c != '\t') text += c;
    bool named = false;
    for (const std::string_view name : names_of_scale) {
        if (text.starts_with(name))
            text.erase(0, name.size());
        else if (text.ends_with(name))
            text.erase(text.size() - name.size());
        else
            continue;
        named = true;
    }
    return named ? std::optional(text) : std::nullopt;
}

/// "3", and "3-4", "3/4" or "3to4" as the mean of both.
std::optional<double> of_forces(std::string_view text) {
    const auto force_at = [&text](std::size_t& at) -> std::optional<std::size_t> {
        std::size_t force = 0, digits = 0;
        for (; at < text.size() && text[at] >= '0' && text[at] <= '9' && digits < 3; ++at, ++digits)
            force = 10 * force + static_cast<std::size_t>(text[at] - '0');
        return digits > 0 && force < beaufort.size() ? std::optional(force) : std::nullopt;
    };
    std::size_t at = 0;
    const auto first = force_at(at);
    if (!first) return std::nullopt;
    if (at == text.size()) return middle(*first);
    for (const std::string_view between : {"-", "/", "to", "–", "or"}) {
        if (!text.substr(at).starts_with(between)) continue;
        at += between.size();
        const auto second = force_at(at);
        if (second && at == text.size()) return 0.5 * (middle(*first) + middle(*second));
    }
    return std::nullopt;
}

/// Exact by definition: the international mile is 1609.344 m, the nautical mile 1852 m.
std::optional<double> in_other_units(std::string_view written) {
    constexpr std::array<Word<double>, 9> units = {{{"kmh", 1000.0 / 3600.0},
                                                    {"kph", 1000.0 / 3600.0},
                                                    {"kmph", 1000.0 / 3600.0},
                                                    {"mph", 1609.344 / 3600.0},
                                                    {"kn", 1852.0 / 3600.0},
                                                    {"kt", 1852.0 / 3600.0},
                                                    {"kts", 1852.0 / 3600.0},
                                                    {"knot", 1852.0 / 3600.0},
                                                    {"knots", 1852.0 / 3600.0}}};
    const std::optional<WrittenNumber> number = read_number(written);
    if (!number || number->below || number->value < 0.0) return std::nullopt;
    const std::optional<double> unit = read_word<double>(number->unit, units);
    return unit ? std::optional(number->value * *unit) : std::nullopt;
}

}  // namespace

std::optional<core::MetresPerSecond> wind_in_words(std::string_view written) {
    if (const auto force = read_word<std::size_t>(written, words))
        return core::MetresPerSecond(middle(*force));
    if (const auto speed = in_other_units(written)) return core::MetresPerSecond(*speed);
    const std::optional<std::string> bare = without_scale(written);
    const std::optional<double> speed = bare ? of_forces(*bare) : std::nullopt;
    return speed ? std::optional(core::MetresPerSecond(*speed)) : std::nullopt;
}

}  // namespace roostward::io
