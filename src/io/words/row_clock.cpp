#include "words/row_clock.hpp"

#include "roostward/core/catalogue.hpp"
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
    row.report().set_aside(field.name, trouble_in(reading).kind, text, core::said(trouble_in(reading).key));
    return std::nullopt;
}

void RowClock::require_zone(const RowReader& row, const Field& field, const WrittenTime& time) const {
    if (time.offset || clock_.has_zone()) return;
    throw core::Error(
        core::Fault::site_file,
        {row.report().file_of(row.report().row()), row.report().layer(), row.row().number, field.name},
        core::said("error.no_time_zone", {{"time", row.text(field)}}));
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
                               core::said("finding.no_evening"));
        return std::nullopt;
    }
    if (read->as == WatchHours::As::of_the_evening) {
        row.report().doubt(field.name, "time of the evening", "",
                           core::said("finding.twelve_hours_later", {{"time", row.text(field)}}));
    } else if (read->as == WatchHours::As::after_midnight) {
        row.report().doubt(field.name, "date of the evening", "",
                           core::said("finding.after_midnight", {{"time", row.text(field)}}));
    } else if (!time.date && watch.empty()) {
        row.report().doubt(field.name, "date from the watches", "", core::said("finding.date_from_watches"));
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
                               core::said(trouble_in(reading).key));
        return std::nullopt;
    }
    if (moment->repeated) {
        row.report().doubt(field.name, "repeated hour", row.text(field), core::said("finding.repeated_hour"));
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
        row.report().set_aside("time", "no time", "", core::said("finding.no_time"));
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
                                                   std::string_view watch, DateOf date_of) const {
    std::optional<WrittenTime> from = written(row, start);
    std::optional<WrittenTime> to = written(row, end);
    const std::optional<WrittenTime> day = from && from->date ? std::nullopt : written(row, date);
    if (!row.report().usable()) return std::nullopt;
    if (!from || !to || !from->time_of_day || !to->time_of_day) {
        row.report().set_aside(!from || !from->time_of_day ? "start" : "end", "no start or end", "",
                               core::said("finding.no_start_or_end"));
        return std::nullopt;
    }
    if (!from->date && day) from->date = day->date;
    if (!from->date && watches_ != nullptr) {
        from = understood(row, start, *from, watch, false);
        if (!from) return std::nullopt;
    }
    if (!from->date) {
        row.report().set_aside("start", "time without a date", row.text(start),
                               core::said("finding.start_without_date"));
        return std::nullopt;
    }
    const bool end_has_date = to->date.has_value();
    if (day && !end_has_date && may_be_evening(*from, *to) && row.text(start).front() != '0') {
        row.report().doubt(start.name, "time of the evening", "",
                           core::said("finding.start_of_the_evening", {{"time", row.text(start)}}));
        move_to_evening(*from->time_of_day, *to->time_of_day);
    }
    if (day && date_of == DateOf::evening && *from->time_of_day < 12h) from->date = next_day(*from->date);
    if (!end_has_date) to->date = from->date;
    if (!to->offset && !end_has_date) to->offset = from->offset;
    const std::optional<Moment> first = moment(row, start, *from);
    std::optional<Moment> last = first ? moment(row, end, *to) : std::nullopt;
    if (first && last && !end_has_date && last->instant < first->instant) {
        to->date = next_day(*to->date);
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
    row.report().doubt(field.name, "unreadable date", text, core::said("finding.unreadable_date"));
    return std::nullopt;
}

}  // namespace roostward::io
