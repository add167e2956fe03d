#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

/// GDAL takes the XML apart; what is made of its points is ours.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    static const fuzz::MemoryFile file("watches", "walk.gpx");
    const io::InputSource& source = file.with(fuzz::text_of(data, size));
    fuzz::allow_refusal([&] { fuzz::require_nothing_lost(io::read_gpx_watches(source, clock)); });
    fuzz::allow_refusal([&] { fuzz::require_nothing_lost(io::read_gpx_tracks(source, clock)); });
    return 0;
}
