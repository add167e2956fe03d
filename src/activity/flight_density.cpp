#include "roostward/activity/flight_density.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "roostward/activity/effort_grid.hpp"
#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/evening_watch.hpp"
#include "roostward/activity/flown_grid.hpp"
#include "roostward/core/by_square.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "spot_sums.hpp"

namespace roostward::activity {

namespace {

constexpr double per_hectare = 1e4;
constexpr double most_cells = 2e8;
/// Below this a cell is left out of the watch-hours picture, and the grid need not reach there.
constexpr core::Hours hardly_watched{0.01};
/// A flight within this of a tree uses it, or within twice the bandwidth where that is more.
constexpr double close_by = 10.0;

std::vector<const Piece*> with_direction(const std::vector<Piece>& pieces, bool direction) {
    std::vector<const Piece*> chosen;
    chosen.reserve(pieces.size());
    for (const auto& piece : pieces)
        if ((piece.half_length > 0.0) == direction) chosen.push_back(&piece);
    return chosen;
}

std::vector<double> metres_flown_in(const survey::Survey& survey) {
    std::vector<double> metres(survey.evenings.size(), 0.0);
    for (const auto& flight : survey.flights)
        metres[flight.evening] += flight.metres();
    return metres;
}

core::Metres longest_piece(core::Metres h) {
    return 4.0 * h;
}

}  // namespace

FlightDensity::FlightDensity(const survey::Survey& survey, const Bandwidth& bandwidth,
                             const Settings& settings)
    : settings_(settings),
      bandwidth_(bandwidth),
      evenings_(survey.evenings.size()),
      effort_(survey, bandwidth.h),
      pieces_(pieces_of(survey, bandwidth.h, longest_piece(bandwidth.h))),
      metres_(metres_flown_in(survey)),
      mean_rate_(mean_rate(each_once(evenings_))) {}

FlightDensity::FlightDensity(const survey::Survey& part, const FlightDensity& whole)
    : settings_(whole.settings_),
      bandwidth_(whole.bandwidth_),
      evenings_(part.evenings.size()),
      effort_(part, whole.effort_),
      pieces_(pieces_of(part, bandwidth_.h, longest_piece(bandwidth_.h))),
      metres_(metres_flown_in(part)),
      mean_rate_(mean_rate(each_once(evenings_))) {}

double FlightDensity::mean_rate_without(const FlightDensity& part) const {
    double metres = 0.0, watched = 0.0;
    for (std::size_t n = 0; n < evenings_; ++n) {
        metres += metres_[n] - part.metres_[n];
        watched += effort_.integrals()[n] - part.effort_.integrals()[n];
    }
    return metres > 0.0 && watched > 0.0 ? metres / watched : 0.0;
}

double FlightDensity::mean_rate(std::span<const std::uint16_t> times) const {
    double metres = 0.0, watched = 0.0;
    for (std::size_t n = 0; n < evenings_; ++n) {
        metres += times[n] * metres_[n];
        watched += times[n] * effort_.integrals()[n];
    }
    return watched > 0.0 ? metres / watched : 0.0;
}

EveningTable FlightDensity::at(std::span<const core::PlanePoint> points, core::Threads threads) const {
    EveningTable table = blank_table(points.size(), evenings_);
    const double close = std::max(2.0 * bandwidth_.h.value(), close_by);
    const SpotSums spots(with_direction(pieces_, false), evenings_);
    const PieceBuckets straight(with_direction(pieces_, true));
    const core::Squares squares = core::by_square(points, spots.square_side());
    core::parallel_for(squares.size(), 1, threads, [&](std::size_t square, std::size_t) {
        const auto members = squares.members(square);
        for (const std::size_t i : members) {
            const std::size_t row = table.at(i, 0);
            effort_.add_at(points[i], &table.flown[row], &table.watched[row], &table.smoothed[row]);
        }
        spots.add_at(points, members, table.flown.data());
        for (const std::size_t i : members) {
            const std::size_t row = table.at(i, 0);
            spots.count_at(points[i], close, &table.used[row]);
            straight.add_at(points[i], &table.flown[row]);
            straight.count_at(points[i], close, &table.used[row]);
        }
    });
    return table;
}

std::vector<PointActivity> FlightDensity::watching_at(std::span<const core::PlanePoint> points,
                                                      core::Threads threads) const {
    const std::vector<std::uint16_t> once = each_once(evenings_);
    std::vector<PointActivity> watching(points.size());
    core::parallel_for(points.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        EveningTable row = blank_table(1, evenings_);
        for (std::size_t i = begin; i < end; ++i) {
            for (auto* column : {&row.flown, &row.watched, &row.smoothed})
                std::ranges::fill(*column, 0.0);
            effort_.add_at(points[i], row.flown.data(), row.watched.data(), row.smoothed.data());
            watching[i] = summarise(row, 0, once, mean_rate_);
        }
    });
    return watching;
}

WatchedPoints FlightDensity::where_watched(std::span<const core::PlanePoint> points,
                                           const std::vector<bool>& asked, core::Threads threads) const {
    WatchedPoints seen{watching_at(points, threads), {}};
    std::vector<core::PlanePoint> watched;
    std::vector<std::uint32_t> row_of(points.size(), std::numeric_limits<std::uint32_t>::max());
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!asked[i] || (!seen.activity[i].watched && seen.activity[i].evenings_watched == 0)) continue;
        row_of[i] = static_cast<std::uint32_t>(watched.size());
        watched.push_back(points[i]);
    }
    seen.evenings = at(watched, threads);
    const std::vector<PointActivity> with_flight = summarise(seen.evenings);
    for (std::size_t i = 0; i < points.size(); ++i)
        if (row_of[i] < with_flight.size()) seen.activity[i] = with_flight[row_of[i]];
    seen.evenings.row_of = std::move(row_of);
    return seen;
}

PointActivity FlightDensity::summarise(const EveningTable& table, std::size_t point,
                                       std::span<const std::uint16_t> times, double mean_rate) const {
    return summarise(table, point, times, mean_rate, settings_.min_watch);
}

PointActivity FlightDensity::summarise(const EveningTable& table, std::size_t point,
                                       std::span<const std::uint16_t> times, double mean_rate,
                                       core::Hours min_watch) const {
    PointActivity summary;
    double smoothed = 0.0, watched = 0.0;
    for (std::size_t n = 0; n < table.evenings; ++n) {
        const std::size_t at = table.at(point, n);
        summary.flown += times[n] * table.flown[at];
        smoothed += times[n] * table.smoothed[at];
        watched += times[n] * table.watched[at];
        if (table.watched[at] < enough_on_an_evening(min_watch).value()) continue;
        summary.evenings_watched += times[n];
        if (table.used[at] > 0) summary.evenings_used += times[n];
    }
    summary.smoothed = core::Hours(smoothed);
    summary.flight_density = rate(summary.flown, summary.smoothed, mean_rate, bandwidth_.shrink);
    summary.watch_hours = core::Hours(watched);
    summary.watched = summary.watch_hours >= min_watch;
    return summary;
}

std::vector<PointActivity> FlightDensity::summarise(const EveningTable& table) const {
    return summarise(table, settings_.min_watch);
}

std::vector<PointActivity> FlightDensity::summarise(const EveningTable& table, core::Hours min_watch) const {
    const std::vector<std::uint16_t> once = each_once(evenings_);
    std::vector<PointActivity> points(table.rows);
    for (std::size_t i = 0; i < table.rows; ++i)
        points[i] = summarise(table, i, once, mean_rate_, min_watch);
    return points;
}

core::Grid FlightDensity::grid() const {
    const auto box = effort_.box_watched(hardly_watched);
    if (!box) throw core::Error(core::Fault::inputs, {}, core::said("error.hardly_watched"));
    const core::Box wide = core::widened(*box, 4.0 * bandwidth_.h);
    const core::Grid grid = core::grid_over(wide, settings_.cell);
    const double cells = static_cast<double>(grid.rows) * static_cast<double>(grid.columns);
    if (cells <= most_cells) return grid;
    const double enough = std::ceil(settings_.cell.value() * std::sqrt(cells / most_cells) * 10.0) / 10.0;
    throw core::Error(core::Fault::inputs, {}, core::said("error.too_many_cells", {{"metres", enough}}));
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
                made.flight_density.values[i] = static_cast<float>(
                    per_hectare * rate(metres, core::Hours(smoothed[c]), mean_rate_, bandwidth_.shrink));
                made.flight_density.known[i] = watched[c] >= settings_.min_watch.value() ? 1 : 0;
                made.watch_hours.values[i] = static_cast<float>(watched[c]);
                made.watch_hours.known[i] = watched[c] >= hardly_watched.value() ? 1 : 0;
            }
        }
    });
    return made;
}

}  // namespace roostward::activity
