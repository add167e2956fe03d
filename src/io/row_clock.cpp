#include "row_clock.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "input_file.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

bool has_date(const std::string& text) {
    const Reading<WrittenTime> reading = read_time(text, DateOrder::day_first);
    const WrittenTime* time = value_in(reading);
    return time != nullptr && time->date.has_value();
}

/// Looks at dates until one settles the order, or the first needs none.
class OrderSearch {
 public:
    [[nodiscard]] DateOrder found() const { return found_; }
    [[nodiscard]] const std::string& undecided() const { return undecided_; }

    bool goes_on_after(const std::string& text) {
        if (text.empty()) return true;
        const std::optional<DateOrder> shown = order_shown_by(text);
        if (!shown) return !(undecided_.empty() && has_date(text));
        if (*shown == DateOrder::unknown)
            undecided_ = text;
        else
            found_ = *shown;
        return found_ == DateOrder::unknown;
    }

 private:
    DateOrder found_ = DateOrder::unknown;
    std::string undecided_;
};

/// "2027" and "2027-05" as the first day of the year or month.
std::optional<core::Date> first_day_of(const std::string& text) {
    if (text.size() != 4 && text.size() != 7) return std::nullopt;
    const Reading<WrittenTime> reading =
        read_time(text + (text.size() == 4 ? "-01-01" : "-01"), DateOrder::unknown);
    const WrittenTime* time = value_in(reading);
    return time == nullptr ? std::nullopt : time->date;
}

DateOrder order_in(OpenLayer& layer, const InputSource& source, std::initializer_list<const char*> names) {
    if (source.date_order == "dmy") return DateOrder::day_first;
    if (source.date_order == "mdy") return DateOrder::month_first;
    const auto given = [&](const char* name) { return layer.fields.at(name).given(); };
    if (std::none_of(names.begin(), names.end(), given)) return DateOrder::unknown;
    OrderSearch search;
    LayerReport unheard({}, {});
    layer.rows->for_each(layer.fields.wanted(), [&](const SourceRow& row) {
        bool goes_on = true;
        for (const char* name : names) {
            const std::string text = RowReader(row, unheard).text(layer.fields.at(name));
            goes_on = goes_on && search.goes_on_after(text);
        }
        return goes_on;
    });
    if (search.found() == DateOrder::unknown && !search.undecided().empty()) {
        cannot_use(source,
                   fmt::format("\"{}\" can be day/month or month/day, and no date in this layer tells. Say "
                               "date_order = \"dmy\" or date_order = \"mdy\" for it in the site file.",
                               search.undecided()));
    }
    return search.found();
}

}  // namespace

RowClock::RowClock(const SiteClock& clock, OpenLayer& layer, const InputSource& source,
                   std::initializer_list<const char*> fields)
    : clock_(clock), order_(order_in(layer, source, fields)) {}

std::optional<WrittenTime> RowClock::written(const RowReader& row, const Field& field) const {
    const std::string text = row.text(field);
    if (says_nothing(text)) return std::nullopt;
    const Reading<WrittenTime> reading = read_time(text, order_);
    if (const WrittenTime* time = value_in(reading)) return *time;
    row.report().set_aside(field.name, trouble_in(reading).kind, text, trouble_in(reading).sentence);
    return std::nullopt;
}

std::optional<Moment> RowClock::moment(const RowReader& row, const Field& field,
                                       const WrittenTime& time) const {
    if (!time.offset && !clock_.has_zone()) {
        throw core::Error(
            core::Fault::site_file, {row.report().file(), row.report().layer(), row.row().number, field.name},
            fmt::format("\"{}\" has no offset, so the site needs a time zone. Say it in the site file: "
                        "[site] timezone = \"Europe/London\", or whichever holds there.",
                        row.text(field)));
    }
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

RowTime RowClock::at(const RowReader& row, const Field& date, const Field& time) const {
    std::optional<WrittenTime> written_time = written(row, time);
    const std::optional<WrittenTime> written_date =
        written_time && written_time->date ? std::nullopt : written(row, date);
    if (!row.report().usable()) return {};
    if (!written_time && !written_date) {
        row.report().set_aside("time", "no time", "", "write when it was, as 2026-06-12T21:04");
        return {};
    }
    if (!written_time)
        written_time = written_date;
    else if (!written_time->date && written_date)
        written_time->date = written_date->date;
    if (!written_time->date) {
        row.report().set_aside("time", "time without a date", row.text(time),
                               "add a column date, or write date and time");
        return {};
    }
    if (!written_time->time_of_day) return {std::nullopt, core::Evening{*written_time->date}};
    const std::optional<Moment> when = moment(row, time.given() ? time : date, *written_time);
    if (!when) return {};
    return {when, when->evening};
}

std::optional<RowClock::Stretch> RowClock::stretch(const RowReader& row, const Field& date,
                                                   const Field& start, const Field& end) const {
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
    if (!from->date) {
        row.report().set_aside("start", "time without a date", row.text(start),
                               "add a column date, or write date and time");
        return std::nullopt;
    }
    const bool end_has_date = to->date.has_value();
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
