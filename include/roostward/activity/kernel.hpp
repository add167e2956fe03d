#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <numbers>

/// Gaussian kernels and the functions they need. exp and erf are our own, so that the same bits come out on
/// every x86-64 processor; they have no branches, so that loops over them become vector instructions.
namespace roostward::activity {

/// e^x for x <= 0, to 2e-16 relative; below -690 it stays at e^-690, which no sum of ours can feel.
[[nodiscard, gnu::always_inline]] inline double exp_of(double x) {
    constexpr double to_nearest = 0x1.8p52;
    constexpr double ln2_high = 0x1.62e42fee00000p-1;
    constexpr double ln2_low = 0x1.a39ef35793c76p-33;
    x = x < -690.0 ? -690.0 : x;
    const double shifted = x * std::numbers::log2e + to_nearest;
    const double k = shifted - to_nearest;
    const double r = (x - k * ln2_high) - k * ln2_low;
    double p = 1.0 / 6227020800.0;
    p = p * r + 1.0 / 479001600.0;
    p = p * r + 1.0 / 39916800.0;
    p = p * r + 1.0 / 3628800.0;
    p = p * r + 1.0 / 362880.0;
    p = p * r + 1.0 / 40320.0;
    p = p * r + 1.0 / 5040.0;
    p = p * r + 1.0 / 720.0;
    p = p * r + 1.0 / 120.0;
    p = p * r + 1.0 / 24.0;
    p = p * r + 1.0 / 6.0;
    p = p * r + 0.5;
    p = p * r + 1.0;
    p = p * r + 1.0;
    const std::uint64_t exponent = (std::bit_cast<std::uint64_t>(shifted) + 1023U) << 52U;
    return p * std::bit_cast<double>(exponent);
}

/// e^(z²) erfc(z) for z >= 0, to 1e-15: Chebyshev series of (1 + 2z) e^(z²) erfc(z) in (z − 3.75)/(z + 3.75),
/// the form of Shepherd & Laframboise 1981 (Mathematics of Computation 36).
[[nodiscard, gnu::always_inline]] inline double scaled_erfc(double z) {
    constexpr double series[] = {
        1.1775789345674017541,      -0.0045900545806464773309, -0.084249133366517915584,
        0.059209939998191890498,    -0.026658668435305752277,  0.0090749976707052650939,
        -0.0024131635404176081909,  0.00049077583652580863229, -0.000069169733025012063671,
        4.1390279860730101675e-6,   7.7403830661984906686e-7,  -2.1886401049234395661e-7,
        1.0764999465670910377e-8,   4.5219598112182868979e-9,  -7.7544002088313511065e-10,
        -6.3180883408866844944e-11, 2.8687950109306698981e-11, 1.945586854577734723e-13,
        -9.6546967484334389059e-13, 3.2525481481487398415e-14, 3.3478119482868053878e-14,
        -1.8645628804193131015e-15, -1.2507950530688647085e-15};
    constexpr int terms = static_cast<int>(std::size(series));
    const double t = (z - 3.75) / (z + 3.75);
    double b1 = 0.0, b2 = 0.0;
#pragma GCC unroll 32
    for (int k = terms - 1; k > 0; --k) {
        const double b0 = 2.0 * t * b1 - b2 + series[k];
        b2 = b1;
        b1 = b0;
    }
    return (t * b1 - b2 + series[0]) / (1.0 + 2.0 * z);
}

/// The error function, to 3e-16 absolute.
[[nodiscard, gnu::always_inline]] inline double erf_of(double x) {
    const double z = std::fabs(x);
    return std::copysign(1.0 - exp_of(-z * z) * scaled_erfc(z), x);
}

/// How sharp K_h is: 1/h², which its values are made from.
[[nodiscard, gnu::always_inline]] inline double precision_of(double h) {
    return 1.0 / (h * h);
}

/// K_h at a squared distance: 1/m², for h in metres, from 1/h².
[[nodiscard, gnu::always_inline]] inline double point_kernel_of(double squared_distance, double precision) {
    return precision * (0.5 * std::numbers::inv_pi) * exp_of(-0.5 * squared_distance * precision);
}

[[nodiscard, gnu::always_inline]] inline double point_kernel(double squared_distance, double h) {
    return point_kernel_of(squared_distance, precision_of(h));
}

/// ∫ K_h along a straight piece, seen from a point `across` metres off its line and `along` metres past its
/// middle, for a piece of twice `half_length` metres: 1/m. Exact.
[[nodiscard, gnu::always_inline]] inline double segment_kernel(double across, double along,
                                                               double half_length, double h) {
    const double u = 1.0 / (h * std::numbers::sqrt2);
    const double gauss = exp_of(-(across * u) * (across * u)) * (0.5 * std::numbers::inv_sqrtpi * u);
    return gauss * (erf_of((along + half_length) * u) - erf_of((along - half_length) * u));
}

/// Beyond this many h a kernel is left out. If no sum exceeds λ, no disc of radius h holds more than 2πh²√e·λ
/// of weight, so that all that lies farther off adds less than 6·e^(−reach²/2)·λ: 6e-10 of the largest value.
inline constexpr double kernel_reach = 6.8;

}  // namespace roostward::activity
