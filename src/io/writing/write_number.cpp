#include "writing/write_number.hpp"

#include <array>
#include <cstddef>

namespace roostward::io {

namespace {

constexpr std::size_t exact_powers = 23;  // 10^22 is the largest power of ten that a double holds exactly

constexpr std::array<double, exact_powers> powers_of_ten = [] {
    std::array<double, exact_powers> powers{};
    double power = 1.0;
    for (double& p : powers) {
        p = power;
        power *= 10.0;
    }
    return powers;
}();

}  // namespace

double rounded_to_nine_digits(double value) {
    const double magnitude = std::abs(value);
    if (magnitude < 1e9 && std::trunc(value) == value) return value + 0.0;
    const int digits_after_point = 8 - static_cast<int>(std::floor(std::log10(magnitude)));
    const auto power = static_cast<std::size_t>(std::abs(digits_after_point));
    if (!std::isfinite(value) || power >= exact_powers) return value;
    const double scale = powers_of_ten[power];
    return digits_after_point >= 0 ? std::round(value * scale) / scale : std::round(value / scale) * scale;
}

}  // namespace roostward::io
