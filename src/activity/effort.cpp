#include "roostward/activity/effort.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "roostward/activity/ground_mass.hpp"
#include "roostward/activity/kernel.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::activity {

namespace {

constexpr double pi = std::numbers::pi;
/// In units of the widest Gaussian involved; beyond it effort is under 2e-16 of its hours.
constexpr double effort_reach = 8.5;
constexpr std::size_t most_widths = 16;

double squared(double x) { return x * x; }

/// ∫ of a Gaussian of width `s` along a path, relative to its peak: metres. A single point counts as 1.
double along_path(const geo::Line& path, core::PlanePoint p, double s) {
    const double peak = 1.0 / (2.0 * pi * s * s);
    if (path.size() == 1) return point_kernel(core::squared_distance(path.front(), p), s) / peak;
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const double ex = path[i + 1].easting - path[i].easting, ey = path[i + 1].northing - path[i].northing;
        const double length = std::hypot(ex, ey);
        if (length == 0.0) continue;
        const double dx = p.easting - 0.5 * (path[i].easting + path[i + 1].easting);
        const double dy = p.northing - 0.5 * (path[i].northing + path[i + 1].northing);
        sum += segment_kernel((dy * ex - dx * ey) / length, (dx * ex + dy * ey) / length, 0.5 * length, s) / peak;
    }
    return sum;
}

/// Signed smallest turn from `b` to `a`, radians.
double turn(double a, double b) { return std::remainder(a - b, 2.0 * pi); }

}  // namespace

bool Effort::View::all_round() const { return half > pi; }

Effort::Effort(const survey::Survey& survey, core::Metres h)
    : even_ground_(survey.even_ground), evenings_(survey.evenings.size()) {
    std::map<double, double> metres;
    double total = 0.0;
    for (const auto& flight : survey.flights) {
        if (!flight.placed) continue;
        metres[flight.accuracy.value()] += flight.count * flight.length.value();
        total += flight.count * flight.length.value();
    }
    // Neighbouring accuracies share a width where there are many.
    const std::size_t group = (metres.size() + most_widths - 1) / most_widths;
    std::size_t i = 0;
    for (const auto& [accuracy, share] : metres) {
        if (i++ % std::max<std::size_t>(group, 1) == 0) widths_.push_back({0.0, 0.0});
        widths_.back().h += share * (squared(h.value()) + 2.0 * squared(accuracy));
        widths_.back().share += share;
    }
    for (auto& width : widths_) {
        width.h = std::sqrt(width.h / width.share);
        width.share /= total;
    }
    if (widths_.empty()) widths_.push_back({h.value(), 1.0});

    std::vector<double> unplaced(survey.watches.size(), 0.0);
    for (const auto& flight : survey.flights)
        if (!flight.placed && flight.watch) unplaced[*flight.watch] += flight.count * flight.length.value();
    for (std::size_t w = 0; w < survey.watches.size(); ++w) {
        const auto& watch = survey.watches[w];
        View view;
        view.evening = survey.watch_evening[w];
        view.path = watch.path;
        view.length = watch.path.size() == 1 ? 1.0 : geo::length_of(watch.path).value();
        view.hours = watch.hours().value();
        view.range = watch.range.value();
        double share = 1.0;
        if (watch.view) {
            view.middle = (90.0 - watch.view->look.value()) * pi / 180.0;
            view.half = 0.5 * watch.view->width.value() * pi / 180.0;
            share = watch.view->width.value() / 360.0;
        }
        const double integral = view.hours * share * 2.0 * pi * squared(view.range);
        view.unplaced_per_hour = integral > 0.0 ? unplaced[w] / integral : 0.0;
        integral_ += integral;
        views_.push_back(std::move(view));
    }
    if (survey.even_effort())
        integral_ = geo::area_of(even_ground_).value() * static_cast<double>(evenings_);
}

double Effort::felt_within(const View& view) const {
    double widest = 0.0;
    for (const auto& width : widths_) widest = std::max(widest, width.h);
    return effort_reach * std::hypot(view.range, widest);
}

Effort::AtPoint Effort::of_view(const View& view, core::PlanePoint p) const {
    AtPoint at{0.0, 0.0};
    const double per_path = view.hours / view.length;
    if (view.all_round()) {
        at.watched = per_path * along_path(view.path, p, view.range);
        for (const auto& width : widths_) {
            const double s2 = squared(view.range) + squared(width.h);
            at.smoothed += width.share * per_path * (squared(view.range) / s2) * along_path(view.path, p, std::sqrt(s2));
        }
        return at;
    }
    const core::PlanePoint station = view.path.front();
    const double angle = std::atan2(p.northing - station.northing, p.easting - station.easting);
    if (std::fabs(turn(angle, view.middle)) <= view.half)
        at.watched = per_path * along_path(view.path, p, view.range);
    // A half-normal times the kernel is one narrower Gaussian between the station and p: the sector holds a share of it.
    for (const auto& width : widths_) {
        const double s2 = squared(view.range) + squared(width.h), toward = squared(view.range) / s2;
        const core::PlanePoint middle{station.easting + toward * (p.easting - station.easting),
                                      station.northing + toward * (p.northing - station.northing)};
        const double share = sector_mass({station, view.middle, view.half}, middle, core::Metres(width.h * std::sqrt(toward)));
        at.smoothed += width.share * per_path * toward * along_path(view.path, p, std::sqrt(s2)) * share;
    }
    return at;
}

Effort::AtPoint Effort::of_ground(core::PlanePoint p) const {
    AtPoint at{geo::covers(even_ground_, p) ? 1.0 : 0.0, 0.0};
    for (const auto& width : widths_) at.smoothed += width.share * ground_mass(even_ground_, p, core::Metres(width.h));
    return at;
}

void Effort::add_at(core::PlanePoint p, Row row) const {
    for (const auto& view : views_) {
        const double felt = felt_within(view);
        if (view.path.size() == 1 && core::squared_distance(view.path.front(), p) > felt * felt) continue;
        const AtPoint at = of_view(view, p);
        row.watched[view.evening] += at.watched;
        row.smoothed[view.evening] += at.smoothed;
        if (row.flown != nullptr) row.flown[view.evening] += view.unplaced_per_hour * at.smoothed;
    }
    if (!views_.empty()) return;
    const AtPoint at = of_ground(p);
    for (std::size_t n = 0; n < evenings_; ++n) {
        row.watched[n] += at.watched;
        row.smoothed[n] += at.smoothed;
    }
}

void Effort::add_round_row(const View& view, const core::Grid& grid, std::size_t grid_row, Row row) const {
    const core::PlanePoint station = view.path.front();
    const double dy = grid.centre({grid_row, 0}).northing - station.northing;
    const double felt = felt_within(view);
    const double half = std::sqrt(std::max(0.0, felt * felt - dy * dy));
    if (half == 0.0) return;
    const double first = (station.easting - half - grid.north_west.easting) / grid.cell.value();
    const double last = (station.easting + half - grid.north_west.easting) / grid.cell.value();
    const auto columns = static_cast<double>(grid.columns);
    const auto begin = static_cast<std::size_t>(std::clamp(std::floor(first), 0.0, columns));
    const auto end = static_cast<std::size_t>(std::clamp(std::ceil(last), 0.0, columns));
    const auto add = [&](double* sum, double hours, double variance) {
        const double per_row = hours * exp_of(-0.5 * dy * dy / variance);
        for (std::size_t c = begin; c < end; ++c) {
            const double dx = grid.north_west.easting + (static_cast<double>(c) + 0.5) * grid.cell.value() - station.easting;
            sum[c] += per_row * exp_of(-0.5 * dx * dx / variance);
        }
    };
    add(row.watched, view.hours, squared(view.range));
    for (const auto& width : widths_) {
        const double variance = squared(view.range) + squared(width.h);
        const double hours = width.share * view.hours * squared(view.range) / variance;
        add(row.smoothed, hours, variance);
        if (row.flown != nullptr && view.unplaced_per_hour > 0.0) add(row.flown, view.unplaced_per_hour * hours, variance);
    }
}

void Effort::add_grid_row(const core::Grid& grid, std::size_t grid_row, Row row) const {
    for (const auto& view : views_) {
        if (view.all_round() && view.path.size() == 1) {
            add_round_row(view, grid, grid_row, row);
            continue;
        }
        const double felt = felt_within(view);
        for (std::size_t c = 0; c < grid.columns; ++c) {
            const core::PlanePoint p = grid.centre({grid_row, c});
            if (view.path.size() == 1 && core::squared_distance(view.path.front(), p) > felt * felt) continue;
            const AtPoint at = of_view(view, p);
            row.watched[c] += at.watched;
            row.smoothed[c] += at.smoothed;
            if (row.flown != nullptr) row.flown[c] += view.unplaced_per_hour * at.smoothed;
        }
    }
    if (!views_.empty()) return;
    const auto evenings = static_cast<double>(evenings_);
    for (std::size_t c = 0; c < grid.columns; ++c) {
        const AtPoint at = of_ground(grid.centre({grid_row, c}));
        row.watched[c] += evenings * at.watched;
        row.smoothed[c] += evenings * at.smoothed;
    }
}

std::optional<core::Box> Effort::box_watched(core::Hours least) const {
    std::vector<core::PlanePoint> corners;
    // Where the sum reaches `least`, some watch gives at least its equal part of it.
    const double part = least.value() / static_cast<double>(std::max<std::size_t>(views_.size(), 1));
    for (const auto& view : views_) {
        if (view.hours <= part) continue;
        const double radius = view.range * std::sqrt(2.0 * std::log(view.hours / part));
        for (const auto& p : view.path) {
            const core::Box box = core::widened({p, p}, core::Metres(radius));
            corners.push_back(box.south_west);
            corners.push_back(box.north_east);
        }
    }
    if (views_.empty())
        for (const auto& polygon : even_ground_) corners.insert(corners.end(), polygon.outer.begin(), polygon.outer.end());
    return geo::box_of(corners);
}

}  // namespace roostward::activity
