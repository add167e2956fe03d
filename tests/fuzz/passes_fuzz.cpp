#include "fuzz/evening.hpp"
#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    static const fuzz::Evening evening;
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "passes.csv");
    fuzz::allow_refusal(
        [&] { fuzz::require_nothing_lost(io::read_passes(file.source("passes"), clock, evening.hours)); });
    return 0;
}
