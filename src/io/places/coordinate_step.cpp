#include "places/coordinate_step.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <map>
#include <set>
#include <string>

#include "places/median_point.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t enough_values = 20, enough_different = 8;  // common practice, no source
constexpr double told_from = 1.0;                                // m
/// Of a step: what may be lost in writing.
constexpr double slack = 1e-4;

/// Largest first: 1, 2 and 5 times powers of ten, and minutes and seconds of arc.
std::vector<double> steps_to_try(bool degrees) {
    std::vector<double> steps;
    for (int power = degrees ? -6 : 0; power <= (degrees ? 0 : 4); ++power)
        for (const double digit : {1.0, 2.0, 5.0})
            steps.push_back(digit * std::pow(10.0, power));
    if (degrees) steps.insert(steps.end(), {1.0 / 60.0, 0.1 / 60.0, 0.01 / 60.0, 1.0 / 3600.0, 0.1 / 3600.0});
    std::ranges::sort(steps, std::greater{});
    return steps;
}

/// The larger of the two axes' steps, in metres of the plane at the layer's middle.
core::Metres step_in_plane(const geo::Line& points, const geo::Crs& crs, PlanningPlane& plane) {
    const bool degrees = crs == geo::wgs84() || geo::facts_of(crs).geographic;
    std::vector<double> x, y;
    for (const core::PlanePoint& point : points) {
        x.push_back(point.easting);
        y.push_back(point.northing);
    }
    const double east = step_of(x, degrees), north = step_of(y, degrees);
    const auto middle = median_point(points);
    if (!middle || (east == 0.0 && north == 0.0)) return {};
    const geo::Transform* way = plane.way_from(crs);
    const auto placed = [way](core::PlanePoint p) { return way == nullptr ? p : (*way)(p); };
    const core::PlanePoint at = placed(*middle);
    const core::Metres along = core::distance(at, placed({middle->easting + east, middle->northing}));
    const core::Metres up = core::distance(at, placed({middle->easting, middle->northing + north}));
    return std::max(along, up);
}

/// Files of one system are judged together, as if they were one file; the largest step is the layer's.
template <class Record, class PointsOf>
void find_step(UnplacedLayer<Record>& layer, PlanningPlane& plane, const PointsOf& points_of) {
    std::map<std::string, geo::Line> points_in;
    for (const Record& record : layer.rows)
        points_of(record, points_in[layer.facts.of(record.row).crs.definition]);
    core::Metres step;
    for (const auto& [crs, points] : points_in)
        step = std::max(step, step_in_plane(points, {crs}, plane));
    if (!(step.value() >= told_from)) return;
    layer.step = step;
    layer.facts.report.doubt_layer("coordinates rounded to a step",
                                   core::said("value.metres_3", {{"metres", step.value()}}),
                                   core::said("finding.rounded_to_a_step"));
}

}  // namespace

double step_of(const std::vector<double>& values, bool degrees) {
    if (values.size() < enough_values) return 0.0;
    std::vector<double> sorted = values;
    std::ranges::nth_element(sorted, sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2));
    const double middle = sorted[sorted.size() / 2];
    for (const double step : steps_to_try(degrees)) {
        std::size_t others = 0;
        std::set<double> different;
        for (const double value : values) {
            const double steps = (value - middle) / step;
            if (std::fabs(steps - std::round(steps)) <= slack) {
                if (different.size() < enough_different) different.insert(std::round(steps));
            } else if (50 * ++others > values.size()) {
                break;
            }
        }
        if (50 * others <= values.size() && different.size() >= enough_different) return step;
    }
    return 0.0;
}

void find_steps(UnplacedInputs& in, PlanningPlane& plane) {
    if (in.passes)
        find_step(*in.passes, plane, [](const survey::Pass& pass, geo::Line& points) {
            if (pass.says_where()) points.push_back(pass.position);
        });
    if (in.tracks)
        find_step(*in.tracks, plane, [](const survey::Track& track, geo::Line& points) {
            points.insert(points.end(), track.path.begin(), track.path.end());
        });
}

}  // namespace roostward::io
