#include "roostward/core/parallel.hpp"
#include "roostward/core/random.hpp"
#include "roostward/geo/shape.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace roostward::geo {
namespace {

using core::Metres;
using core::PlanePoint;

/// Star-shaped ring about a centre, so that it never crosses itself.
Line star(core::RandomStream& random, PlanePoint centre, double inner, double outer) {
    Line ring;
    for (int i = 0; i < 12; ++i)
        ring.push_back(core::moved(centre, core::Degrees(30.0 * i), Metres(random.uniform(inner, outer))));
    ring.push_back(ring.front());
    return ring;
}

std::vector<Shape> random_shapes(std::uint64_t seed) {
    core::RandomStream random(seed, "shapes");
    const auto anywhere = [&random] { return PlanePoint{random.uniform(0, 1000), random.uniform(0, 1000)}; };
    std::vector<Shape> shapes(120);
    for (Shape& shape : shapes) {
        switch (random.below(4)) {
            case 0:
                shape.points = {anywhere(), anywhere()};
                break;
            case 1:
                shape.lines = {{anywhere(), anywhere(), anywhere()}, {anywhere()}};
                break;
            case 2:
                break;  // an empty shape keeps its place in the numbering
            default: {
                const PlanePoint centre = anywhere();
                shape.polygons = {{star(random, centre, 30, 60), {star(random, centre, 10, 20)}},
                                  {star(random, anywhere(), 10, 40), {}}};
            }
        }
    }
    return shapes;
}

/// Distance to a stretch by trying its ends and the foot of the perpendicular.
double to_stretch(PlanePoint a, PlanePoint b, PlanePoint p) {
    double best = std::min(std::hypot(p.easting - a.easting, p.northing - a.northing),
                           std::hypot(p.easting - b.easting, p.northing - b.northing));
    const double length = std::hypot(b.easting - a.easting, b.northing - a.northing);
    if (length == 0.0) return best;
    const double ux = (b.easting - a.easting) / length;
    const double uy = (b.northing - a.northing) / length;
    const double along = (p.easting - a.easting) * ux + (p.northing - a.northing) * uy;
    const double across = (p.easting - a.easting) * uy - (p.northing - a.northing) * ux;
    if (along >= 0.0 && along <= length) best = std::min(best, std::abs(across));
    return best;
}

double to_line(const Line& line, PlanePoint p) {
    double best = to_stretch(line.front(), line.back(), line.front()) + 1e9;
    for (std::size_t i = 0; i < line.size(); ++i)
        best = std::min(best, to_stretch(line[i], line[std::min(i + 1, line.size() - 1)], p));
    return best;
}

/// How often the ring turns about the point, by summing angles: another way than counting crossings.
bool turns_about(const Line& ring, PlanePoint p) {
    double turned = 0.0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        const double ax = ring[i].easting - p.easting;
        const double ay = ring[i].northing - p.northing;
        const double bx = ring[i + 1].easting - p.easting;
        const double by = ring[i + 1].northing - p.northing;
        turned += std::atan2(ax * by - ay * bx, ax * bx + ay * by);
    }
    return std::abs(turned) > std::numbers::pi;
}

double to_shape(const Shape& shape, PlanePoint p) {
    double best = 1e9;
    for (const PlanePoint& point : shape.points)
        best = std::min(best, to_stretch(point, point, p));
    for (const Line& line : shape.lines)
        best = std::min(best, to_line(line, p));
    for (const Polygon& polygon : shape.polygons) {
        const bool in_hole = std::any_of(polygon.holes.begin(), polygon.holes.end(),
                                         [p](const Line& hole) { return turns_about(hole, p); });
        if (turns_about(polygon.outer, p) && !in_hole) return 0.0;
        best = std::min(best, to_line(polygon.outer, p));
        for (const Line& hole : polygon.holes)
            best = std::min(best, to_line(hole, p));
    }
    return best;
}

TEST(NearestShape, AgreesWithTryingEveryShape) {
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        const std::vector<Shape> shapes = random_shapes(seed);
        const NearestShape index(shapes);
        core::RandomStream random(seed, "queries");
        for (int i = 0; i < 2000; ++i) {
            const PlanePoint p{random.uniform(-200, 1200), random.uniform(-200, 1200)};
            double expected = 1e9;
            for (const Shape& shape : shapes)
                expected = std::min(expected, to_shape(shape, p));
            const auto hit = index.nearest(p);
            ASSERT_TRUE(hit);
            EXPECT_NEAR(hit->distance.value(), expected, 1e-9);
            EXPECT_NEAR(to_shape(shapes[hit->shape], p), expected, 1e-9);
            EXPECT_NEAR(core::distance(p, hit->where).value(), expected, 1e-9);
            const auto close = index.nearest_within(p, Metres(25));
            EXPECT_EQ(close.has_value(), expected <= 25.0);
            if (close) {
                EXPECT_EQ(close->shape, hit->shape);
            }
        }
    }
}

TEST(NearestShape, AgreesWithCovers) {
    core::RandomStream random(4, "ground");
    const std::vector<Polygon> ground{
        {star(random, {500, 500}, 200, 450), {star(random, {500, 500}, 50, 150)}},
        {star(random, {700, 500}, 50, 300), {}}};
    const std::vector<Shape> shapes{Shape{{}, {}, ground}};
    const NearestShape index(shapes);
    int inside = 0;
    for (int i = 0; i < 5000; ++i) {
        const PlanePoint p{random.uniform(0, 1000), random.uniform(0, 1000)};
        EXPECT_EQ(index.nearest_within(p, edge_tolerance).has_value(), covers(ground, p));
        inside += covers(ground, p) ? 1 : 0;
    }
    EXPECT_GT(inside, 1000);
    EXPECT_LT(inside, 4000);
}

TEST(NearestShape, TakesTheFirstOfEquallyNearShapes) {
    const Shape road{{}, {{{0, 0}, {10, 0}}}, {}};
    const Shape branch{{}, {{{10, 0}, {20, 5}}}, {}};
    const std::vector<Shape> shapes{{}, road, branch, road};
    EXPECT_EQ(NearestShape(shapes).nearest({10, -3})->shape, 1U);
    const std::vector<Shape> turned{branch, road};
    EXPECT_EQ(NearestShape(turned).nearest({10, 0})->shape, 0U);
}

TEST(NearestShape, CountsTheReachItself) {
    const std::vector<Shape> shapes{Shape{{{3, 4}}, {}, {}}};
    const NearestShape index(shapes);
    EXPECT_TRUE(index.nearest_within({0, 0}, Metres(5)));
    EXPECT_FALSE(index.nearest_within({0, 0}, Metres(4.999999)));
}

TEST(NearestShape, IsEmptyWithoutShapes) {
    EXPECT_FALSE(NearestShape({}).nearest({0, 0}));
    const std::vector<Shape> bare(3);
    EXPECT_FALSE(NearestShape(bare).nearest({0, 0}));
    EXPECT_FALSE(NearestShape(bare).nearest_within({0, 0}, Metres(1e6)));
}

TEST(NearestShape, AnswersSeveralThreadsAlike) {
    const std::vector<Shape> shapes = random_shapes(9);
    const NearestShape index(shapes);
    constexpr std::size_t count = 4000;
    const auto answers = [&](unsigned threads) {
        std::vector<double> distances(count);
        core::parallel_for(count, 64, core::Threads{threads}, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i)
                distances[i] =
                    index.nearest({static_cast<double>(i % 97) * 10, static_cast<double>(i % 89) * 11})
                        ->distance.value();
        });
        return distances;
    };
    EXPECT_EQ(answers(1), answers(7));
}

TEST(PointIndex, AgreesWithTryingEveryPoint) {
    core::RandomStream random(5, "points");
    std::vector<PlanePoint> points(3000);
    // Whole metres, so that many distances are met exactly.
    for (PlanePoint& point : points)
        point = {static_cast<double>(random.below(200)), static_cast<double>(random.below(200))};
    const PointIndex index(points);
    for (int i = 0; i < 300; ++i) {
        const PlanePoint of{static_cast<double>(random.below(200)), static_cast<double>(random.below(200))};
        std::vector<std::size_t> expected;
        for (std::size_t k = 0; k < points.size(); ++k)
            if (core::squared_distance(of, points[k]) <= 25.0) expected.push_back(k);
        EXPECT_EQ(index.within(of, Metres(5)), expected);
    }
}

TEST(PointIndex, CountsTheRadiusItself) {
    const std::vector<PlanePoint> points{{3, 4}, {0, 0}, {3, 4.0001}};
    const PointIndex index(points);
    EXPECT_EQ(index.within({0, 0}, Metres(5)), (std::vector<std::size_t>{0, 1}));
    EXPECT_EQ(index.within({0, 0}, Metres(0)), (std::vector<std::size_t>{1}));
    EXPECT_TRUE(PointIndex({}).within({0, 0}, Metres(5)).empty());
}

}  // namespace
}  // namespace roostward::geo
