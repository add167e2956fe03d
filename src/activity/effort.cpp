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
/// In units of the widest Gaussian involved; beyond it effort is under 1e-10 of its hours.
constexpr double effort_reach = 6.8;
constexpr std::size_t most_widths = 16;

double squared(double x) {
    return x * x;
}

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
        sum += segment_kernel((dy * ex - dx * ey) / length, (dx * ex + dy * ey) / length, 0.5 * length, s) /
               peak;
    }
    return sum;
}

/// Signed smallest turn from `b` to `a`, radians.
double turn(double a, double b) {
    return std::remainder(a - b, 2.0 * pi);
}

Effort::View view_of(const survey::Watch& watch) {
    Effort::View view;
    view.path = watch.path;
    if (view.is_walk()) view.length = geo::length_of(watch.path).value();
    view.range = watch.range.value();
    if (watch.view) {
        view.middle = (90.0 - watch.view->look.value()) * pi / 180.0;
        view.half = 0.5 * watch.view->width.value() * pi / 180.0;
    }
    return view;
}

}  // namespace

bool Effort::View::all_round() const {
    return half > pi;
}

Effort::Effort(const survey::Survey& survey, core::Metres h)
    : even_ground_(survey.even_ground), evenings_(survey.evenings.size()) {
    lay_widths(survey, h);
    lay_views(survey);
}

Effort::Effort(const survey::Survey& part, const Effort& whole)
    : widths_(whole.widths_), even_ground_(part.even_ground), evenings_(part.evenings.size()) {
    lay_views(part);
}

void Effort::lay_widths(const survey::Survey& survey, core::Metres h) {
    std::map<double, double> metres;
    double total = 0.0;
    for (const auto& flight : survey.flights) {
        if (!flight.placed) continue;
        metres[flight.accuracy.value()] += flight.metres();
        total += flight.metres();
    }
    // Neighbouring accuracies share a width where there are many.
    const std::size_t group = std::max<std::size_t>((metres.size() + most_widths - 1) / most_widths, 1);
    std::size_t i = 0;
    for (const auto& [accuracy, share] : metres) {
        if (i++ % group == 0) widths_.push_back({0.0, 0.0});
        widths_.back().h += share * (squared(h.value()) + 2.0 * squared(accuracy));
        widths_.back().share += share;
    }
    for (auto& width : widths_) {
        width.h = std::sqrt(width.h / width.share);
        width.share /= total;
    }
    if (widths_.empty()) widths_.push_back({h.value(), 1.0});
}

void Effort::lay_views(const survey::Survey& survey) {
    integrals_.assign(evenings_, survey.even_effort() ? geo::area_of(even_ground_).value() : 0.0);
    const double widest = std::ranges::max(widths_, {}, &Width::h).h;
    std::vector<double> unplaced(survey.watches.size(), 0.0);
    std::vector<std::size_t> view_of_watch;
    for (const auto& flight : survey.flights)
        if (!flight.placed && flight.watch) unplaced[*flight.watch] += flight.metres();
    for (std::size_t w = 0; w < survey.watches.size(); ++w) {
        const auto& watch = survey.watches[w];
        View view = view_of(watch);
        view.spread = std::hypot(view.range, widest);
        const double share = watch.view ? watch.view->width.value() / 360.0 : 1.0;
        const double integral = watch.hours().value() * share * 2.0 * pi * squared(view.range);
        integrals_[survey.watch_evening[w]] += integral;
        const auto same = [&view](const View& other) {
            return other.path == view.path && other.range == view.range && other.middle == view.middle &&
                   other.half == view.half;
        };
        auto found = std::ranges::find_if(views_, same);
        if (found == views_.end()) found = views_.insert(views_.end(), std::move(view));
        view_of_watch.push_back(static_cast<std::size_t>(found - views_.begin()));
        found->sittings.push_back(
            {survey.watch_evening[w], watch.hours().value(), integral > 0.0 ? unplaced[w] / integral : 0.0});
    }
    lay_courses(survey, view_of_watch);
}

void Effort::lay_courses(const survey::Survey& survey, const std::vector<std::size_t>& view_of_watch) {
    std::vector<double> halves(views_.size(), 0.0), passes(views_.size(), 0.0);
    double all_halves = 0.0, all_ranges = 0.0;
    for (const auto& flight : survey.flights) {
        if (!flight.place_was_seen() || flight.noted_in != survey::NotedIn::passes || !flight.watch) continue;
        const std::size_t view = view_of_watch[*flight.watch];
        const double half = 0.5 * geo::length_of(flight.path).value();
        halves[view] += half;
        passes[view] += 1.0;
        all_halves += half;
        all_ranges += views_[view].range;
    }
    const double usual = all_ranges > 0.0 ? all_halves / all_ranges : 0.0;
    for (std::size_t v = 0; v < views_.size(); ++v)
        views_[v].half_course = passes[v] > 0.0 ? halves[v] / passes[v] : usual * views_[v].range;
}

bool Effort::may_be_seen(const View& view, core::PlanePoint p) {
    const double felt = view.felt_within(effort_reach) + view.half_course;
    return core::squared_distance(view.path.front(), p) <= felt * felt;
}

namespace {

/// Mean of a half-normal along a straight course, over `half` metres each way.
double half_normal_along(core::PlanePoint station, double range, core::PlanePoint p, const Effort::Axis& axis,
                         double half) {
    const double dx = p.easting - station.easting, dy = p.northing - station.northing;
    const double along = dx * axis.east + dy * axis.north, across = dx * axis.north - dy * axis.east;
    return std::numbers::pi * squared(range) / half * segment_kernel(across, along, half, range);
}

/// The same where the view is a sector.
double sector_along(const Effort::View& view, core::PlanePoint p, const Effort::Axis& axis, double half) {
    constexpr int places = 16;
    const core::PlanePoint station = view.path.front();
    double sum = 0.0;
    for (int i = 0; i < places; ++i) {
        const double away = half * (2.0 * i + 1.0 - places) / places;
        const core::PlanePoint at{p.easting + away * axis.east, p.northing + away * axis.north};
        const double angle = std::atan2(at.northing - station.northing, at.easting - station.easting);
        if (std::fabs(turn(angle, view.middle)) > view.half) continue;
        sum += exp_of(-0.5 * core::squared_distance(station, at) / squared(view.range));
    }
    return sum / places;
}

}  // namespace

double Effort::along_course(const View& view, core::PlanePoint p, const std::optional<Axis>& axis,
                            core::Metres reach) const {
    if (view.is_walk()) return of_view(view, p).watched;
    const double half = view.half_course + reach.value();
    const auto along = [&](const Axis& course) {
        return view.all_round() ? half_normal_along(view.path.front(), view.range, p, course, half)
                                : sector_along(view, p, course, half);
    };
    if (axis) return along(*axis);
    constexpr double slant = 0.5 * std::numbers::sqrt2;
    double sum = 0.0;
    for (const Axis course : {Axis{1.0, 0.0}, Axis{slant, slant}, Axis{0.0, 1.0}, Axis{-slant, slant}})
        sum += along(course);
    return 0.25 * sum;
}

Effort::PerHour Effort::of_view(const View& view, core::PlanePoint p) const {
    PerHour at;
    if (view.all_round()) {
        at.watched = along_path(view.path, p, view.range) / view.length;
        for (const auto& width : widths_) {
            const double s2 = squared(view.range) + squared(width.h);
            at.smoothed += width.share * squared(view.range) / s2 * along_path(view.path, p, std::sqrt(s2)) /
                           view.length;
        }
        return at;
    }
    const core::PlanePoint station = view.path.front();
    const double angle = std::atan2(p.northing - station.northing, p.easting - station.easting);
    if (std::fabs(turn(angle, view.middle)) <= view.half) at.watched = along_path(view.path, p, view.range);
    // A half-normal times the kernel is one narrower Gaussian between the station and p: the sector holds a
    // share of it.
    for (const auto& width : widths_) {
        const double s2 = squared(view.range) + squared(width.h), toward = squared(view.range) / s2;
        const core::PlanePoint middle{station.easting + toward * (p.easting - station.easting),
                                      station.northing + toward * (p.northing - station.northing)};
        const double share =
            sector_mass({station, view.middle, view.half}, middle, core::Metres(width.h * std::sqrt(toward)));
        at.smoothed += width.share * toward * along_path(view.path, p, std::sqrt(s2)) * share;
    }
    return at;
}

Effort::PerHour Effort::of_even_ground(core::PlanePoint p) const {
    PerHour at{geo::covers(even_ground_, p) ? 1.0 : 0.0, 0.0};
    for (const auto& width : widths_)
        at.smoothed += width.share * ground_mass(even_ground_, p, core::Metres(width.h));
    return at;
}

void Effort::add_at(core::PlanePoint p, double* flown, double* watched, double* smoothed) const {
    for (const auto& view : views_) {
        const double felt = view.felt_within(effort_reach);
        if (!view.is_walk() && core::squared_distance(view.path.front(), p) > felt * felt) continue;
        const PerHour at = of_view(view, p);
        for (const auto& sitting : view.sittings) {
            watched[sitting.evening] += sitting.hours * at.watched;
            smoothed[sitting.evening] += sitting.hours * at.smoothed;
            flown[sitting.evening] += sitting.unplaced_per_hour * sitting.hours * at.smoothed;
        }
    }
    if (!views_.empty()) return;
    const PerHour at = of_even_ground(p);
    for (std::size_t n = 0; n < evenings_; ++n) {
        watched[n] += at.watched;
        smoothed[n] += at.smoothed;
    }
}

std::optional<core::Box> Effort::box_watched(core::Hours least) const {
    std::vector<core::PlanePoint> corners;
    // Where the sum reaches `least`, some view gives at least its equal part of it.
    const double part = least.value() / static_cast<double>(std::max<std::size_t>(views_.size(), 1));
    for (const auto& view : views_) {
        double hours = 0.0;
        for (const auto& sitting : view.sittings)
            hours += sitting.hours;
        if (hours <= part) continue;
        const double radius = view.range * std::sqrt(2.0 * std::log(hours / part));
        for (const auto& p : view.path) {
            const core::Box box = core::widened({p, p}, core::Metres(radius));
            corners.push_back(box.south_west);
            corners.push_back(box.north_east);
        }
    }
    if (views_.empty())
        for (const auto& polygon : even_ground_)
            corners.insert(corners.end(), polygon.outer.begin(), polygon.outer.end());
    return geo::box_of(corners);
}

}  // namespace roostward::activity
