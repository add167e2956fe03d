#include "roostward/sun/hours.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/sun/position.hpp"

namespace roostward::sun {

using core::Degrees;
using core::Hours;

namespace {

/// Any year serves: in the next one the sun runs the same path, a quarter of a day later.
constexpr std::chrono::year the_year{2031};
constexpr unsigned days_in_year = 365;
/// The year is walked in steps of solar time.
constexpr double degrees_in_an_hour = 15.0;
constexpr std::size_t steps_to_midnight = 360;
constexpr double degrees_in_a_step = 180.0 / static_cast<double>(steps_to_midnight);

constexpr std::size_t bins = SunOverHorizon::bins;
constexpr std::size_t elevations = 180;  ///< half degrees
constexpr double bins_in_a_degree = static_cast<double>(bins) / 360.0;
constexpr double elevations_in_a_degree = static_cast<double>(elevations) / 90.0;

HoursInSky operator+(const HoursInSky& a, const HoursInSky& b) {
    return {a.summer_half + b.summer_half, a.winter_half + b.winter_half, a.hot_afternoon + b.hot_afternoon};
}

HoursInSky operator-(const HoursInSky& a, const HoursInSky& b) {
    return {a.summer_half - b.summer_half, a.winter_half - b.winter_half, a.hot_afternoon - b.hot_afternoon};
}

HoursInSky operator*(float share, const HoursInSky& a) {
    return {share * a.summer_half, share * a.winter_half, share * a.hot_afternoon};
}

/// Between two values that stand one step apart.
HoursInSky between(const HoursInSky& a, const HoursInSky& b, double share) {
    return a + static_cast<float>(share) * (b - a);
}

/// Bins that lie side by side stand side by side.
constexpr std::size_t place_of(std::size_t bin, std::size_t elevation) {
    return elevation * bins + bin;
}

bool shines(const HoursInSky& hours) {
    return hours.summer_half > 0.0F || hours.winter_half > 0.0F;
}

/// The one of so many that holds the middle of a bin.
std::size_t sector_of(std::size_t bin, std::size_t sectors) {
    return (2 * bin + 1) * sectors / (2 * bins);
}

bool is_south(Degrees latitude) {
    return latitude < Degrees(0.0);
}

bool is_summer_half(std::chrono::month month, Degrees latitude) {
    const bool april_to_september = month >= std::chrono::April && month <= std::chrono::September;
    return april_to_september != is_south(latitude);
}

/// What one moment of a month adds to the mean day of each part of the year.
std::array<HoursInSky, 12> shares_of_months(Degrees latitude, const HotAfternoons& hot) {
    const auto length_of = [](std::chrono::month month) {
        return static_cast<unsigned>((the_year / month / std::chrono::last).day());
    };
    unsigned summer_days = 0;
    for (unsigned m = 1; m <= 12; ++m)
        if (is_summer_half(std::chrono::month(m), latitude)) summer_days += length_of(std::chrono::month(m));
    const unsigned winter_days = days_in_year - summer_days;

    const auto hours = static_cast<float>(degrees_in_a_step / degrees_in_an_hour);
    std::array<HoursInSky, 12> shares;
    for (unsigned m = 1; m <= 12; ++m) {
        const std::chrono::month month(m);
        if (is_summer_half(month, latitude))
            shares[m - 1].summer_half = hours / static_cast<float>(summer_days);
        else
            shares[m - 1].winter_half = hours / static_cast<float>(winter_days);
        if (month == hot.month) shares[m - 1].hot_afternoon = hours / static_cast<float>(length_of(month));
    }
    return shares;
}

/// Mean daily hours in each bin of bearing and half degree of elevation, gathered half day by half day.
class SkyHours {
 public:
    SkyHours(Degrees latitude, const HotAfternoons& hot)
        : latitude_(latitude),
          hot_from_((hot.from.value() - 12.0) * degrees_in_an_hour),
          shares_(shares_of_months(latitude, hot)) {}

    /// Half a day, from noon until the sun is down: `side` is -1 for the morning, 1 for the afternoon.
    void add(std::chrono::sys_days day, int side) {
        const SeenFrom sun(latitude_, apparent_sun(day + std::chrono::hours(12 + 6 * side)));
        const auto month = static_cast<unsigned>(std::chrono::year_month_day(day).month());
        for (std::size_t step = 0; step < steps_to_midnight; ++step) {
            const Degrees from_noon(degrees_in_a_step * (static_cast<double>(step) + 0.5));
            const Degrees angle = from_noon * static_cast<double>(side);
            const SunPosition seen = sun.under(angle, Air{});
            if (seen.elevation <= Degrees(0.0)) return;
            add(seen, shares_[month - 1], angle >= hot_from_);
        }
    }

    [[nodiscard]] std::vector<HoursInSky> take() && { return std::move(hours_); }

 private:
    void add(const SunPosition& seen, HoursInSky share, bool hot) {
        if (!hot) share.hot_afternoon = 0.0F;
        const auto bin = static_cast<std::size_t>(seen.azimuth.value() * bins_in_a_degree);
        const auto step = static_cast<std::size_t>(seen.elevation.value() * elevations_in_a_degree);
        HoursInSky& place = hours_[place_of(std::min(bin, bins - 1), std::min(step, elevations - 1))];
        place = place + share;
    }

    Degrees latitude_;
    Degrees hot_from_;
    std::array<HoursInSky, 12> shares_;
    std::vector<HoursInSky> hours_ = std::vector<HoursInSky>(bins * (elevations + 1));
};

std::vector<HoursInSky> hours_in_sky(Degrees latitude, const HotAfternoons& hot) {
    SkyHours sky(latitude, hot);
    const std::chrono::sys_days first(the_year / 1 / 1);
    for (unsigned day = 0; day < days_in_year; ++day)
        for (const int side : {-1, 1})
            sky.add(first + std::chrono::days(day), side);
    return std::move(sky).take();
}

}  // namespace

HotAfternoons hot_afternoons(Degrees latitude) {
    return {is_south(latitude) ? std::chrono::January : std::chrono::July};
}

SunPath::SunPath(Degrees latitude) : SunPath(latitude, hot_afternoons(latitude)) {}

SunPath::SunPath(Degrees latitude, const HotAfternoons& hot) : above_(hours_in_sky(latitude, hot)) {
    for (std::size_t step = elevations; step-- > 0;)
        for (std::size_t bin = 0; bin < bins; ++bin)
            above_[place_of(bin, step)] = above_[place_of(bin, step)] + above_[place_of(bin, step + 1)];
}

Degrees SunPath::highest_in(std::size_t sector, std::size_t sectors) const {
    std::size_t highest = 0;
    for (std::size_t bin = 0; bin < bins; ++bin) {
        if (sector_of(bin, sectors) != sector) continue;
        while (shines(above_[place_of(bin, highest)]))
            ++highest;
    }
    return Degrees(static_cast<double>(highest) / elevations_in_a_degree);
}

SunOverHorizon SunPath::over(std::span<const Degrees> horizon) const {
    if (horizon.empty()) throw std::invalid_argument("a horizon needs at least one sector");
    std::array<HoursInSky, bins> hours;
    for (std::size_t bin = 0; bin < bins;) {
        const std::size_t sector = sector_of(bin, horizon.size());
        const double up = std::clamp(horizon[sector].value(), 0.0, 90.0) * elevations_in_a_degree;
        const std::size_t step = std::min(static_cast<std::size_t>(up), elevations - 1);
        const double share = up - static_cast<double>(step);
        for (; bin < bins && sector_of(bin, horizon.size()) == sector; ++bin)
            hours[bin] = between(above_[place_of(bin, step)], above_[place_of(bin, step + 1)], share);
    }
    return SunOverHorizon(hours);
}

SunOverHorizon::SunOverHorizon(std::span<const HoursInSky, bins> hours) {
    HoursInSky sum;
    for (std::size_t bin = 0; bin < bins; ++bin)
        before_[bin + 1] = sum = sum + hours[bin];
}

HoursInSky SunOverHorizon::up_to(double bin) const {
    const std::size_t whole = std::min(static_cast<std::size_t>(bin), bins - 1);
    return between(before_[whole], before_[whole + 1], bin - static_cast<double>(whole));
}

FaceSun SunOverHorizon::on_face(Degrees facing) const {
    const double left = core::normalised(facing - Degrees(90.0)).value() * bins_in_a_degree;
    const double right = core::normalised(facing + Degrees(90.0)).value() * bins_in_a_degree;
    const HoursInSky turned = up_to(right) - up_to(left);
    const HoursInSky sun = right > left ? turned : turned + before_[bins];
    return {Hours(sun.summer_half), Hours(sun.winter_half), Hours(sun.hot_afternoon)};
}

}  // namespace roostward::sun
