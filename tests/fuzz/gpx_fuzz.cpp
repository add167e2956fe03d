#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

/// GDAL takes the XML apart; what is made of its points is ours.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    static const fuzz::MemoryFile file("watches", "walk.gpx");
    const io::InputSource& source = file.with(fuzz::text_of(data, size));
    fuzz::allow_refusal([&] {
        io::UnplacedWatches watches{{io::facts_of_source(source), {}}, {}};
        io::read_gpx_watches(source, clock, watches);
        fuzz::require_nothing_lost(watches);
    });
    fuzz::allow_refusal([&] {
        io::UnplacedLayer<survey::Track> tracks{io::facts_of_source(source), {}};
        io::read_gpx_tracks(source, clock, tracks);
        fuzz::require_nothing_lost(tracks);
    });
    return 0;
}
