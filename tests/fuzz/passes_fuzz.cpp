#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

namespace {

using namespace roostward;

/// 21:30 to 22:30 in London on 9 June 2026.
survey::Watch an_evening() {
    using namespace std::chrono_literals;
    survey::Watch watch;
    watch.name = "bridge-1";
    watch.evening = {core::Date(std::chrono::year(2026), std::chrono::June, std::chrono::day(9))};
    watch.start = std::chrono::sys_days(watch.evening.date) + 20h + 30min;
    watch.end = watch.start + 1h;
    return watch;
}

io::WatchHours hours_of(const survey::Watch& watch) {
    io::WatchHours hours(io::DateOrder::day_first);
    hours.add(watch);
    return hours;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const io::SiteClock clock("Europe/London");
    static const survey::Watch watch = an_evening();
    static const io::WatchHours hours = hours_of(watch);
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "passes.csv");
    fuzz::allow_refusal([&] {
        const auto layer = io::read_passes(file.source("passes"), clock, hours);
        const core::RowCount count = layer.facts.report.counts();
        fuzz::require(count.read == count.used + count.set_aside &&
                      count.used == layer.rows.size() + layer.elsewhere.size());
    });
    return 0;
}
