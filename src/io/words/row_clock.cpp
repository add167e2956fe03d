#include "words/row_clock.hpp"

#include <fmt/format.h>

#include "roostward/core/error.hpp"
#include "words/date_order.hpp"

namespace roostward::io {

namespace {

using namespace std::chrono_literals;

/// Whether a watch from one to the other starts from 5 to 12 of nobody knows which half of the day.
bool may_be_evening(const WrittenTime& from, const WrittenTime& to) {
    return from.of_twelve_hours && to.of_twelve_hours && *from.time_of_day >= 5h && *from.time_of_day < 12h;
}

/// "9:25" to "11:00" or to "12:15", which is after midnight.
void move_to_evening(std::chrono::milliseconds& from, std::chrono::milliseconds& to) {
    from += 12h;
    if (to >= 12h)
        to -= 12h;
    else if (to + 12h >= from)
        to += 12h;
}

/// "2027" and "2027-05" as the first day of the year or month.
std::optional<core::Date> first_day_of(const std::string& text) {
    if (text.size() != 4 && text.size() != 7) return std::nullopt;
    const Reading<WrittenTime> reading =
        read_time(text + (text.size() == 4 ? "-01-01" : "-01"), DateOrder::unknown);
    const WrittenTime* time = value_in(reading);
    return time == nullptr ? std::nullopt : time->date;
}

}  // namespace

RowClock::RowClock(const SiteClock& clock, OpenLayer& layer, const InputSource& source, LayerReport& report,
                   std::initializer_list<const char*> fields)
    : clock_(clock), order_(date_order_in(layer, source, report, fields, DateOrder::unknown)) {}

RowClock::RowClock(const SiteClock& clock, const WatchHours& watches, OpenLayer& layer,
                   const InputSource& source, LayerReport& report, std::initializer_list<const char*> fields)
    : clock_(clock),
      watches_(&watches),
      order_(date_order_in(layer, source, report, fields, watches.date_order())) {}

std::optional<WrittenTime> RowClock::written(const RowReader& row, const Field& field) const {
    const std::string text = row.text(field);
    if (says_nothing(text)) return std::nullopt;
    const Reading<WrittenTime> reading = read_time(text, order_);
    if (const WrittenTime* time = value_in(reading)) return *time;
    row.report().set_aside(field.name, trouble_in(reading).kind, text, trouble_in(reading).sentence);
    return std::nullopt;
}

void RowClock::require_zone(const RowReader& row, const Field& field, const WrittenTime& time) const {
    if (time.offset || clock_.has_zone()) return;
    throw core::Error(
        core::Fault::site_file, {row.report().file(), row.report().layer(), row.row().number, field.name},
        fmt::format("\"{}\" has no offset, so the site needs a time zone. Say it in the site file: "
                    "[site] timezone = \"Europe/London\", or whichever holds there.",
                    row.text(field)));
}

std::optional<WrittenTime> RowClock::understood(const RowReader& row, const Field& field,
                                                const WrittenTime& time, std::string_view watch,
                                                bool date_stands_apart) const {
    if (watches_ == nullptr) return time;
    require_zone(row, field, time);
    const std::optional<WatchHours::Understood> read =
        time.date ? watches_->dated(clock_, time, watch, date_stands_apart)
                  : watches_->undated(clock_, time, watch);
    if (!read) {
        row.report().set_aside("time", "time without a date", row.text(field),
                               "no watch tells which evening this was: add a column date, or name the watch "
                               "and give its date in the watches");
        return std::nullopt;
    }
    if (read->as == WatchHours::As::of_the_evening) {
        row.report().doubt(field.name, "time of the evening", "",
                           fmt::format("\"{}\" was taken as twelve hours later, when somebody watched; write "
                                       "21:46 or 9:46 pm",
                                       row.text(field)));
    } else if (read->as == WatchHours::As::after_midnight) {
        row.report().doubt(
            field.name, "date of the evening", "",
            fmt::format("\"{}\" was taken as after midnight of its date, when somebody watched; "
                        "write the date on which it was",
                        row.text(field)));
    } else if (!time.date && watch.empty()) {
        row.report().doubt(field.name, "date from the watches", "",
                           "somebody watched at this time on one evening only, so that one was taken; write "
                           "the date, or name the watch");
    }
    return read->time;
}

std::optional<Moment> RowClock::moment(const RowReader& row, const Field& field,
                                       const WrittenTime& time) const {
    require_zone(row, field, time);
    const Reading<Moment> reading = clock_.moment_of(time);
    const Moment* moment = value_in(reading);
    if (moment == nullptr) {
        row.report().set_aside(field.name, trouble_in(reading).kind, row.text(field),
                               trouble_in(reading).sentence);
        return std::nullopt;
    }
    if (moment->repeated) {
        row.report().doubt(
            field.name, "repeated hour", row.text(field),
            "clocks went back and this time stood on them twice; the first was taken. Add the offset if it "
            "was the second");
    }
    return *moment;
}

RowTime RowClock::at(const RowReader& row, const Field& date, const Field& time,
                     std::string_view watch) const {
    std::optional<WrittenTime> written_time = written(row, time);
    const std::optional<WrittenTime> written_date =
        written_time && written_time->date ? std::nullopt : written(row, date);
    if (!row.report().usable()) return {};
    if (!written_time && !written_date) {
        row.report().set_aside("time", "no time", "", "write when it was, as 2026-06-12T21:04");
        return {};
    }
    const bool date_stands_apart = written_time && !written_time->date && written_date;
    if (!written_time)
        written_time = written_date;
    else if (date_stands_apart)
        written_time->date = written_date->date;
    if (!written_time->time_of_day) return {std::nullopt, core::Evening{*written_time->date}};
    const Field& from = time.given() ? time : date;
    written_time = understood(row, from, *written_time, watch, date_stands_apart);
    if (!written_time) return {};
    const std::optional<Moment> when = moment(row, from, *written_time);
    if (!when) return {};
    return {when, when->evening};
}

std::optional<RowClock::Stretch> RowClock::stretch(const RowReader& row, const Field& date,
                                                   const Field& start, const Field& end,
                                                   std::string_view watch) const {
    std::optional<WrittenTime> from = written(row, start);
    std::optional<WrittenTime> to = written(row, end);
    const std::optional<WrittenTime> day = from && from->date ? std::nullopt : written(row, date);
    if (!row.report().usable()) return std::nullopt;
    if (!from || !to || !from->time_of_day || !to->time_of_day) {
        row.report().set_aside(!from || !from->time_of_day ? "start" : "end", "no start or end", "",
                               "write when watching began and ended, as 21:04");
        return std::nullopt;
    }
    if (!from->date && day) from->date = day->date;
    if (!from->date && watches_ != nullptr) {
        from = understood(row, start, *from, watch, false);
        if (!from) return std::nullopt;
    }
    if (!from->date) {
        row.report().set_aside("start", "time without a date", row.text(start),
                               "add a column date, or write date and time");
        return std::nullopt;
    }
    const bool end_has_date = to->date.has_value();
    if (day && !end_has_date && may_be_evening(*from, *to) && row.text(start).front() != '0') {
        row.report().doubt(start.name, "time of the evening", "",
                           fmt::format("\"{}\" was taken as one of the evening; write 21:25 or 9:25 pm, and "
                                       "05:25 for the morning",
                                       row.text(start)));
        move_to_evening(*from->time_of_day, *to->time_of_day);
    }
    if (!end_has_date) to->date = from->date;
    if (!to->offset && !end_has_date) to->offset = from->offset;
    const std::optional<Moment> first = moment(row, start, *from);
    std::optional<Moment> last = first ? moment(row, end, *to) : std::nullopt;
    if (first && last && !end_has_date && last->instant < first->instant) {
        to->date = core::Date(std::chrono::sys_days(*to->date) + std::chrono::days(1));
        last = moment(row, end, *to);
    }
    if (!first || !last) return std::nullopt;
    return Stretch{*first, last->instant};
}

std::optional<core::Date> RowClock::date(const RowReader& row, const Field& field) const {
    const std::string text = row.text(field);
    if (says_nothing(text)) return std::nullopt;
    if (const std::optional<core::Date> day = first_day_of(text)) return day;
    const Reading<WrittenTime> reading = read_time(text, order_);
    const WrittenTime* time = value_in(reading);
    if (time != nullptr && time->date) return time->date;
    row.report().doubt(field.name, "unreadable date", text,
                       "write the date as 2026-06-12; until then it counts as unknown");
    return std::nullopt;
}

}  // namespace roostward::io
