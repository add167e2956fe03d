#include "sheets/iso_moment.hpp"

#include <array>
#include <charconv>
#include <chrono>
#include <cmath>

#include "roostward/io/cell_format.hpp"

namespace roostward::io {

namespace {

using std::chrono::milliseconds;

/// Takes a number of digits off the front, with a fraction where `whole` is not asked for.
std::optional<double> take_number(std::string_view& text) {
    double value = 0.0;
    if (text.empty() || text.front() < '0' || text.front() > '9') return std::nullopt;
    const auto [stop, problem] =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (problem != std::errc()) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(stop - text.data()));
    return value;
}

bool take(std::string_view& text, char mark) {
    if (!text.starts_with(mark)) return false;
    text.remove_prefix(1);
    return true;
}

std::optional<core::Date> take_date(std::string_view& text) {
    using namespace std::chrono;
    const auto y = take_number(text);
    if (!y || *y > 9999.0 || !take(text, '-')) return std::nullopt;
    const auto m = take_number(text);
    if (!m || *m > 12.0 || !take(text, '-')) return std::nullopt;
    const auto d = take_number(text);
    if (!d || *d > 31.0) return std::nullopt;
    return core::Date(year(static_cast<int>(*y)), month(static_cast<unsigned>(*m)),
                      day(static_cast<unsigned>(*d)));
}

/// Hours, minutes and seconds.
milliseconds clock_of(double hours, double minutes, double seconds) {
    return milliseconds(std::llround(((hours * 60.0 + minutes) * 60.0 + seconds) * 1000.0));
}

std::optional<milliseconds> take_clock(std::string_view& text) {
    const auto hours = take_number(text);
    if (!hours || *hours > 24.0 || !take(text, ':')) return std::nullopt;
    const auto minutes = take_number(text);
    if (!minutes || *minutes > 60.0 || !take(text, ':')) return std::nullopt;
    const auto seconds = take_number(text);
    if (!seconds || *seconds > 60.0) return std::nullopt;
    return clock_of(*hours, *minutes, *seconds);
}

}  // namespace

std::optional<std::string> iso_moment(std::string_view text) {
    using namespace std::chrono;
    std::optional<core::Date> date = take_date(text);
    if (!date || !date->ok()) return std::nullopt;
    const bool zero = *date == core::Date(1899y, December, 30d);
    if (text.empty()) return zero ? std::nullopt : std::optional(iso_text(date, {}));
    if (!take(text, 'T')) return std::nullopt;
    std::optional<milliseconds> clock = take_clock(text);
    if (!clock || *clock > 24h || !text.empty()) return std::nullopt;
    if (*clock == 24h) {
        date = core::Date(sys_days(*date) + days(1));
        clock = 0ms;
    }
    return iso_text(zero ? std::nullopt : date, clock);
}

std::optional<std::string> iso_duration(std::string_view text) {
    if (!take(text, 'P') || !take(text, 'T')) return std::nullopt;
    std::array<double, 3> parts{};
    constexpr std::string_view marks = "HMS";
    for (std::size_t next = 0; !text.empty();) {
        const auto number = take_number(text);
        const std::size_t which = text.empty() ? std::string_view::npos : marks.find(text.front(), next);
        if (!number || *number > 1e6 || which == std::string_view::npos) return std::nullopt;
        parts[which] = *number;
        next = which + 1;
        text.remove_prefix(1);
    }
    return iso_text({}, clock_of(parts[0], parts[1], parts[2]));
}

}  // namespace roostward::io
