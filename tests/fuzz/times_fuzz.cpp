#include <array>

#include "fuzz/fuzzing.hpp"
#include "roostward/io/times.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    const std::string_view text = fuzz::text_of(data, size);
    (void)io::order_shown_by(text);
    for (const auto order : {io::DateOrder::unknown, io::DateOrder::day_first, io::DateOrder::month_first}) {
        const auto reading = io::read_time(text, order);
        const io::WrittenTime* time = io::value_in(reading);
        if (time == nullptr) continue;
        fuzz::require(time->date || time->time_of_day);
        if (time->date) fuzz::require(time->date->ok());
        if (time->time_of_day)
            fuzz::require(time->time_of_day->count() >= 0 && *time->time_of_day <= std::chrono::hours(24));
        if (time->date && time->time_of_day) (void)clock.moment_of(*time);
    }
    return 0;
}
