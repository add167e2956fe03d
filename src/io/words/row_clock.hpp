#pragma once

#include <initializer_list>
#include <optional>

#include "layers/layer_opening.hpp"
#include "roostward/io/times.hpp"
#include "words/watch_hours.hpp"

namespace roostward::io {

/// When one row was written to have happened.
struct RowTime {
    std::optional<Moment> moment;
    std::optional<core::Evening> evening;  ///< also where only the date is known
};

/// Reads the times of a layer. Rows with unreadable times are set aside.
class RowClock {
 public:
    /// Finds out whether day or month comes first, from `date_order` or from the dates themselves. Throws
    /// Error{inputs} where both fit, and asks for `date_order`.
    RowClock(const SiteClock& clock, OpenLayer& layer, const InputSource& source, LayerReport& report,
             std::initializer_list<const char*> fields);
    /// The same for what was seen from watches, which tell what a time or date leaves open. They must outlive
    /// this.
    RowClock(const SiteClock& clock, const WatchHours& watches, OpenLayer& layer, const InputSource& source,
             LayerReport& report, std::initializer_list<const char*> fields);

    /// Unknown where the dates do not show it, or need none.
    [[nodiscard]] DateOrder date_order() const { return order_; }

    /// A time that may stand in two columns, or be a date only. `watch` is the name of the watch it was seen
    /// from; empty where not told.
    [[nodiscard]] RowTime at(const RowReader& row, const Field& date, const Field& time,
                             std::string_view watch) const;
    /// From when to when; an end with no date of its own that lies before the start is on the next day.
    /// What was counted from a watch may leave its date to that. The date is that of the start, or of an
    /// evening, whose times before noon are of the next day.
    /// "9:25" to "11:00" is an evening's watch, with a doubt; "05:25" is not. Empty where the row was set
    /// aside.
    struct Stretch {
        Moment start;
        core::Instant end;
    };
    enum class DateOf { start, evening };
    [[nodiscard]] std::optional<Stretch> stretch(const RowReader& row, const Field& date, const Field& start,
                                                 const Field& end, std::string_view watch = {},
                                                 DateOf date_of = DateOf::start) const;
    [[nodiscard]] std::optional<core::Date> date(const RowReader& row, const Field& field) const;

 private:
    [[nodiscard]] std::optional<WrittenTime> written(const RowReader& row, const Field& field) const;
    [[nodiscard]] std::optional<Moment> moment(const RowReader& row, const Field& field,
                                               const WrittenTime& time) const;

    void require_zone(const RowReader& row, const Field& field, const WrittenTime& time) const;
    /// What the watches say of a written time; empty where the row was set aside.
    [[nodiscard]] std::optional<WrittenTime> understood(const RowReader& row, const Field& field,
                                                        const WrittenTime& time, std::string_view watch,
                                                        bool date_stands_apart) const;

    const SiteClock& clock_;
    const WatchHours* watches_ = nullptr;
    DateOrder order_ = DateOrder::unknown;
};

}  // namespace roostward::io
