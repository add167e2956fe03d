#include "roostward/io/times.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/core/folding.hpp"

#include <date/tz.h>
#include <fmt/format.h>

namespace roostward::io {

namespace {

using namespace std::chrono_literals;
using std::chrono::milliseconds;
using std::chrono::minutes;

const Trouble no_time{"unreadable time", "finding.unreadable_time"};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Reads a text from left to right.
class Scanner {
 public:
    explicit Scanner(std::string_view text) : rest_(text) { skip_spaces(); }

    [[nodiscard]] bool done() const { return rest_.empty(); }
    [[nodiscard]] char peek() const { return rest_.empty() ? '\0' : rest_.front(); }
    [[nodiscard]] std::size_t digits_ahead() const {
        return static_cast<std::size_t>(std::find_if_not(rest_.begin(), rest_.end(), is_digit) -
                                        rest_.begin());
    }

    void skip_spaces() {
        while (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '\t'))
            rest_.remove_prefix(1);
    }
    bool take(char c) {
        if (peek() != c) return false;
        rest_.remove_prefix(1);
        return true;
    }
    bool take(std::string_view mark) {
        if (rest_.substr(0, mark.size()) != mark) return false;
        rest_.remove_prefix(mark.size());
        return true;
    }
    bool take_any(std::string_view of) {
        if (rest_.empty() || of.find(rest_.front()) == std::string_view::npos) return false;
        rest_.remove_prefix(1);
        return true;
    }
    void skip_any(std::string_view of) {
        while (take_any(of)) {
        }
    }
    /// A whole number of at most `most` digits.
    std::optional<int> number(std::size_t most) {
        const std::size_t count = std::min(digits_ahead(), most);
        if (count == 0) return std::nullopt;
        int value = 0;
        for (std::size_t i = 0; i < count; ++i)
            value = value * 10 + (rest_[i] - '0');
        rest_.remove_prefix(count);
        return value;
    }
    std::string word() {
        std::string out;
        while (is_letter(peek())) {
            out.push_back(peek());
            rest_.remove_prefix(1);
        }
        return core::folded(out);
    }

 private:
    std::string_view rest_;
};

core::Date date_of(int year, int month, int day) {
    return core::Date(std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                      std::chrono::day(static_cast<unsigned>(day)));
}

std::optional<int> month_of(std::string_view word) {
    constexpr std::array<std::string_view, 12> names = {"january",   "february", "march",    "april",
                                                        "may",       "june",     "july",     "august",
                                                        "september", "october",  "november", "december"};
    if (word.size() < 3) return std::nullopt;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names[i].substr(0, word.size()) == word || word == "sept") {
            return word == "sept" ? 9 : static_cast<int>(i) + 1;
        }
    }
    return std::nullopt;
}

int full_year(int year) {
    return year < 100 ? 2000 + year : year;
}

/// a/b/y with any of the separators, before it is known which of a and b is the month.
struct NumericDate {
    int first = 0;
    int second = 0;
    int year = 0;
    bool dotted = false;
};

std::optional<NumericDate> take_numeric_date(Scanner& scan) {
    Scanner ahead = scan;
    const std::optional<int> first = ahead.number(2);
    const char mark = ahead.peek();
    if (!first || !ahead.take_any("/.-")) return std::nullopt;
    ahead.skip_spaces();
    const std::optional<int> second = ahead.number(2);
    if (!second || !ahead.take(mark)) return std::nullopt;
    ahead.skip_spaces();
    const std::size_t digits = ahead.digits_ahead();
    if (digits != 2 && digits != 4) return std::nullopt;
    const int year = full_year(*ahead.number(4));
    scan = ahead;
    return NumericDate{*first, *second, year, mark == '.'};
}

/// "2026-06-12", "20260612", "2026/6/12".
std::optional<core::Date> take_iso_date(Scanner& scan) {
    Scanner ahead = scan;
    if (ahead.digits_ahead() != 4 && ahead.digits_ahead() != 8) return std::nullopt;
    const bool basic = ahead.digits_ahead() == 8;
    const int year = *ahead.number(4);
    if (!basic && !ahead.take_any("-/.")) return std::nullopt;
    const std::optional<int> month = ahead.number(2);
    if (!month || (!basic && !ahead.take_any("-/."))) return std::nullopt;
    const std::optional<int> day = ahead.number(2);
    if (!day) return std::nullopt;
    scan = ahead;
    return date_of(year, *month, *day);
}

/// "12 June 2026", "12-Jun-26", "June 12, 2026".
std::optional<core::Date> take_worded_date(Scanner& scan) {
    Scanner ahead = scan;
    std::optional<int> day = ahead.number(2);
    ahead.skip_any(" -./");
    const std::optional<int> month = month_of(ahead.word());
    if (!month) return std::nullopt;
    ahead.skip_any(" -./,");
    if (!day) {
        day = ahead.number(2);
        ahead.skip_any(" ,");
    }
    const std::size_t digits = ahead.digits_ahead();
    if (!day || (digits != 2 && digits != 4)) return std::nullopt;
    const int year = full_year(*ahead.number(4));
    scan = ahead;
    return date_of(year, *month, *day);
}

Reading<std::optional<core::Date>> take_date(Scanner& scan, DateOrder order) {
    if (const auto iso = take_iso_date(scan)) return iso;
    if (const auto worded = take_worded_date(scan)) return worded;
    const std::optional<NumericDate> date = take_numeric_date(scan);
    if (!date) return std::optional<core::Date>();
    if (order == DateOrder::unknown && !date->dotted && date->first <= 12 && date->second <= 12 &&
        date->first != date->second) {
        return Trouble{"day or month first?", "finding.day_or_month_first"};
    }
    const bool month_first = !date->dotted && (order == DateOrder::month_first ||
                                               (order == DateOrder::unknown && date->second > 12));
    return std::optional(month_first ? date_of(date->year, date->first, date->second)
                                     : date_of(date->year, date->second, date->first));
}

milliseconds take_fraction(Scanner& scan, milliseconds unit) {
    const std::size_t digits = scan.digits_ahead();
    double value = 0.0;
    double place = 0.1;
    for (std::size_t i = 0; i < digits; ++i, place *= 0.1)
        value += place * *scan.number(1);
    return milliseconds(std::llround(value * static_cast<double>(unit.count())));
}

/// am and pm move the hour: whether one of them stands here; empty where the hour is none of a 12-hour clock.
std::optional<bool> take_half_day(Scanner& scan, int& hour) {
    Scanner ahead = scan;
    ahead.skip_spaces();
    std::string word = ahead.word();
    if (word == "a" || word == "p") {
        ahead.take('.');
        word += ahead.word();
        ahead.take('.');
    }
    if (word != "am" && word != "pm") return false;
    if (hour < 1 || hour > 12) return std::nullopt;
    hour = hour % 12 + (word == "pm" ? 12 : 0);
    scan = ahead;
    return true;
}

/// "21:04 Uhr", "21:04 h".
void take_word_for_clock(Scanner& scan) {
    Scanner ahead = scan;
    ahead.skip_spaces();
    const std::string word = ahead.word();
    if (word == "uhr" || word == "h" || word == "hrs") scan = ahead;
}

struct TimeOfDay {
    milliseconds since_midnight;
    bool half_told = false;  ///< am or pm stands behind it
};

/// "21:04", "21:04:30.5", "2104", "904", "210430", "9 pm", "21h04", "21:04 Uhr".
std::optional<TimeOfDay> take_time_of_day(Scanner& scan) {
    const std::size_t digits = scan.digits_ahead();
    const bool basic = digits == 3 || digits == 4 || digits == 6;
    const bool separated = !basic;
    std::optional<int> hour = scan.number(digits == 3 ? 1 : 2);
    if (!hour) return std::nullopt;
    std::optional<int> minute = 0;
    std::optional<int> second = 0;
    milliseconds fraction{0};
    const bool has_minute = basic || scan.take_any(":.hH");
    if (has_minute) {
        minute = scan.digits_ahead() == 0 && separated ? std::optional(0) : scan.number(2);
        const bool has_second = (basic && scan.digits_ahead() >= 2) || (separated && scan.take_any(":."));
        if (has_second) second = scan.number(2);
        if (has_second && scan.take_any(".,")) fraction = take_fraction(scan, 1s);
    }
    take_word_for_clock(scan);
    const std::optional<bool> half_day = take_half_day(scan, *hour);
    if (!minute || !second || !half_day || (!has_minute && !*half_day)) return std::nullopt;
    const bool end_of_day = *hour == 24 && *minute == 0 && *second == 0 && fraction == 0ms;
    if ((*hour > 23 && !end_of_day) || *minute > 59 || *second > 60) return std::nullopt;
    return TimeOfDay{std::chrono::hours(*hour) + minutes(*minute) + std::chrono::seconds(*second) + fraction,
                     *half_day};
}

Reading<std::optional<minutes>> take_offset(Scanner& scan) {
    scan.skip_spaces();
    if (scan.done()) return std::optional<minutes>();
    if (scan.take_any("Zz")) return std::optional(0min);
    if (scan.take(std::string_view("UTC")) || scan.take(std::string_view("GMT"))) {
        if (scan.done()) return std::optional(0min);
    }
    const bool west = scan.take('-') || scan.take(std::string_view("\u2212"));
    if (!west && !scan.take('+')) return no_time;
    const std::optional<int> hour = scan.number(2);
    scan.take(':');
    const int minute = scan.number(2).value_or(0);
    if (!hour || *hour > 14 || minute > 59) return no_time;
    const minutes size = std::chrono::hours(*hour) + minutes(minute);
    return std::optional(west ? -size : size);
}

std::chrono::local_days local_days_of(core::Date date) {
    return std::chrono::local_days(date);
}

const date::time_zone* zone_in(const void* zone) {
    return static_cast<const date::time_zone*>(zone);
}

core::Evening evening_at(std::chrono::milliseconds local_since_epoch) {
    const auto days = std::chrono::floor<std::chrono::days>(local_since_epoch - 12h);
    return {core::Date(std::chrono::sys_days(days))};
}

}  // namespace

Reading<WrittenTime> read_time(std::string_view text, DateOrder order) {
    Scanner scan(text);
    WrittenTime written;
    bool by_program = false;
    const Reading<std::optional<core::Date>> date = take_date(scan, order);
    if (!value_in(date)) return trouble_in(date);
    written.date = *value_in(date);
    if (written.date) {
        if (!written.date->ok()) return Trouble{"no such date", "finding.no_such_date"};
        by_program = scan.take_any("Tt");
        scan.take(',');
        scan.skip_spaces();
        if (scan.done()) return written;
    }
    const std::optional<TimeOfDay> time = take_time_of_day(scan);
    if (!time) return no_time;
    written.time_of_day = time->since_midnight;
    const Reading<std::optional<minutes>> offset = take_offset(scan);
    if (!value_in(offset)) return trouble_in(offset);
    written.offset = *value_in(offset);
    written.of_twelve_hours = !by_program && !time->half_told && !written.offset &&
                              time->since_midnight >= 1h && time->since_midnight < 13h;
    scan.skip_spaces();
    if (!scan.done()) return no_time;
    return written;
}

std::optional<DateOrder> order_shown_by(std::string_view text) {
    Scanner scan(text);
    const std::optional<NumericDate> date = take_numeric_date(scan);
    if (!date || date->dotted) return std::nullopt;
    if (date->first > 12) return DateOrder::day_first;
    if (date->second > 12) return DateOrder::month_first;
    return date->first == date->second ? std::nullopt : std::optional(DateOrder::unknown);
}

SiteClock::SiteClock(const std::string& zone_name) {
    if (zone_name.empty()) return;
    try {
        zone_ = date::locate_zone(zone_name);
    } catch (const std::exception&) {
        throw core::Error(core::Fault::site_file, {{}, {}, {}, "site.timezone"},
                          core::said("error.unknown_time_zone", {{"zone", zone_name}}));
    }
}

Reading<Moment> SiteClock::moment_of(const WrittenTime& time) const {
    const int year = static_cast<int>(time.date->year());
    if (year < 1990) return Trouble{"clock not set", "finding.clock_not_set"};
    if (year > 2037) return Trouble{"date too late", "finding.date_too_late"};
    const milliseconds local = local_days_of(*time.date).time_since_epoch() + *time.time_of_day;
    if (time.offset) {
        const core::Instant instant(local - *time.offset);
        return Moment{instant, evening_of(instant, *time.offset), false};
    }
    const auto wall = date::local_time<milliseconds>(local);
    const date::local_info info = zone_in(zone_)->get_info(wall);
    if (info.result == date::local_info::nonexistent) {
        return Trouble{"skipped hour", "finding.skipped_hour"};
    }
    return Moment{core::Instant(local - info.first.offset), evening_at(local),
                  info.result == date::local_info::ambiguous};
}

std::string SiteClock::local_text(core::Instant instant) const {
    const auto ahead = zone_ == nullptr ? std::chrono::seconds(0) : zone_in(zone_)->get_info(instant).offset;
    const std::string wall = core::to_text(core::Instant(instant.time_since_epoch() + ahead));
    const auto minutes_ahead = std::chrono::duration_cast<minutes>(ahead).count();
    return fmt::format("{}{}{:02}:{:02}", wall.substr(0, wall.size() - 1), minutes_ahead < 0 ? '-' : '+',
                       std::abs(minutes_ahead) / 60, std::abs(minutes_ahead) % 60);
}

std::vector<core::ClockOffset> SiteClock::offsets(core::Instant first, core::Instant last) const {
    constexpr core::Instant earliest{};
    if (zone_ == nullptr) return {{earliest, 0s, 0s, "UTC", false}};
    std::vector<core::ClockOffset> all;
    const auto in_force = zone_in(zone_)->get_info(first).begin;
    for (core::Instant at = in_force > earliest ? core::Instant(in_force - 1s) : first; at <= last;) {
        const date::sys_info info = zone_in(zone_)->get_info(at);
        const bool begins = info.begin > earliest;
        const auto before = begins ? zone_in(zone_)->get_info(info.begin - 1s).offset : info.offset;
        all.push_back({begins ? core::Instant(info.begin) : earliest, before, info.offset, info.abbrev,
                       info.save > 0min});
        at = info.end;
    }
    return all;
}

core::Instant SiteClock::instant_at(core::Date date, minutes after_midnight) const {
    const milliseconds local = local_days_of(date).time_since_epoch() + milliseconds(after_midnight);
    if (zone_ == nullptr) return core::Instant(local);
    const date::local_info info = zone_in(zone_)->get_info(date::local_time<milliseconds>(local));
    return core::Instant(local - info.first.offset);
}

core::Evening SiteClock::evening_of(core::Instant instant, minutes offset) const {
    if (zone_ == nullptr) return evening_at(instant.time_since_epoch() + offset);
    return evening_at(instant.time_since_epoch() + zone_in(zone_)->get_info(instant).offset);
}

}  // namespace roostward::io
