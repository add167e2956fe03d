#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/io/times.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::io {

[[nodiscard]] core::Date next_day(core::Date date);

/// When people watched, which says what a clock time in their notes must have meant.
class WatchHours {
 public:
    WatchHours() = default;
    explicit WatchHours(DateOrder order) : order_(order) {}
    /// The watch must outlive this.
    void add(const survey::Watch& watch);

    /// How the watches write their dates; unknown where they do not show it.
    [[nodiscard]] DateOrder date_order() const { return order_; }

    /// How a time was understood.
    enum class As { written, of_the_evening, after_midnight };
    struct Understood {
        WrittenTime time;
        As as = As::written;
    };

    /// The first of these that lies within a watch of this name (of any name where it is empty): as written,
    /// twelve hours later where that may be meant, after the midnight of a date that stands apart and is the
    /// evening's. As written where none does.
    [[nodiscard]] Understood dated(const SiteClock& clock, const WrittenTime& time, std::string_view name,
                                   bool date_stands_apart) const;
    /// A time that has no date yet gets the one of the only evening on which it lies within a watch of this
    /// name (of any name where it is empty), as written or else twelve hours later. A name that was used on
    /// one evening only tells the date alone. Empty where the evening cannot be told.
    [[nodiscard]] std::optional<Understood> undated(const SiteClock& clock, const WrittenTime& time,
                                                    std::string_view name) const;

 private:
    [[nodiscard]] const std::vector<const survey::Watch*>& called(std::string_view name) const;
    [[nodiscard]] bool anyone_at(const SiteClock& clock, const WrittenTime& time,
                                 std::string_view name) const;
    [[nodiscard]] std::vector<WrittenTime> fitting(const SiteClock& clock, const WrittenTime& time,
                                                   std::string_view name) const;

    std::map<std::string, std::vector<const survey::Watch*>, std::less<>> by_name_;
    std::vector<const survey::Watch*> all_;
    DateOrder order_ = DateOrder::unknown;
};

}  // namespace roostward::io
