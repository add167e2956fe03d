#include "roostward/activity/effort_grid.hpp"

#include <algorithm>
#include <cmath>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

constexpr double grid_reach = 6.0;

struct Sums {
    double hours = 0.0, unplaced = 0.0;
};

Sums over_all(const std::vector<Effort::Sitting>& sittings) {
    Sums sums;
    for (const auto& sitting : sittings) {
        sums.hours += sitting.hours;
        sums.unplaced += sitting.unplaced_per_hour * sitting.hours;
    }
    return sums;
}

ROOSTWARD_VECTOR_CLONES
void add_scaled(double* sum, const double* values, double weight, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        sum[i] += weight * values[i];
}

}  // namespace

EffortGrid::EffortGrid(const Effort& effort, const core::Grid& grid) : effort_(effort), grid_(grid) {
    for (const auto& view : effort.views()) {
        if (view.is_walk() || !view.all_round()) {
            others_.push_back(&view);
            continue;
        }
        const Sums sums = over_all(view.sittings);
        const double range2 = view.range * view.range;
        Bell watched;
        watched.watched = sums.hours;
        add_bell(view, range2, std::move(watched));
        for (const auto& width : effort.widths()) {
            const double variance = range2 + width.h * width.h;
            Bell smoothed;
            smoothed.smoothed = width.share * sums.hours * range2 / variance;
            smoothed.flown = width.share * sums.unplaced * range2 / variance;
            add_bell(view, variance, std::move(smoothed));
        }
    }
}

void EffortGrid::add_bell(const Effort::View& view, double variance, Bell bell) {
    const core::PlanePoint station = view.path.front();
    bell.northing = station.northing;
    bell.variance = variance;
    bell.reach = grid_reach * std::sqrt(variance);
    const double west = (station.easting - bell.reach - grid_.north_west.easting) / grid_.cell.value();
    const double east = (station.easting + bell.reach - grid_.north_west.easting) / grid_.cell.value();
    const auto columns = static_cast<double>(grid_.columns);
    bell.first = static_cast<std::size_t>(std::clamp(std::floor(west), 0.0, columns));
    const auto end = static_cast<std::size_t>(std::clamp(std::ceil(east), 0.0, columns));
    for (std::size_t c = bell.first; c < end; ++c) {
        const double dx = grid_.centre({0, c}).easting - station.easting;
        bell.columns.push_back(exp_of(-0.5 * dx * dx / variance));
    }
    bells_.push_back(std::move(bell));
}

void EffortGrid::add_row(std::size_t grid_row, double* flown, double* watched, double* smoothed) const {
    const double northing = grid_.centre({grid_row, 0}).northing;
    for (const auto& bell : bells_) {
        const double dy = northing - bell.northing;
        if (std::fabs(dy) > bell.reach) continue;
        const double factor = exp_of(-0.5 * dy * dy / bell.variance);
        const auto add = [&](double* sum, double weight) {
            if (weight > 0.0)
                add_scaled(sum + bell.first, bell.columns.data(), weight * factor, bell.columns.size());
        };
        add(watched, bell.watched);
        add(smoothed, bell.smoothed);
        add(flown, bell.flown);
    }
    for (const auto* view : others_) {
        const Sums sums = over_all(view->sittings);
        const double felt = view->felt_within(grid_reach);
        for (std::size_t c = 0; c < grid_.columns; ++c) {
            const core::PlanePoint p = grid_.centre({grid_row, c});
            if (!view->is_walk() && core::squared_distance(view->path.front(), p) > felt * felt) continue;
            const Effort::PerHour at = effort_.of_view(*view, p);
            watched[c] += sums.hours * at.watched;
            smoothed[c] += sums.hours * at.smoothed;
            flown[c] += sums.unplaced * at.smoothed;
        }
    }
    if (!effort_.views().empty()) return;
    const auto evenings = static_cast<double>(effort_.evenings());
    for (std::size_t c = 0; c < grid_.columns; ++c) {
        const Effort::PerHour at = effort_.of_even_ground(grid_.centre({grid_row, c}));
        watched[c] += evenings * at.watched;
        smoothed[c] += evenings * at.smoothed;
    }
}

}  // namespace roostward::activity
