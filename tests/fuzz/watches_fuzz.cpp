#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "watches.csv");
    fuzz::allow_refusal([&] {
        const auto layer = io::read_watches(file.source("watches"), clock);
        const core::RowCount count = layer.facts.report.counts();
        fuzz::require(count.read == count.used + count.set_aside &&
                      count.used == layer.rows.size() + layer.elsewhere.size());
    });
    return 0;
}
