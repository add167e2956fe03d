#include "roostward/siting/box.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/core/folding.hpp"

namespace roostward::siting {

bool Box::plastic() const {
    static constexpr std::array<std::string_view, 6> words{"plastic",    "pvc",           "polythene",
                                                           "polyethene", "polypropylene", "acrylic"};
    const std::string lower = core::folded(made_of);
    return std::ranges::any_of(words,
                               [&](std::string_view word) { return lower.find(word) != std::string::npos; });
}

bool Box::heats_up() const {
    return wall == Wall::thin || colour == Colour::dark || plastic();
}

}  // namespace roostward::siting
