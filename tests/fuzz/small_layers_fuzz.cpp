#include "files/row_sources.hpp"
#include "fuzz/evening.hpp"
#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

namespace {

using namespace roostward;

void read_one(std::uint8_t which, std::string_view bytes) {
    static const io::SiteClock clock("Europe/London");
    static const fuzz::Evening evening;
    static const fuzz::MemoryFile table("layer", "layer.csv"), drawing("layer", "layer.geojson");
    const unsigned layer = static_cast<unsigned>(which - '0') % 10;
    const bool drawn = layer >= 4 && layer != 9;
    const io::InputSource& source = (drawn ? drawing : table).with(bytes);
    if (drawn && !io::open_geojson_rows(source)) return;  // GDAL reads it then, or refuses it
    switch (layer) {
        case 0: {
            const auto tallies = io::read_tallies(source, clock, evening.hours, fuzz::animals());
            return fuzz::require_nothing_lost(tallies, tallies.without_gate.size());
        }
        case 1:
            return fuzz::require_nothing_lost(io::read_roosts(source, clock));
        case 2:
            return fuzz::require_nothing_lost(io::read_lamps(source));
        case 3:
            return fuzz::require_nothing_lost(io::read_boxes(source, clock));
        case 4:
            return fuzz::require_nothing_lost(io::read_routes(source));
        case 5:
            return fuzz::require_nothing_lost(io::read_squares(source));
        case 6:
            return fuzz::require_nothing_lost(io::read_areas(source));
        case 8:
            return fuzz::require_nothing_lost(io::read_paths(source));
        case 9:
            return fuzz::require_nothing_lost(io::read_stations(source));
        default:
            return fuzz::require_nothing_lost(io::read_tracks(source, clock, evening.hours, fuzz::animals()));
    }
}

}  // namespace

/// The first byte, a digit in the corpus, says which layer the others are.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    fuzz::allow_refusal([&] { read_one(data[0], fuzz::text_of(data + 1, size - 1)); });
    return 0;
}
