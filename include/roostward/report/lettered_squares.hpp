#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/geo/layer.hpp"

namespace roostward::report {

struct TaggedTree {
    std::string tag;
    core::PlanePoint stem;
};

/// What is known of a park before it is watched, in one plane.
struct ParkMap {
    std::string name;
    geo::Crs plane;
    std::vector<TaggedTree> trees;
    std::vector<geo::Polygon> allowed_area;
    std::vector<core::PlanePoint> watches;
};

inline constexpr core::Metres square_side{25.0};
/// More nobody finds their way in, and prints.
inline constexpr std::size_t most_squares = 2000;
/// Squares are drawn about watches as far as this.
inline constexpr core::Metres watch_reach{100.0};

struct Square {
    std::string name;  ///< "C4": letters across from the west, numbers up from the south
    std::size_t column = 0, row = 0;
    core::Box box;
};

/// The park in squares, on whole multiples of their side. Those within the allowed area, else within reach of
/// the watches, else about the trees, ordered from the south-west, row by row. Empty where they would be more
/// than `most_squares` or where nothing has a place.
[[nodiscard]] std::vector<Square> lettered_squares(const ParkMap& park);

/// 0 is A, 25 is Z, 26 is AA.
[[nodiscard]] std::string column_letters(std::size_t column);

/// Polygons with the property `square`. The squares must outlive the layer.
[[nodiscard]] geo::Layer squares_layer(const std::vector<Square>& squares, const geo::Crs& plane);

/// A page of HTML for every ten columns and thirteen rows, each for one sheet of A4 in black and white:
/// squares with their names, trees with their tags, watches, the allowed area, a scale bar, north.
[[nodiscard]] std::string squares_page(const ParkMap& park, const std::vector<Square>& squares);

}  // namespace roostward::report
