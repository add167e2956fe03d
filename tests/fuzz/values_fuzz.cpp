#include <cmath>

#include "fuzz/fuzzing.hpp"
#include "roostward/core/folding.hpp"
#include "roostward/geo/grid_reference.hpp"
#include "roostward/io/bearings.hpp"
#include "roostward/io/tree_words.hpp"
#include "roostward/io/values.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    const std::string_view text = fuzz::text_of(data, size);
    const std::string bare = io::bare_word(text);
    fuzz::require(bare.find(' ') == std::string::npos);
    fuzz::require(core::folded(core::folded(text)) == core::folded(text));
    if (const auto number = io::read_number(text)) fuzz::require(std::isfinite(number->value));
    const auto bearing = io::read_bearing(text);
    if (const double* degrees = io::value_in(bearing)) fuzz::require(*degrees >= 0.0 && *degrees < 360.0);
    if (const auto way = io::read_named_way(text)) fuzz::require(!way->name.empty());
    for (const auto& square : {geo::mgrs_square(text), geo::british_square(text)})
        fuzz::require(!square || (square->side.value() > 0.0 && std::isfinite(square->middle.easting)));
    (void)io::read_yes_no(text);
    (void)io::says_nothing(text);
    (void)io::tree_words_within().meaning_of(text);
    return 0;
}
