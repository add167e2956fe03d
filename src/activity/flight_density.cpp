#include "roostward/activity/flight_density.hpp"

#include <algorithm>
#include <cmath>

#include "roostward/activity/effort_grid.hpp"
#include "roostward/activity/flown_grid.hpp"
#include "roostward/activity/kernel.hpp"
#include "roostward/core/error.hpp"

namespace roostward::activity {

namespace {

constexpr double per_hectare = 1e4;
constexpr double most_cells = 2e8;
/// Below this a cell is left out of the watch-hours picture, and the grid need not reach there.
constexpr core::Hours hardly_watched{0.01};
/// A flight within this of a tree uses it, or within twice the bandwidth where that is more.
constexpr double close_by = 10.0;

std::vector<Piece> with_direction(const std::vector<Piece>& pieces, bool direction) {
    std::vector<Piece> chosen;
    for (const auto& piece : pieces)
        if ((piece.half_length > 0.0) == direction) chosen.push_back(piece);
    return chosen;
}

double metres_flown(const survey::Survey& survey) {
    double metres = 0.0;
    for (const auto& flight : survey.flights)
        metres += flight.count * flight.length.value();
    return metres;
}

}  // namespace

Bandwidth choose_bandwidth(const survey::Survey& survey, const Settings& settings) {
    const core::Hours shrink = settings.shrink.value_or(settings.min_watch);
    if (settings.bandwidth) return {*settings.bandwidth, shrink, false};
    double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, yy = 0.0;
    const auto middle = [](const geo::Line& path) { return path[path.size() / 2]; };
    const auto placed = [](const survey::Flight& flight) { return flight.placed && !flight.path.empty(); };
    for (const auto& flight : survey.flights) {
        if (!placed(flight)) continue;
        n += 1.0;
        x += middle(flight.path).easting;
        y += middle(flight.path).northing;
    }
    if (n < 2.0) return {core::Metres(20.0), shrink, true};
    x /= n;
    y /= n;
    for (const auto& flight : survey.flights) {
        if (!placed(flight)) continue;
        xx += std::pow(middle(flight.path).easting - x, 2);
        yy += std::pow(middle(flight.path).northing - y, 2);
    }
    const double sigma = std::sqrt(0.5 * (xx + yy) / (n - 1.0));
    return {core::Metres(std::clamp(sigma * std::pow(n, -1.0 / 6.0), 5.0, 20.0)), shrink, true};
}

FlightDensity::FlightDensity(const survey::Survey& survey, Bandwidth bandwidth, const Settings& settings)
    : settings_(settings),
      bandwidth_(bandwidth),
      evenings_(survey.evenings.size()),
      effort_(survey, bandwidth.h),
      pieces_(pieces_of(survey, bandwidth.h, core::Metres(4.0 * bandwidth.h.value()))) {
    const double watched = effort_.integral();
    mean_rate_ = watched > 0.0 ? metres_flown(survey) / watched : 0.0;
}

EveningTable FlightDensity::at(std::span<const core::PlanePoint> points, core::Threads threads) const {
    EveningTable table;
    table.points = points.size();
    table.evenings = evenings_;
    const std::size_t size = table.points * table.evenings;
    table.flown.assign(size, 0.0);
    table.watched.assign(size, 0.0);
    table.smoothed.assign(size, 0.0);
    table.used.assign(size, 0);
    const double reach = kernel_reach * widest(pieces_);
    const double close = std::max(2.0 * bandwidth_.h.value(), close_by);
    const PieceBuckets spots(with_direction(pieces_, false), reach),
        straight(with_direction(pieces_, true), reach);
    core::parallel_for(points.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const std::size_t row = table.at(i, 0);
            spots.add_at(points[i], close, &table.flown[row], &table.used[row]);
            straight.add_at(points[i], close, &table.flown[row], &table.used[row]);
            effort_.add_at(points[i], &table.flown[row], &table.watched[row], &table.smoothed[row]);
        }
    });
    return table;
}

double FlightDensity::rate(double flown, double smoothed) const {
    const double shrink = bandwidth_.shrink.value();
    const double hours = smoothed + shrink;
    return hours > 0.0 ? (flown + shrink * mean_rate_) / hours : 0.0;
}

std::vector<PointActivity> FlightDensity::summarise(const EveningTable& table) const {
    std::vector<PointActivity> points(table.points);
    for (std::size_t i = 0; i < table.points; ++i) {
        double flown = 0.0, smoothed = 0.0, watched = 0.0;
        for (std::size_t n = 0; n < table.evenings; ++n) {
            const std::size_t at = table.at(i, n);
            flown += table.flown[at];
            smoothed += table.smoothed[at];
            watched += table.watched[at];
            if (table.watched[at] < 0.5 * settings_.min_watch.value()) continue;
            ++points[i].evenings_watched;
            points[i].evenings_used += table.used[at];
        }
        points[i].flight_density = rate(flown, smoothed);
        points[i].watch_hours = core::Hours(watched);
        points[i].watched = points[i].watch_hours >= settings_.min_watch;
    }
    return points;
}

core::Grid FlightDensity::grid() const {
    const auto box = effort_.box_watched(hardly_watched);
    if (!box) throw core::Error(core::Fault::inputs, {}, "nobody watched anywhere for as long as 0.01 hours");
    const core::Box wide = core::widened(*box, 4.0 * bandwidth_.h);
    const core::Grid grid = core::grid_over(wide, settings_.cell);
    const double cells = static_cast<double>(grid.rows) * static_cast<double>(grid.columns);
    if (cells <= most_cells) return grid;
    const double enough = std::ceil(settings_.cell.value() * std::sqrt(cells / most_cells) * 10.0) / 10.0;
    throw core::Error(core::Fault::inputs, {},
                      "the watched ground would need over 200 million cells: set activity.cell_m to " +
                          std::to_string(enough).substr(0, 5) +
                          " or more, or check for a watch far from the others");
}

Surfaces FlightDensity::surfaces(core::Threads threads) const {
    Surfaces made;
    const core::Grid over = grid();
    made.flight_density = {over, flown_on(over, pieces_, threads), std::vector<std::uint8_t>(over.size(), 0)};
    made.watch_hours = {over, std::vector<float>(over.size(), 0.0F),
                        std::vector<std::uint8_t>(over.size(), 0)};
    const EffortGrid effort(effort_, over);
    core::parallel_for(over.rows, 8, threads, [&](std::size_t begin, std::size_t end) {
        std::vector<double> flown(over.columns), watched(over.columns), smoothed(over.columns);
        for (std::size_t row = begin; row < end; ++row) {
            for (auto* sums : {&flown, &watched, &smoothed})
                std::fill(sums->begin(), sums->end(), 0.0);
            effort.add_row(row, flown.data(), watched.data(), smoothed.data());
            for (std::size_t c = 0; c < over.columns; ++c) {
                const std::size_t i = over.index({row, c});
                const double metres = flown[c] + static_cast<double>(made.flight_density.values[i]);
                made.flight_density.values[i] = static_cast<float>(per_hectare * rate(metres, smoothed[c]));
                made.flight_density.known[i] = watched[c] >= settings_.min_watch.value() ? 1 : 0;
                made.watch_hours.values[i] = static_cast<float>(watched[c]);
                made.watch_hours.known[i] = watched[c] >= hardly_watched.value() ? 1 : 0;
            }
        }
    });
    return made;
}

}  // namespace roostward::activity
