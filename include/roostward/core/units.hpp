#pragma once

#include <compare>

namespace roostward::core {

/// A number with its unit in the type. Different units neither convert nor mix.
template <class Unit>
class Quantity {
 public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
    friend constexpr Quantity operator*(Quantity a, double factor) { return Quantity(a.value_ * factor); }
    friend constexpr Quantity operator*(double factor, Quantity a) { return a * factor; }
    friend constexpr Quantity operator/(Quantity a, double divisor) { return Quantity(a.value_ / divisor); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }

 private:
    double value_ = 0.0;
};

using Metres = Quantity<struct MetresUnit>;
using SquareMetres = Quantity<struct SquareMetresUnit>;
using Millimetres = Quantity<struct MillimetresUnit>;
using Centimetres = Quantity<struct CentimetresUnit>;
using Hours = Quantity<struct HoursUnit>;
/// Angles: bearings run clockwise from north, longitudes east, latitudes north.
using Degrees = Quantity<struct DegreesUnit>;
using Celsius = Quantity<struct CelsiusUnit>;
using MetresPerSecond = Quantity<struct MetresPerSecondUnit>;

}  // namespace roostward::core
