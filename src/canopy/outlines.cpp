#include "roostward/canopy/outlines.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace roostward::canopy {

namespace {

/// A corner of cells, or a cell, or a step: rows count to the south.
struct Place {
    std::ptrdiff_t row = 0, column = 0;
    friend bool operator==(const Place&, const Place&) = default;
};
Place operator+(Place a, Place b) {
    return {a.row + b.row, a.column + b.column};
}

/// West, south, east, north: each is to the left of the one before.
constexpr std::size_t west = 0;
constexpr std::array<Place, 4> steps{{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}};
/// From a corner to the cell ahead of it, on the left of who walks; on the right it is that of the way
/// before.
constexpr std::array<Place, 4> ahead_left{{{0, -1}, {0, 0}, {-1, 0}, {-1, -1}}};

/// Walks round gaps, which lie to the left.
class Walker {
 public:
    explicit Walker(const GapMap& gaps) : gaps_(gaps), walked_(gaps.label.size(), false) {}

    /// The ring that goes along the north edge of the cell; empty where no outline goes there, or it was
    /// walked.
    geo::Line ring_from(Place cell) {
        const std::uint32_t label = label_at(cell);
        if (label == 0 || walked_[index(cell)] || label_at(cell + steps[3]) == label) return {};
        geo::Line ring;
        const Place start = cell + Place{0, 1};
        Place corner = start;
        std::size_t way = west;
        do {
            if (way == west) walked_[index(corner + ahead_left[west])] = true;
            corner = corner + steps[way];
            const std::size_t onward = way_on(label, corner, way);
            if (onward != way) ring.push_back(point_at(corner));
            way = onward;
        } while (corner != start || way != west);
        ring.push_back(ring.front());
        return ring;
    }

 private:
    /// To the right where that is possible: so rings touch where cells meet at a corner, and do not cross.
    [[nodiscard]] std::size_t way_on(std::uint32_t label, Place corner, std::size_t way) const {
        const std::size_t left = (way + 1) % 4, right = (way + 3) % 4;
        if (label_at(corner + ahead_left[right]) == label) return right;
        return label_at(corner + ahead_left[way]) == label ? way : left;
    }

    [[nodiscard]] std::uint32_t label_at(Place cell) const {
        const bool outside = cell.row < 0 || cell.column < 0 ||
                             cell.row >= static_cast<std::ptrdiff_t>(gaps_.grid.rows) ||
                             cell.column >= static_cast<std::ptrdiff_t>(gaps_.grid.columns);
        return outside ? 0 : gaps_.label[index(cell)];
    }
    [[nodiscard]] std::size_t index(Place cell) const {
        return gaps_.grid.index({static_cast<std::size_t>(cell.row), static_cast<std::size_t>(cell.column)});
    }
    [[nodiscard]] core::PlanePoint point_at(Place corner) const {
        const core::Grid& grid = gaps_.grid;
        return {grid.north_west.easting + static_cast<double>(corner.column) * grid.cell.value(),
                grid.north_west.northing - static_cast<double>(corner.row) * grid.cell.value()};
    }

    const GapMap& gaps_;
    std::vector<bool> walked_;  ///< north edges, one a cell
};

}  // namespace

std::vector<geo::Polygon> outlines_of(const GapMap& gaps) {
    std::vector<geo::Polygon> outlines(gaps.area.size());
    Walker walker(gaps);
    for (std::size_t row = 0; row < gaps.grid.rows; ++row)
        for (std::size_t column = 0; column < gaps.grid.columns; ++column) {
            geo::Line ring =
                walker.ring_from({static_cast<std::ptrdiff_t>(row), static_cast<std::ptrdiff_t>(column)});
            if (ring.empty()) continue;
            // The first cell of a gap, row by row, lies on its outer ring.
            geo::Polygon& outline = outlines[gaps.label[gaps.grid.index({row, column})] - 1];
            if (outline.outer.empty())
                outline.outer = std::move(ring);
            else
                outline.holes.push_back(std::move(ring));
        }
    return outlines;
}

}  // namespace roostward::canopy
