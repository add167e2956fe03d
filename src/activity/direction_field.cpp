#include "direction_field.hpp"

#include <cmath>
#include <cstddef>

namespace roostward::activity {

namespace {

using Complex = std::complex<double>;

/// Spread by one cubic B-spline and read through another: a standard deviation of √(2/3) cells.
constexpr double spread = 20.0;                       // m
constexpr double cell = spread * 1.2247448713915890;  // m

/// e^(2iφ)
Complex doubled(Direction d) {
    return {d.east * d.east - d.north * d.north, 2.0 * d.east * d.north};
}

/// The direction whose doubled angle this has.
Direction halved(Complex z) {
    const double length = std::sqrt(std::norm(z));
    const double cosine = z.real() / length, sine = z.imag() / length;
    // Of the two formulas for half an angle the one that does not cancel.
    const Direction half = cosine >= 0.0 ? Direction{1.0 + cosine, sine} : Direction{sine, 1.0 - cosine};
    const double scale = 1.0 / std::sqrt(half.east * half.east + half.north * half.north);
    return {half.east * scale, half.north * scale};
}

}  // namespace

/// The four by four cells that a place touches, with the cubic B-spline's weights.
struct DirectionField::Spread {
    std::int64_t column, row;
    std::array<double, 4> across, up;

    Spread(core::PlanePoint origin, core::PlanePoint place) {
        const double u = (place.easting - origin.easting) / cell;
        const double v = (place.northing - origin.northing) / cell;
        column = static_cast<std::int64_t>(std::floor(u)) - 1;
        row = static_cast<std::int64_t>(std::floor(v)) - 1;
        across = weights(u - std::floor(u));
        up = weights(v - std::floor(v));
    }

    /// Calls `use(key, weight)` for each cell.
    template <class Use>
    void for_each(const Use& use) const {
        for (std::size_t r = 0; r < 4; ++r)
            for (std::size_t c = 0; c < 4; ++c)
                use(key(column + static_cast<std::int64_t>(c), row + static_cast<std::int64_t>(r)),
                    across[c] * up[r]);
    }

 private:
    static std::array<double, 4> weights(double t) {
        const double s = 1.0 - t;
        return {s * s * s / 6.0, (4.0 + t * t * (3.0 * t - 6.0)) / 6.0, (4.0 + s * s * (3.0 * s - 6.0)) / 6.0,
                t * t * t / 6.0};
    }
    static std::uint64_t key(std::int64_t column, std::int64_t row) {
        return (static_cast<std::uint64_t>(row) << 32U) | (static_cast<std::uint64_t>(column) & 0xffffffffU);
    }
};

DirectionField::DirectionField(std::span<const Sighting> sightings) {
    if (sightings.empty()) return;
    origin_ = sightings.front().place;
    for (const Sighting& sighting : sightings) {
        const Complex turn = doubled(sighting.direction);
        Moments own{1.0};
        for (std::size_t k = 1; k < own.size(); ++k)
            own[k] = own[k - 1] * turn;
        Spread(origin_, sighting.place).for_each([&](std::uint64_t key, double weight) {
            const auto [found, fresh] = cells_.try_emplace(key, static_cast<std::uint32_t>(moments_.size()));
            if (fresh) moments_.emplace_back();
            Moments& sums = moments_[found->second];
            for (std::size_t k = 0; k < sums.size(); ++k)
                sums[k] += weight * own[k];
        });
    }
}

DirectionField::Moments DirectionField::moments_at(core::PlanePoint place) const {
    Moments sums{};
    Spread(origin_, place).for_each([&](std::uint64_t key, double weight) {
        const auto found = cells_.find(key);
        if (found == cells_.end()) return;
        for (std::size_t k = 0; k < sums.size(); ++k)
            sums[k] += weight * moments_[found->second][k];
    });
    return sums;
}

Direction DirectionField::at(core::PlanePoint place, Direction like) const {
    // cos⁸(θ − φ) = Σ C(8, 4 + k) e^(2ik(θ − φ)) / 256 over k from −4 to 4, so that Σ cos⁸(θ − φ) e^(2iφ) is
    // a sum of moments.
    constexpr double binomial[] = {70.0, 56.0, 28.0, 8.0, 1.0};
    const Moments moments = moments_at(place);
    const Complex ahead = doubled(like), back = std::conj(ahead);
    Complex sum = binomial[0] * moments[1], forth = 1.0, aback = 1.0;
    for (std::size_t k = 1; k <= 4; ++k) {
        forth *= ahead;
        aback *= back;
        sum += binomial[k] * (forth * std::conj(moments[k - 1]) + aback * moments[k + 1]);
    }
    if (std::norm(sum) == 0.0) return like;
    const Direction mean = halved(sum);
    const bool same = mean.east * like.east + mean.north * like.north >= 0.0;
    return same ? mean : Direction{-mean.east, -mean.north};
}

}  // namespace roostward::activity
