#include "roostward/core/time.hpp"

#include <fmt/format.h>

namespace roostward::core {

std::string to_text(Date date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string to_text(Instant instant) {
    const auto day = std::chrono::floor<std::chrono::days>(instant);
    const std::chrono::hh_mm_ss clock(instant - day);
    std::string text = fmt::format("{}T{:02}:{:02}:{:02}", to_text(Date(day)), clock.hours().count(),
                                   clock.minutes().count(), clock.seconds().count());
    if (clock.subseconds().count() != 0) text += fmt::format(".{:03}", clock.subseconds().count());
    return text + "Z";
}

}  // namespace roostward::core
