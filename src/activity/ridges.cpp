#include "roostward/activity/ridges.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <optional>

namespace roostward::activity {

namespace {

/// Cells that the differences reach to each side.
constexpr std::size_t margin = 2;
/// How far from its cell's centre a ridge point may lie, in cells: a little over a half, so that a ridge
/// along the edge between two cells is not lost to rounding.
constexpr double within_cell = 0.6;
constexpr double most_bent = std::numbers::pi / 4.0;   ///< from one ridge point to the next
constexpr double same_ridge = std::numbers::pi / 6.0;  ///< two responses to one ridge differ by less
constexpr std::uint32_t none = UINT32_MAX;

/// First and second derivatives, per metre and per square metre.
struct Derivatives {
    double x, y, xx, xy, yy;
};

double first(const float* v, std::ptrdiff_t step) {
    const auto at = [&](std::ptrdiff_t steps) { return static_cast<double>(v[steps * step]); };
    return (at(-2) - at(2) + 8.0 * (at(1) - at(-1))) / 12.0;
}

double second(const float* v, std::ptrdiff_t step) {
    const auto at = [&](std::ptrdiff_t steps) { return static_cast<double>(v[steps * step]); };
    return (16.0 * (at(1) + at(-1)) - at(2) - at(-2) - 30.0 * at(0)) / 12.0;
}

Derivatives derivatives_at(const RidgeField& field, std::size_t index) {
    const float* const v = &field.value[index];
    const auto row = static_cast<std::ptrdiff_t>(field.grid.columns);
    const double cell = field.grid.cell.value();
    const double cross =
        (first(v - 2 * row, 1) - first(v + 2 * row, 1) + 8.0 * (first(v + row, 1) - first(v - row, 1))) /
        12.0;
    // Rows run south.
    return {first(v, 1) / cell, -first(v, row) / cell, second(v, 1) / (cell * cell), -cross / (cell * cell),
            second(v, row) / (cell * cell)};
}

/// The ridge point of one cell, if it has one that is strong enough.
std::optional<RidgePoint> ridge_point(const RidgeField& field, core::Cell cell) {
    const std::size_t index = field.grid.index(cell);
    const auto least = static_cast<double>(field.least[index]);
    if (!(least < std::numeric_limits<double>::infinity())) return std::nullopt;
    const Derivatives d = derivatives_at(field, index);
    const double mean = 0.5 * (d.xx + d.yy), half = std::hypot(0.5 * (d.xx - d.yy), d.xy);
    const double curvature = mean - half;
    if (mean > 0.0 || -curvature < least || curvature == 0.0) return std::nullopt;
    double east = d.xy, north = curvature - d.xx;
    if (std::fabs(curvature - d.yy) > std::fabs(north)) {
        east = curvature - d.yy;
        north = d.xy;
    }
    const double length = std::hypot(east, north);
    if (length == 0.0) return std::nullopt;
    east /= length;
    north /= length;
    const double away = -(d.x * east + d.y * north) / curvature;
    if (std::max(std::fabs(away * east), std::fabs(away * north)) > within_cell * field.grid.cell.value())
        return std::nullopt;
    const core::PlanePoint centre = field.grid.centre(cell);
    return RidgePoint{
        {centre.easting + away * east, centre.northing + away * north}, east, north, -curvature, index};
}

std::vector<RidgePoint> ridge_points(const RidgeField& field, core::Threads threads) {
    const core::Grid& grid = field.grid;
    if (grid.rows <= 2 * margin || grid.columns <= 2 * margin) return {};
    std::vector<std::vector<RidgePoint>> of_row(grid.rows);
    core::parallel_for(grid.rows - 2 * margin, 16, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin + margin; row < end + margin; ++row)
            for (std::size_t column = margin; column + margin < grid.columns; ++column)
                if (const auto point = ridge_point(field, {row, column})) of_row[row].push_back(*point);
    });
    std::vector<RidgePoint> points;
    for (const auto& row : of_row)
        points.insert(points.end(), row.begin(), row.end());
    return points;
}

/// Angle between two lines across ridges, in [0, π/2].
double angle_between(const RidgePoint& a, const RidgePoint& b) {
    return std::acos(
        std::min(1.0, std::fabs(a.across_east * b.across_east + a.across_north * b.across_north)));
}

/// Links ridge points, each into one ridge only.
class Linker {
 public:
    Linker(const RidgeField& field, std::vector<RidgePoint> points)
        : field_(field),
          points_(std::move(points)),
          of_cell_(field.grid.size(), none),
          state_(points_.size()) {
        for (std::size_t i = 0; i < points_.size(); ++i)
            of_cell_[points_[i].cell] = static_cast<std::uint32_t>(i);
    }

    std::vector<Ridge> run(double start) {
        std::vector<Ridge> ridges;
        for (const std::uint32_t seed : seeds(start)) {
            if (state_[seed] != State::free) continue;
            const RidgePoint& point = points_[seed];
            take(seed);
            Ridge ridge = followed(seed, -point.across_north, point.across_east);
            std::reverse(ridge.begin(), ridge.end());
            ridge.push_back(point);
            const Ridge ahead = followed(seed, point.across_north, -point.across_east);
            ridge.insert(ridge.end(), ahead.begin(), ahead.end());
            ridges.push_back(std::move(ridge));
        }
        return ridges;
    }

 private:
    /// Beside a ridge: a second response to it.
    enum class State : std::uint8_t { free, taken, beside };

    [[nodiscard]] double over_least(std::uint32_t i) const {
        return points_[i].strength / static_cast<double>(field_.least[points_[i].cell]);
    }

    /// Strongest first; the index makes the order unique.
    [[nodiscard]] std::vector<std::uint32_t> seeds(double start) const {
        std::vector<std::uint32_t> seeds;
        for (std::uint32_t i = 0; i < points_.size(); ++i)
            if (over_least(i) >= start) seeds.push_back(i);
        std::sort(seeds.begin(), seeds.end(), [this](std::uint32_t a, std::uint32_t b) {
            return over_least(a) != over_least(b) ? over_least(a) > over_least(b) : a < b;
        });
        return seeds;
    }

    template <class Use>
    void for_each_neighbour(std::uint32_t i, Use use) const {
        const std::size_t cell = points_[i].cell, columns = field_.grid.columns;
        for (std::size_t row = cell - columns; row <= cell + columns; row += columns)
            for (std::size_t at = row - 1; at <= row + 1; ++at)
                if (at != cell && of_cell_[at] != none) use(of_cell_[at]);
    }

    void take(std::uint32_t i) {
        state_[i] = State::taken;
        const RidgePoint& p = points_[i];
        for_each_neighbour(i, [&](std::uint32_t other) {
            const RidgePoint& q = points_[other];
            const double along = (q.place.northing - p.place.northing) * p.across_east -
                                 (q.place.easting - p.place.easting) * p.across_north;
            if (state_[other] == State::free && std::fabs(along) < 0.5 * field_.grid.cell.value() &&
                angle_between(p, q) < same_ridge)
                state_[other] = State::beside;
        });
    }

    /// The nearest and straightest neighbour ahead.
    [[nodiscard]] std::uint32_t next(std::uint32_t from, double east, double north) const {
        std::uint32_t best = none;
        double least_cost = std::numeric_limits<double>::infinity();
        for_each_neighbour(from, [&](std::uint32_t other) {
            const RidgePoint &p = points_[from], &q = points_[other];
            const double dx = q.place.easting - p.place.easting, dy = q.place.northing - p.place.northing;
            const double away = std::hypot(dx, dy);
            const double turn = angle_between(p, q);
            if (state_[other] == State::beside || turn > most_bent) return;
            if (dx * east + dy * north <= away * std::cos(most_bent)) return;
            const double cost = away / field_.grid.cell.value() + turn;
            if (cost < least_cost) {
                least_cost = cost;
                best = other;
            }
        });
        return best;
    }

    /// The points after `from` on the way east and north.
    Ridge followed(std::uint32_t from, double east, double north) {
        Ridge ridge;
        for (std::uint32_t i = next(from, east, north); i != none; i = next(from, east, north)) {
            ridge.push_back(points_[i]);
            if (state_[i] == State::taken) break;
            take(i);
            const double along_east = -points_[i].across_north, along_north = points_[i].across_east;
            const double sign = along_east * east + along_north * north < 0.0 ? -1.0 : 1.0;
            east = sign * along_east;
            north = sign * along_north;
            from = i;
        }
        return ridge;
    }

    const RidgeField& field_;
    std::vector<RidgePoint> points_;
    std::vector<std::uint32_t> of_cell_;  ///< index of a cell's ridge point
    std::vector<State> state_;
};

}  // namespace

std::vector<Ridge> find_ridges(const RidgeField& field, double start, core::Threads threads) {
    return Linker(field, ridge_points(field, threads)).run(start);
}

}  // namespace roostward::activity
