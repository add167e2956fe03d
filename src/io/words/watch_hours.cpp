#include "words/watch_hours.hpp"

#include <algorithm>

#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

using namespace std::chrono_literals;
using survey::Watch;

/// A watch's clock and an observer's may differ by so much (inclusive).
constexpr std::chrono::minutes clock_slack{1};

/// The clock time on the evening of this date: before noon it is the next day.
WrittenTime on_evening(WrittenTime time, core::Date evening) {
    time.date = *time.time_of_day < 12h ? next_day(evening) : evening;
    return time;
}

/// 9:46 as 21:46, and 12:10 as ten past midnight.
WrittenTime in_other_half(WrittenTime time) {
    *time.time_of_day += *time.time_of_day < 12h ? 12h : -12h;
    return time;
}

}  // namespace

core::Date next_day(core::Date date) {
    return core::Date(std::chrono::sys_days(date) + std::chrono::days(1));
}

void WatchHours::add(const Watch& watch) {
    by_name_[core::folded(watch.name)].push_back(&watch);
    all_.push_back(&watch);
}

const std::vector<const Watch*>& WatchHours::called(std::string_view name) const {
    static const std::vector<const Watch*> none;
    if (name.empty()) return all_;
    const auto found = by_name_.find(core::folded(name));
    return found == by_name_.end() ? none : found->second;
}

bool WatchHours::anyone_at(const SiteClock& clock, const WrittenTime& time, std::string_view name) const {
    const std::vector<const Watch*>& watches = called(name);
    if (watches.empty()) return false;
    const Reading<Moment> reading = clock.moment_of(time);
    const Moment* moment = value_in(reading);
    return moment != nullptr && std::ranges::any_of(watches, [&](const Watch* watch) {
               return moment->instant >= watch->start - clock_slack &&
                      moment->instant <= watch->end + clock_slack;
           });
}

WatchHours::Understood WatchHours::dated(const SiteClock& clock, const WrittenTime& time,
                                         std::string_view name, bool date_stands_apart) const {
    const bool may_be_other = time.of_twelve_hours || (date_stands_apart && *time.time_of_day < 12h);
    if (!may_be_other || anyone_at(clock, time, name)) return {time, As::written};
    if (time.of_twelve_hours) {
        WrittenTime later = in_other_half(time);
        if (date_stands_apart) later = on_evening(later, *time.date);
        if (anyone_at(clock, later, name)) return {later, As::of_the_evening};
    }
    if (date_stands_apart) {
        const WrittenTime later = on_evening(time, *time.date);
        if (anyone_at(clock, later, name)) return {later, As::after_midnight};
    }
    return {time, As::written};
}

/// One time an evening, each evening once.
std::vector<WrittenTime> WatchHours::fitting(const SiteClock& clock, const WrittenTime& time,
                                             std::string_view name) const {
    std::vector<WrittenTime> found;
    for (const Watch* watch : called(name)) {
        const WrittenTime then = on_evening(time, watch->evening.date);
        const bool known =
            std::ranges::any_of(found, [&](const WrittenTime& other) { return other.date == then.date; });
        if (!known && anyone_at(clock, then, name)) found.push_back(then);
    }
    return found;
}

std::optional<WatchHours::Understood> WatchHours::undated(const SiteClock& clock, const WrittenTime& time,
                                                          std::string_view name) const {
    const std::vector<WrittenTime> as_written = fitting(clock, time, name);
    if (as_written.size() == 1) return Understood{as_written.front(), As::written};
    if (as_written.empty() && time.of_twelve_hours) {
        const std::vector<WrittenTime> later = fitting(clock, in_other_half(time), name);
        if (later.size() == 1) return Understood{later.front(), As::of_the_evening};
        if (!later.empty()) return std::nullopt;
    }
    const std::vector<const Watch*>& watches = called(name);
    const bool one_evening =
        !name.empty() && !watches.empty() && std::ranges::all_of(watches, [&](const Watch* watch) {
            return watch->evening == watches.front()->evening;
        });
    if (!one_evening) return std::nullopt;
    return Understood{on_evening(time, watches.front()->evening.date), As::written};
}

}  // namespace roostward::io
