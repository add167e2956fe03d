#include "roostward/siting/box.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

namespace roostward::siting {

bool Box::plastic() const {
    static constexpr std::array<std::string_view, 6> words{"plastic",    "pvc",           "polythene",
                                                           "polyethene", "polypropylene", "acrylic"};
    std::string lower = made_of;
    std::ranges::transform(lower, lower.begin(), [](unsigned char c) { return std::tolower(c); });
    return std::ranges::any_of(words,
                               [&](std::string_view word) { return lower.find(word) != std::string::npos; });
}

bool Box::heats_up() const {
    return wall == Wall::thin || colour == Colour::dark || plastic();
}

}  // namespace roostward::siting
