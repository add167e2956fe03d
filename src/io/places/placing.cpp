#include "places/placing.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include <fmt/format.h>

#include "layers/keep_rows.hpp"
#include "places/median_point.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/geo/grid_reference.hpp"

namespace roostward::io {

namespace {

constexpr double far_m = 50'000.0;         // common practice, no source
constexpr double swap_near_m = 100'000.0;  // common practice, no source
constexpr double poor_accuracy_m = 1.0;

/// Whether a layer may reach far beyond the site, as a country's roads do.
enum class Reach { the_site, anywhere };

/// One layer seen as the points that it lies by: as they stand in the file, and in the plane.
struct LayerPlaces {
    LayerFacts* facts = nullptr;
    Reach reach = Reach::the_site;
    std::vector<core::RowRef> rows;
    geo::Line raw;
    geo::Line placed;
    std::vector<bool> in_plane;  ///< whether every point of the row could be brought into the plane
    std::optional<core::PlanePoint> middle;
};

core::PlanePoint swapped(core::PlanePoint p) {
    return {p.northing, p.easting};
}

bool within(core::PlanePoint a, core::PlanePoint b, double metres) {
    return core::squared_distance(a, b) <= metres * metres;  // false for not-a-number
}

class Placer {
 public:
    Placer(PlanningPlane& plane, core::Threads threads) : plane_(plane), threads_(threads) {}

    /// `points_of(record)` gives the spans of points of a record; `anchor_of` the one that it lies by.
    template <class Record, class PointsOf, class AnchorOf>
    void add(UnplacedLayer<Record>& layer, Reach reach, const PointsOf& points_of,
             const AnchorOf& anchor_of) {
        LayerPlaces places{&layer.facts, reach, {}, {}, {}, std::vector<bool>(layer.rows.size(), true), {}};
        for (const Record& record : layer.rows) {
            places.rows.push_back(record.row);
            places.raw.push_back(anchor_of(record));
        }
        transform(layer, points_of, places.in_plane);
        for (const Record& record : layer.rows)
            places.placed.push_back(anchor_of(record));
        places.middle = median_point(places.placed);
        layers_.push_back(std::move(places));
    }

    /// The middle of the layer that most others lie near; of equals the one that was added first.
    [[nodiscard]] std::optional<core::PlanePoint> site_middle() const {
        std::optional<core::PlanePoint> best;
        std::size_t most = 0;
        for (const LayerPlaces& layer : layers_) {
            if (!layer.middle) continue;
            const auto agreeing = static_cast<std::size_t>(
                std::count_if(layers_.begin(), layers_.end(), [&](const LayerPlaces& other) {
                    return other.middle && within(*layer.middle, *other.middle, far_m);
                }));
            if (agreeing > most) {
                most = agreeing;
                best = layer.middle;
            }
        }
        return best;
    }

    /// One mark a row: whether its place can be right. What cannot is told.
    [[nodiscard]] std::vector<bool> judged(std::size_t which, core::PlanePoint site_middle) {
        LayerPlaces& layer = layers_[which];
        std::vector<bool> good = layer.in_plane;
        refuse_british(layer, good, site_middle);
        const auto near_site = [&](core::PlanePoint p) { return within(p, site_middle, far_m); };
        const bool far_is_fine = layer.reach == Reach::anywhere &&
                                 std::any_of(layer.placed.begin(), layer.placed.end(), near_site);
        const core::PlanePoint middle = layer.middle.value_or(site_middle);
        const core::PlanePoint centre =
            far_is_fine || near_site(middle) ? middle : elsewhere(layer, middle, site_middle);
        for (std::size_t i = 0; i < good.size(); ++i) {
            if (!good[i] && layer.in_plane[i]) continue;
            if (!far_is_fine) good[i] = good[i] && within(layer.placed[i], centre, far_m);
            if (!good[i]) tell_stray(layer, i, centre);
        }
        return good;
    }

 private:
    /// Two letters and digits are the British grid only where the site lies there.
    void refuse_british(LayerPlaces& layer, std::vector<bool>& good, core::PlanePoint site_middle) const {
        const auto is_british = [&](core::RowRef row) {
            return std::ranges::binary_search(layer.facts->of(row).british_rows, row.number);
        };
        if (std::ranges::none_of(layer.facts->files,
                                 [](const FileFacts& f) { return !f.british_rows.empty(); }))
            return;
        const geo::Transform to_globe(plane_.crs(), geo::wgs84());
        if (geo::in_british_grid(geo::on_globe(to_globe(site_middle)))) return;
        geo::Line others;
        for (std::size_t i = 0; i < good.size(); ++i) {
            if (!is_british(layer.rows[i])) {
                others.push_back(layer.placed[i]);
                continue;
            }
            good[i] = false;
            layer.facts->report.set_aside_row(layer.rows[i], "unknown grid reference", "",
                                              core::said("finding.not_the_british_grid"));
        }
        layer.middle = median_point(others);
    }

    template <class Record, class PointsOf>
    void transform(UnplacedLayer<Record>& layer, const PointsOf& points_of, std::vector<bool>& in_plane) {
        for (std::uint32_t file = 0; file < layer.facts.files.size(); ++file)
            transform(layer, file, points_of, in_plane);
    }

    template <class Record, class PointsOf>
    void transform(UnplacedLayer<Record>& layer, std::uint32_t file, const PointsOf& points_of,
                   std::vector<bool>& in_plane) {
        FileFacts& facts = layer.facts.files[file];
        const geo::Transform* way = plane_.way_from(facts.crs);
        if (way == nullptr) return;
        geo::Line all;
        for (Record& record : layer.rows) {
            if (record.row.file != file) continue;
            points_of(record, [&](std::span<core::PlanePoint> points) {
                all.insert(all.end(), points.begin(), points.end());
            });
        }
        way->apply(all, threads_);
        auto next = all.begin();
        for (std::size_t i = 0; i < layer.rows.size(); ++i) {
            if (layer.rows[i].row.file != file) continue;
            points_of(layer.rows[i], [&](std::span<core::PlanePoint> points) {
                for (core::PlanePoint& point : points) {
                    point = *next++;
                    if (!std::isfinite(point.easting)) in_plane[i] = false;
                }
            });
        }
        facts.file.operation = way->operation();
        facts.file.accuracy = way->accuracy();
        if (facts.file.accuracy && facts.file.accuracy->value() > poor_accuracy_m) {
            layer.facts.report.doubt_layer(
                "transformation accuracy",
                core::said("value.exact_metres", {{"metres", facts.file.accuracy->value()}}),
                core::said("finding.transformation_accuracy", {{"operation", facts.file.operation}}));
        }
    }

    [[nodiscard]] bool swapping_helps(const geo::Crs& crs, core::PlanePoint raw, core::PlanePoint centre) {
        const geo::Transform* way = plane_.way_from(crs);
        const core::PlanePoint other = swapped(raw);
        return within(way == nullptr ? other : (*way)(other), centre, swap_near_m);
    }

    /// Where a layer ought to lie that lies elsewhere than the site: there, if it is only swapped.
    [[nodiscard]] core::PlanePoint elsewhere(const LayerPlaces& layer, core::PlanePoint middle,
                                             core::PlanePoint site_middle) {
        const std::optional<core::PlanePoint> raw = median_point(layer.raw);
        const geo::Crs& crs = layer.facts->files.front().crs;
        if (raw && swapping_helps(crs, *raw, site_middle)) return site_middle;
        layer.facts->report.doubt_layer(
            "layers do not overlap", "",
            core::said("finding.layer_far_away",
                       {{"km", core::distance(middle, site_middle).value() / 1000.0}}));
        return middle;
    }

    void tell_stray(const LayerPlaces& layer, std::size_t i, core::PlanePoint centre) {
        const std::string value = fmt::format("{}, {}", layer.raw[i].easting, layer.raw[i].northing);
        LayerReport& report = layer.facts->report;
        if (swapping_helps(layer.facts->of(layer.rows[i]).crs, layer.raw[i], centre)) {
            report.set_aside_row(layer.rows[i], "swapped coordinates", value,
                                 core::said("finding.swapped_coordinates"));
        } else {
            report.set_aside_row(layer.rows[i], "far outside the site", value,
                                 core::said("finding.far_outside"));
        }
    }

    PlanningPlane& plane_;
    core::Threads threads_;
    std::vector<LayerPlaces> layers_;
};

template <class Visit>
void visit_points(geo::Shape& shape, const Visit& visit) {
    visit(std::span(shape.points));
    for (geo::Line& line : shape.lines)
        visit(std::span(line));
    for (geo::Polygon& polygon : shape.polygons) {
        visit(std::span(polygon.outer));
        for (geo::Line& hole : polygon.holes)
            visit(std::span(hole));
    }
}

core::PlanePoint first_point(const geo::Shape& shape) {
    if (!shape.points.empty()) return shape.points.front();
    if (!shape.lines.empty()) return shape.lines.front().front();
    return shape.polygons.front().outer.front();
}

const auto shape_points = [](auto& ground, const auto& visit) { visit_points(ground.shape, visit); };
const auto shape_anchor = [](const auto& ground) { return first_point(ground.shape); };

}  // namespace

void place_all(UnplacedInputs& in, PlanningPlane& plane, core::Threads threads) {
    Placer placer(plane, threads);
    std::vector<std::function<void(const std::vector<bool>&)>> keepers;
    const auto add = [&](auto& layer, Reach reach, const auto& points_of, const auto& anchor_of) {
        placer.add(layer, reach, points_of, anchor_of);
        keepers.push_back([&layer](const std::vector<bool>& good) { keep_rows(layer.rows, good); });
    };
    const auto by_position = [&](auto& layer, Reach reach) {
        add(
            layer, reach, [](auto& record, const auto& visit) { visit(std::span(&record.position, 1)); },
            [](const auto& record) { return record.position; });
    };
    if (in.allowed_area) add(*in.allowed_area, Reach::the_site, shape_points, shape_anchor);
    if (in.watches) {
        add(
            *in.watches, Reach::the_site,
            [](survey::Watch& w, const auto& visit) { visit(std::span(w.path)); },
            [](const survey::Watch& w) { return w.path.front(); });
    }
    if (in.passes) by_position(*in.passes, Reach::the_site);
    if (in.tracks) {
        add(
            *in.tracks, Reach::the_site,
            [](survey::Track& t, const auto& visit) { visit(std::span(t.path)); },
            [](const survey::Track& t) { return t.path.front(); });
    }
    if (in.tallies) {
        add(
            static_cast<UnplacedLayer<survey::Tally>&>(*in.tallies), Reach::the_site,
            [](survey::Tally& t, const auto& visit) { visit(std::span(t.gate)); },
            [](const survey::Tally& t) { return t.gate.front(); });
    }
    if (in.routes) {
        add(
            *in.routes, Reach::the_site,
            [](survey::Route& r, const auto& visit) { visit(std::span(r.line)); },
            [](const survey::Route& r) { return r.line.front(); });
    }
    if (in.trees) {
        add(
            *in.trees, Reach::the_site,
            [](trees::Tree& t, const auto& visit) { visit(std::span(&t.stem, 1)); },
            [](const trees::Tree& t) { return t.stem; });
    }
    if (in.roosts) by_position(*in.roosts, Reach::anywhere);
    if (in.lamps) by_position(*in.lamps, Reach::anywhere);
    if (in.boxes) by_position(*in.boxes, Reach::anywhere);
    if (in.squares) add(*in.squares, Reach::anywhere, shape_points, shape_anchor);
    if (in.roads) add(*in.roads, Reach::anywhere, shape_points, shape_anchor);
    if (in.water) add(*in.water, Reach::anywhere, shape_points, shape_anchor);
    if (in.paths) add(*in.paths, Reach::anywhere, shape_points, shape_anchor);
    if (in.stations) by_position(*in.stations, Reach::the_site);
    if (in.keep_out) add(*in.keep_out, Reach::anywhere, shape_points, shape_anchor);
    for (UnplacedLayer<GroundShape>& avoid : in.avoid)
        add(avoid, Reach::anywhere, shape_points, shape_anchor);
    const std::optional<core::PlanePoint> middle = placer.site_middle();
    if (!middle) {
        throw core::Error(core::Fault::site_file, {{}, {}, {}, "site.crs"},
                          core::said("error.site_outside_crs", {{"crs", plane.crs().definition}}));
    }
    for (std::size_t i = 0; i < keepers.size(); ++i)
        keepers[i](placer.judged(i, *middle));
}

std::optional<core::Box> watched_box(const UnplacedInputs& in) {
    geo::Line points;
    if (in.watches)
        for (const survey::Watch& w : in.watches->rows)
            points.insert(points.end(), w.path.begin(), w.path.end());
    if (in.passes)
        for (const survey::Pass& p : in.passes->rows)
            points.push_back(p.position);
    if (in.tracks)
        for (const survey::Track& t : in.tracks->rows)
            points.insert(points.end(), t.path.begin(), t.path.end());
    if (points.empty() && in.trees)
        for (const trees::Tree& t : in.trees->rows)
            points.push_back(t.stem);
    if (points.empty() && in.squares)
        for (const NamedGround& square : in.squares->rows)
            points.push_back(first_point(square.shape));
    return geo::box_of(points);
}

void turn_bearings(UnplacedInputs& in, const GridNorth& north) {
    if (in.passes) {
        for (survey::Pass& pass : in.passes->rows) {
            if (pass.bearing) pass.bearing = north.grid_bearing(*pass.bearing, pass.position);
        }
    }
    if (in.watches) {
        for (survey::Watch& watch : in.watches->rows) {
            if (watch.view) watch.view->look = north.grid_bearing(watch.view->look, watch.path.front());
        }
    }
}

void tell_scale(const PlanningPlane& plane, const GridNorth& north, core::Findings& findings) {
    if (std::abs(north.worst_scale() - 1.0) <= 0.001) return;
    core::Finding finding;
    finding.severity = core::Severity::doubtful;
    finding.kind = "scale of the planning plane";
    finding.value = fmt::format("{:.5f}", north.worst_scale());
    finding.sentence = core::said("finding.scale_of_plane", {{"crs", plane.crs().definition}});
    findings.push_back(std::move(finding));
}

}  // namespace roostward::io
