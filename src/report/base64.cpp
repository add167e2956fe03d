#include "base64.hpp"

namespace roostward::report {

std::string base64(std::span<const std::uint8_t> bytes) {
    static constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t left = bytes.size() - i;
        const auto byte = [&](std::size_t k) { return k < left ? std::uint32_t{bytes[i + k]} : 0U; };
        const std::uint32_t three = byte(0) << 16U | byte(1) << 8U | byte(2);
        text += digits[three >> 18U & 63U];
        text += digits[three >> 12U & 63U];
        text += left > 1 ? digits[three >> 6U & 63U] : '=';
        text += left > 2 ? digits[three & 63U] : '=';
    }
    return text;
}

}  // namespace roostward::report
