#include "places/grid_places.hpp"

#include <map>
#include <string>
#include <utility>

#include "places/landmarks.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/grid_reference.hpp"

namespace roostward::io {

namespace {

/// Kept for the next layer: making one takes as long as reading some hundred rows.
const geo::Transform& way_between(const geo::Crs& from, const geo::Crs& to) {
    thread_local std::map<std::pair<std::string, std::string>, geo::Transform> ways;
    return ways.try_emplace({from.definition, to.definition}, from, to).first->second;
}

}  // namespace

std::optional<GridPlaces::Square> GridPlaces::read(const RowReader& row, const Field& field) {
    const std::string written = row.text(field);
    std::optional<geo::GridSquare> square = geo::mgrs_square(written);
    if (!square) {
        square = geo::british_square(written);
        if (square) facts_.present().british_rows.push_back(row.row().number);
    }
    if (!square) {
        row.report().set_aside(field.name, "unknown grid reference", written,
                               core::said("finding.unknown_grid_reference"));
        return std::nullopt;
    }
    if (square->side >= coarse_side) {
        row.report().doubt(field.name, too_coarse,
                           core::said("value.metres", {{"metres", square->side.value()}}),
                           core::said("finding.coarse_grid_reference"));
    }
    const bool same = square->crs == facts_.present().crs;
    return Square{same ? square->middle : way_between(square->crs, facts_.present().crs)(square->middle),
                  square->side};
}

}  // namespace roostward::io
