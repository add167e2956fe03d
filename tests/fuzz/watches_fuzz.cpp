#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "watches.csv");
    fuzz::allow_refusal([&] { fuzz::require_nothing_lost(io::read_watches(file.source("watches"), clock)); });
    return 0;
}
