#include "roostward/geo/shape.hpp"

#include "roostward/geo/edges.hpp"

// Boost.Geometry 1.74 itself still includes headers that Boost has renamed, and says so at every build.
#define BOOST_ALLOW_DEPRECATED_HEADERS
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <boost/iterator/function_output_iterator.hpp>

#include <algorithm>
#include <cstdint>
#include <utility>

namespace roostward::geo {

namespace {

namespace bg = boost::geometry;
namespace bgi = boost::geometry::index;

using Spot = bg::model::d2::point_xy<double>;
using Window = bg::model::box<Spot>;
using Stretch = bg::model::segment<Spot>;
template <class Key>
using Tree = bgi::rtree<std::pair<Key, std::uint32_t>, bgi::rstar<16>>;

Spot spot(core::PlanePoint p) {
    return {p.easting, p.northing};
}

/// All points whose easting and northing differ by no more than `reach`, and a hair beyond.
Window around(core::PlanePoint p, core::Metres reach) {
    const double half = reach.value() + 1e-6;
    return {{p.easting - half, p.northing - half}, {p.easting + half, p.northing + half}};
}

/// Hands every index in the tree whose key meets the window to `use`.
template <class Key, class Use>
void for_each_in(const Tree<Key>& tree, const Window& window, Use use) {
    const auto index = [&use](const std::pair<Key, std::uint32_t>& value) { use(value.second); };
    tree.query(bgi::intersects(window), boost::make_function_output_iterator(index));
}

constexpr std::uint32_t no_polygon = UINT32_MAX;

/// A stretch of an edge or line, or a single point (both ends alike).
struct Piece {
    core::PlanePoint from;
    core::PlanePoint to;
    std::uint32_t shape;
    std::uint32_t polygon;
};

struct Face {
    core::Box box;
    std::uint32_t shape;
};

/// Keeps the nearest hit, of several the first shape's.
struct Best {
    std::optional<NearestShape::Hit> hit;

    void offer(const NearestShape::Hit& other) {
        if (!hit || std::pair(other.distance, other.shape) < std::pair(hit->distance, hit->shape))
            hit = other;
    }
};

}  // namespace

struct NearestShape::Index {
    std::vector<Piece> pieces;
    std::vector<Face> faces;
    Tree<Stretch> stretches;
    Tree<Window> windows;

    explicit Index(std::span<const Shape> shapes) {
        for (std::size_t i = 0; i < shapes.size(); ++i)
            add(shapes[i], static_cast<std::uint32_t>(i));
        std::vector<std::pair<Stretch, std::uint32_t>> stretch_keys;
        stretch_keys.reserve(pieces.size());
        for (const Piece& piece : pieces)
            stretch_keys.emplace_back(Stretch(spot(piece.from), spot(piece.to)),
                                      static_cast<std::uint32_t>(stretch_keys.size()));
        stretches = Tree<Stretch>(stretch_keys);
        std::vector<std::pair<Window, std::uint32_t>> window_keys;
        for (const Face& face : faces)
            window_keys.emplace_back(Window(spot(face.box.south_west), spot(face.box.north_east)),
                                     static_cast<std::uint32_t>(window_keys.size()));
        windows = Tree<Window>(window_keys);
    }

    [[nodiscard]] Hit to_piece(std::uint32_t piece, core::PlanePoint from) const {
        const core::PlanePoint where = closest_on(pieces[piece].from, pieces[piece].to, from);
        return {core::distance(from, where), pieces[piece].shape, where};
    }

    /// Inside of a polygon, if anywhere.
    [[nodiscard]] Best on_a_face(core::PlanePoint from) const {
        Best best;
        for (const std::uint32_t face : faces_holding(from))
            best.offer({core::Metres(0.0), faces[face].shape, from});
        return best;
    }

    [[nodiscard]] std::vector<std::uint32_t> faces_holding(core::PlanePoint p) const {
        std::vector<std::uint32_t> candidates;
        double east_end = p.easting;
        for_each_in(windows, around(p, core::Metres(0.0)), [&](std::uint32_t face) {
            candidates.push_back(face);
            east_end = std::max(east_end, faces[face].box.north_east.easting);
        });
        if (candidates.empty()) return {};
        std::vector<std::uint32_t> crossed;
        for_each_in(stretches, Window(spot(p), {east_end, p.northing}), [&](std::uint32_t i) {
            if (pieces[i].polygon != no_polygon && crossed_by_ray(pieces[i].from, pieces[i].to, p))
                crossed.push_back(pieces[i].polygon);
        });
        std::erase_if(candidates, [&crossed](std::uint32_t face) {
            return std::count(crossed.begin(), crossed.end(), face) % 2 == 0;
        });
        return candidates;
    }

 private:
    void add(const Shape& shape, std::uint32_t number) {
        for (const core::PlanePoint& point : shape.points)
            pieces.push_back({point, point, number, no_polygon});
        for (const Line& line : shape.lines)
            add_line(line, number, no_polygon);
        for (const Polygon& polygon : shape.polygons) {
            const std::optional<core::Box> box = box_of(polygon.outer);
            if (!box) continue;
            const auto face = static_cast<std::uint32_t>(faces.size());
            faces.push_back({*box, number});
            add_line(polygon.outer, number, face);
            for (const Line& hole : polygon.holes)
                add_line(hole, number, face);
        }
    }

    void add_line(const Line& line, std::uint32_t shape, std::uint32_t polygon) {
        if (line.size() == 1) pieces.push_back({line[0], line[0], shape, polygon});
        for (std::size_t i = 0; i + 1 < line.size(); ++i)
            pieces.push_back({line[i], line[i + 1], shape, polygon});
    }
};

NearestShape::NearestShape(std::span<const Shape> shapes) : index_(std::make_unique<Index>(shapes)) {}
NearestShape::~NearestShape() = default;
NearestShape::NearestShape(NearestShape&&) noexcept = default;
NearestShape& NearestShape::operator=(NearestShape&&) noexcept = default;

std::optional<NearestShape::Hit> NearestShape::nearest(core::PlanePoint from) const {
    constexpr core::Metres equally_near{1e-9};
    Best best = index_->on_a_face(from);
    // A few at a time, until one is further than the nearest: those before it are the equally near ones.
    for (std::size_t count = 4;; count *= 4) {
        core::Metres furthest;
        const auto offer = [&](const std::pair<Stretch, std::uint32_t>& found) {
            const Hit hit = index_->to_piece(found.second, from);
            furthest = std::max(furthest, hit.distance);
            best.offer(hit);
        };
        index_->stretches.query(bgi::nearest(spot(from), static_cast<unsigned>(count)),
                                boost::make_function_output_iterator(offer));
        if (count >= index_->pieces.size() || furthest > best.hit->distance + equally_near) return best.hit;
    }
}

std::optional<NearestShape::Hit> NearestShape::nearest_within(core::PlanePoint from,
                                                              core::Metres reach) const {
    Best best = index_->on_a_face(from);
    for_each_in(index_->stretches, around(from, reach), [&](std::uint32_t piece) {
        const Hit hit = index_->to_piece(piece, from);
        if (hit.distance <= reach) best.offer(hit);
    });
    return best.hit;
}

struct PointIndex::Index {
    Tree<Spot> spots;
};

PointIndex::PointIndex(std::span<const core::PlanePoint> points) : index_(std::make_unique<Index>()) {
    std::vector<std::pair<Spot, std::uint32_t>> keys;
    keys.reserve(points.size());
    for (const core::PlanePoint& point : points)
        keys.emplace_back(spot(point), static_cast<std::uint32_t>(keys.size()));
    index_->spots = Tree<Spot>(keys);
}

PointIndex::~PointIndex() = default;
PointIndex::PointIndex(PointIndex&&) noexcept = default;
PointIndex& PointIndex::operator=(PointIndex&&) noexcept = default;

std::vector<std::size_t> PointIndex::within(core::PlanePoint of, core::Metres radius) const {
    std::vector<std::size_t> found;
    const Window window = around(of, radius);
    for (auto spot = index_->spots.qbegin(bgi::intersects(window)); spot != index_->spots.qend(); ++spot)
        if (core::distance(of, {spot->first.x(), spot->first.y()}) <= radius) found.push_back(spot->second);
    std::sort(found.begin(), found.end());
    return found;
}

}  // namespace roostward::geo
