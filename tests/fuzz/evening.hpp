#pragma once

#include "words/watch_hours.hpp"

namespace roostward::fuzz {

/// The only watch, "bridge-1": 21:30 to 22:30 in London on 9 June 2026.
struct Evening {
    Evening() : hours(io::DateOrder::day_first) {
        using namespace std::chrono_literals;
        watch.name = "bridge-1";
        watch.evening = {core::Date(std::chrono::year(2026), std::chrono::June, std::chrono::day(9))};
        watch.start = std::chrono::sys_days(watch.evening.date) + 20h + 30min;
        watch.end = watch.start + 1h;
        hours.add(watch);
    }
    Evening(const Evening&) = delete;
    Evening& operator=(const Evening&) = delete;

    survey::Watch watch;
    io::WatchHours hours;
};

}  // namespace roostward::fuzz
