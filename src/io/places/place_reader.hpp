#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "layers/layer_opening.hpp"
#include "places/grid_places.hpp"
#include "roostward/core/point.hpp"

namespace roostward::io {

/// The fields that coordinates can come from; to be appended to a layer's own.
[[nodiscard]] std::vector<FieldSpec> with_place_fields(std::vector<FieldSpec> specs);

/// Finds where a row lies, in the file's own system: from its geometry, from lon and lat (WGS 84), from x
/// and y with the `crs` of the site file, or from a grid reference where a row has none of these. Rows with
/// no place, or an impossible one, are set aside.
class PlaceReader {
 public:
    /// Sets `facts.crs`. Throws Error{inputs} where there are no coordinates or nobody says in which system.
    /// `number`: of the point, where the columns are lon1, lat1, lon2 …
    PlaceReader(const OpenLayer& layer, const InputSource& source, LayerFacts& facts,
                const std::string& number = "");

    /// Whether a layer says where its rows lie; else the constructor throws.
    [[nodiscard]] static bool told(const OpenLayer& layer, const std::string& number = "");

    [[nodiscard]] core::PlanePoint point(const RowReader& row) const;
    /// The middle of the square that a row's grid reference names; a point has no side.
    struct Place {
        core::PlanePoint point;
        core::Metres side{};
    };
    [[nodiscard]] Place place(const RowReader& row) const;
    /// Whether nothing stands where the row's place should.
    [[nodiscard]] bool blank(const RowReader& row) const;
    /// The row's geometry of any kind; a point where the layer has columns only. Empty where the row was set
    /// aside.
    [[nodiscard]] geo::Shape shape(const RowReader& row) const;
    /// The one line of a row, which has a length. What to do with a row of several parts, or without a
    /// length, is told by the sentences with these keys; it is set aside, and the line empty.
    struct OtherLines {
        const char* several_parts;
        const char* no_length;
    };
    [[nodiscard]] geo::Line line(const RowReader& row, const OtherLines& otherwise) const;

 private:
    [[nodiscard]] bool without_coordinates(const RowReader& row) const;
    [[nodiscard]] core::PlanePoint coordinates(const RowReader& row) const;
    [[nodiscard]] core::PlanePoint point_in_columns(const RowReader& row) const;
    void judge(core::PlanePoint point, const RowReader& row) const;

    enum class From { geometry, columns, grid_reference };
    From from_ = From::geometry;
    const Field* grid_ref_ = nullptr;  ///< null: no such column
    std::unique_ptr<GridPlaces> grid_;
    const Field* x_ = nullptr;
    const Field* y_ = nullptr;
    bool geographic_ = false;
};

}  // namespace roostward::io
