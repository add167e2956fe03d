#pragma once

#include <cmath>

// Numbers as every output gives them, for formats that store binary numbers.
namespace roostward::io {

/// `value` rounded to whole `steps` a unit; never -0.
[[nodiscard]] inline double rounded_to_steps(double value, double steps) {
    return std::round(value * steps) / steps + 0.0;
}

/// Rounded to nine significant digits; never -0.
[[nodiscard]] double rounded_to_nine_digits(double value);

}  // namespace roostward::io
