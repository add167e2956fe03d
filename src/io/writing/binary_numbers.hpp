#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <string>

namespace roostward::io {

/// Appends a number as a binary format keeps it, in the byte order of that format.
template <std::endian order, class Number>
void append_binary(std::string& out, Number value) {
    auto bytes = std::bit_cast<std::array<char, sizeof(Number)>>(value);
    if constexpr (order != std::endian::native) std::ranges::reverse(bytes);
    out.append(bytes.data(), bytes.size());
}

}  // namespace roostward::io
