#include "roostward/io/cell_format.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include <fmt/format.h>

namespace roostward::io {

namespace {

using std::chrono::milliseconds;

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// The letters of a format's first section that stand for something, as "ddmmyyyyhhmm"; hours, minutes and
/// seconds that are counted on as 'e', a percent sign as '%'.
std::string bare_format(std::string_view code) {
    std::string bare;
    for (std::size_t i = 0; i < code.size() && code[i] != ';'; ++i) {
        const char c = lower(code[i]);
        if (c == '\\' || c == '_' || c == '*') {
            ++i;
        } else if (c == '"' || c == '[') {
            const std::size_t close = code.find(c == '"' ? '"' : ']', i + 1);
            const std::string_view inside = code.substr(i + 1, close - i - 1);
            const bool one_letter = !inside.empty() && inside.find_first_not_of(inside[0]) == inside.npos;
            if (c == '[' && one_letter && std::string_view("hms").find(lower(inside[0])) != inside.npos)
                bare += 'e';
            if (close == std::string_view::npos) break;
            i = close;
        } else if (std::string_view("dmyhs%").find(c) != std::string_view::npos) {
            bare += c;
        }
    }
    return bare;
}

bool is_general(std::string_view code) {
    constexpr std::string_view general = "general";
    return code.size() >= general.size() && std::equal(general.begin(), general.end(), code.begin(),
                                                       [](char a, char b) { return a == lower(b); });
}

/// Whole seconds where only some last digit of a serial keeps a time from one.
std::int64_t without_noise(std::int64_t thousandths) {
    constexpr std::int64_t noise = 5;
    const std::int64_t second = (thousandths + 500) / 1000 * 1000;
    return std::abs(thousandths - second) <= noise ? second : thousandths;
}

core::Date date_of(std::int64_t day, DateEpoch epoch) {
    using namespace std::chrono;
    if (epoch == DateEpoch::year_1904) return sys_days(January / 1 / 1904) + days(day);
    if (day == 60) return core::Date(year(1900), February, std::chrono::day(29));
    return sys_days(December / (day < 60 ? 31 : 30) / 1899) + days(day);
}

}  // namespace

ShownAs shown_as(std::string_view format_code) {
    if (is_general(format_code)) return ShownAs::number;
    const std::string bare = bare_format(format_code);
    const auto has = [&](const char* letters) { return bare.find_first_of(letters) != std::string::npos; };
    const bool clock = has("hse");
    const bool date = has("dy") || (has("m") && !clock);
    if (date) return clock ? ShownAs::date_and_time : ShownAs::date;
    if (has("e")) return ShownAs::elapsed;
    if (clock) return ShownAs::time;
    return has("%") ? ShownAs::percent : ShownAs::number;
}

// ECMA-376, part 1, section 18.8.30: those for all languages, and those of East Asia and Thailand.
ShownAs shown_as_built_in(int format) {
    const auto one_of = [&](std::initializer_list<std::pair<int, int>> ranges) {
        return std::any_of(ranges.begin(), ranges.end(),
                           [&](const auto& r) { return format >= r.first && format <= r.second; });
    };
    if (one_of({{14, 17}, {27, 31}, {36, 36}, {50, 54}, {57, 58}, {71, 74}, {81, 81}})) return ShownAs::date;
    if (one_of({{18, 21}, {32, 35}, {45, 45}, {47, 47}, {55, 56}, {75, 76}, {78, 78}, {80, 80}}))
        return ShownAs::time;
    if (one_of({{22, 22}, {77, 77}})) return ShownAs::date_and_time;
    if (one_of({{46, 46}, {79, 79}})) return ShownAs::elapsed;
    return one_of({{9, 10}, {67, 68}}) ? ShownAs::percent : ShownAs::number;
}

std::optional<std::string> moment_text(double serial, ShownAs shown, DateEpoch epoch) {
    constexpr double last = 2958465.0;  // 9999-12-31
    if (!(serial >= 0.0 && serial < last + 1.0)) return std::nullopt;
    constexpr std::int64_t day_length = std::int64_t{86'400'000};
    const std::int64_t all = without_noise(std::llround(serial * static_cast<double>(day_length)));
    if (shown == ShownAs::elapsed) return iso_text({}, milliseconds(all));
    const std::int64_t day = all / day_length;
    const milliseconds time_of_day(all % day_length);
    const bool midnight = time_of_day.count() == 0;
    if (shown == ShownAs::date && midnight) {
        if (day == 0 && epoch == DateEpoch::year_1900) return std::nullopt;
        return iso_text(date_of(day, epoch), {});
    }
    if (day == 0) return iso_text({}, time_of_day);
    return iso_text(date_of(day, epoch), time_of_day);
}

std::string iso_text(const std::optional<core::Date>& date, const std::optional<milliseconds>& time_of_day) {
    std::string text;
    if (date) {
        text = fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date->year()),
                           static_cast<unsigned>(date->month()), static_cast<unsigned>(date->day()));
    }
    if (!time_of_day) return text;
    if (date) text += 'T';
    const std::int64_t all = time_of_day->count();
    text += fmt::format("{:02}:{:02}:{:02}", all / 3'600'000, all / 60'000 % 60, all / 1000 % 60);
    if (all % 1000 != 0) text += fmt::format(".{:03}", all % 1000);
    return text;
}

std::string percent_text(double share) {
    return fmt::format("{:.12g}%", share * 100.0);
}

}  // namespace roostward::io
