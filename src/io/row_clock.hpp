#pragma once

#include <initializer_list>
#include <optional>

#include "layer_opening.hpp"
#include "roostward/io/times.hpp"

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
    RowClock(const SiteClock& clock, OpenLayer& layer, const InputSource& source,
             std::initializer_list<const char*> fields);

    /// A time that may stand in two columns, or be a date only.
    [[nodiscard]] RowTime at(const RowReader& row, const Field& date, const Field& time) const;
    /// From when to when; an end with no date of its own that lies before the start is on the next day. Empty
    /// where the row was set aside.
    struct Stretch {
        Moment start;
        core::Instant end;
    };
    [[nodiscard]] std::optional<Stretch> stretch(const RowReader& row, const Field& date, const Field& start,
                                                 const Field& end) const;
    [[nodiscard]] std::optional<core::Date> date(const RowReader& row, const Field& field) const;

 private:
    [[nodiscard]] std::optional<WrittenTime> written(const RowReader& row, const Field& field) const;
    [[nodiscard]] std::optional<Moment> moment(const RowReader& row, const Field& field,
                                               const WrittenTime& time) const;

    const SiteClock& clock_;
    DateOrder order_ = DateOrder::unknown;
};

}  // namespace roostward::io
