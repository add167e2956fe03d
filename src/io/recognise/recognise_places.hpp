#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/layer_sample.hpp"
#include "roostward/core/point.hpp"
#include "roostward/io/recognise.hpp"

namespace roostward::io {

/// Which columns say where a row lies, for a layer without geometry.
struct PlaceColumns {
    std::size_t x = 0, y = 0;  ///< columns
    bool degrees = false;
    std::string confirm;
};
[[nodiscard]] std::optional<PlaceColumns> place_columns(const LayerSample& sample, std::string_view role,
                                                        const std::optional<core::GeographicPoint>& place);

/// A column that holds both coordinates in one cell, as "48.85, 2.35".
[[nodiscard]] std::optional<std::string> column_of_pairs(const LayerSample& sample);

/// Where a layer's rows lie in its own system: of the geometry, else of the columns.
[[nodiscard]] std::vector<core::PlanePoint> places_in(const LayerSample& sample,
                                                      const std::optional<PlaceColumns>& columns);

/// The system that metres of a layer may be in.
struct CrsGuess {
    std::string crs;  ///< empty: none, or several fit
    std::string confirm;
};
/// Of national grids and UTM zones those in which the points lie near `place`; without a place those whose
/// own range the points fit, where there is only one.
[[nodiscard]] CrsGuess crs_guess(const std::vector<core::PlanePoint>& points,
                                 const std::optional<core::GeographicPoint>& place);

/// The middle of the points, each coordinate by itself, in degrees; empty where PROJ cannot bring them there.
[[nodiscard]] std::optional<core::GeographicPoint> middle_of(const std::vector<core::PlanePoint>& points,
                                                             const geo::Crs& crs);

/// The time zone whose representative place, in the system's own table, lies nearest.
struct ZoneGuess {
    std::string zone;
    std::string confirm;
};
[[nodiscard]] ZoneGuess zone_guess(const std::optional<core::GeographicPoint>& place);

}  // namespace roostward::io
