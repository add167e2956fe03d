#include "fuzz/fuzzing.hpp"
#include "layers/layers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const io::SiteClock clock("Europe/London");
    static const fuzz::MemoryFile file("trees", "trees.csv");
    const io::InputSource& source = file.with(fuzz::text_of(data, size));
    fuzz::allow_refusal(
        [&] { fuzz::require_nothing_lost(io::read_trees(source, clock, io::tree_words_within())); });
    return 0;
}
