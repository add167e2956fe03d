#include "line_profiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace roostward::activity {

namespace {

/// Places to each side; the outermost only bound the others.
constexpr std::size_t aside = 4;
constexpr std::size_t across = 2 * aside + 1;
constexpr double share_that_shows = 0.5;

}  // namespace

LineProfiles::LineProfiles(const FlightDensity& density, const LineNoise& noise, core::Metres reach)
    : density_(density), noise_(noise), step_(reach.value() / static_cast<double>(aside - 1)) {}

void LineProfiles::add(const Ridge& ridge, core::Metres spacing, const std::vector<Doubt>& doubts) {
    double gone = 0.5 * spacing.value();
    for (std::size_t i = 0; i < ridge.size(); ++i) {
        const RidgePoint& p = ridge[i];
        if (i > 0) gone += core::distance(ridge[i - 1].place, p.place).value();
        if (gone < spacing.value()) continue;
        gone = 0.0;
        for (std::size_t j = 0; j < across; ++j) {
            const double away = step_ * (static_cast<double>(j) - static_cast<double>(aside));
            places_.push_back(
                {p.place.easting + away * p.across_east, p.place.northing + away * p.across_north});
        }
        doubts_.push_back(doubts[i]);
    }
    first_.push_back(doubts_.size());
}

void LineProfiles::measure(core::Threads threads) {
    table_ = density_.at(places_, threads);
}

bool LineProfiles::shows(std::size_t profile, const EveningDraw& draw) const {
    const core::Hours shrink = density_.bandwidth().shrink;
    std::array<double, across> value{}, hours{};
    for (std::size_t j = 0; j < across; ++j) {
        const PointActivity seen =
            density_.summarise(table_, profile * across + j, draw.times, density_.mean_rate());
        value[j] = seen.flight_density;
        hours[j] = seen.smoothed.value();
    }
    for (std::size_t j = 1; j + 1 < across; ++j) {
        const double strength = (2.0 * value[j] - value[j - 1] - value[j + 1]) / (step_ * step_);
        if (value[j] < value[j - 1] || value[j] < value[j + 1] || strength <= 0.0) continue;
        const Doubt& doubt = doubts_[profile];
        if (strength >= doubt.standard_errors * noise_.deviation(doubt.rate, hours[j], shrink)) return true;
    }
    return false;
}

double LineProfiles::steady(std::size_t ridge, const std::vector<EveningDraw>& draws) const {
    const std::size_t begin = first_[ridge], end = first_[ridge + 1];
    double steady = 0.0;
    for (const EveningDraw& draw : draws) {
        std::size_t shown = 0;
        for (std::size_t profile = begin; profile < end; ++profile)
            shown += shows(profile, draw) ? 1 : 0;
        if (static_cast<double>(shown) >= share_that_shows * static_cast<double>(end - begin))
            steady += draw.weight;
    }
    return steady;
}

double LineProfiles::hours(std::size_t ridge, std::size_t evening) const {
    const std::size_t begin = first_[ridge], end = first_[ridge + 1];
    double hours = 0.0;
    for (std::size_t profile = begin; profile < end; ++profile)
        hours += table_.watched[table_.at(profile * across + aside, evening)];
    return end > begin ? hours / static_cast<double>(end - begin) : 0.0;
}

}  // namespace roostward::activity
