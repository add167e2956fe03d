#include "writing/write_geopackage_rows.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "writing/geopackage_geometry.hpp"
#include "writing/sqlite_rows.hpp"
#include "writing/write_geopackage_index.hpp"
#include "writing/write_number.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace {

/// Hands one value over.
struct ValuePutter {
    Cell cell;
    const core::Document& document;
    std::string& made;  ///< keeps a text that had to be made, until the next row

    void operator()(std::monostate) {}
    void operator()(bool value) { cell.put(std::int64_t{value}); }
    void operator()(std::int64_t value) { cell.put(value); }
    void operator()(double value) {
        if (std::isfinite(value)) cell.put(rounded_to_nine_digits(value));
    }
    void operator()(const std::string& value) { cell.put_text(valid_utf8(value, made)); }
    template <class Nested>
    void operator()(const Nested&) {
        made.clear();
        core::append_json(made, document);
        cell.put_text(made);
    }
};

/// A layer's features as rows; notes the box around each.
class FeatureRows : public RowSource {
 public:
    FeatureRows(const geo::Layer& layer, std::int32_t srs_id)
        : layer_(layer),
          encoder_(srs_id, geo::facts_of(layer.crs).geographic ? 1e7 : 1e4),
          made_(layer.columns.size()) {
        boxes_.reserve(layer.size);
    }
    [[nodiscard]] int columns() const override { return first_value + static_cast<int>(made_.size()); }
    [[nodiscard]] bool next() override {
        if (done_ == layer_.size) return false;
        feature_ = layer_.feature(done_++);
        placed_ = encoder_.encode(feature_.geometry);
        if (placed_) boxes_.push_back({id(), encoder_.box()});
        return true;
    }
    void put_value(int column, Cell cell) override {
        if (column >= first_value) {
            const auto i = static_cast<std::size_t>(column - first_value);
            const core::Document& value = feature_.values.at(i);
            std::visit(ValuePutter{cell, value, made_[i]}, value.value());
        } else if (column == 0) {
            cell.put(id());
        } else if (placed_) {
            cell.put_blob(encoder_.bytes());
        }
    }
    /// Of the features that have a place, in their order.
    [[nodiscard]] std::vector<IndexedBox> take_boxes() { return std::move(boxes_); }

 private:
    static constexpr int first_value = 2;  ///< after "fid" and "geom"
    [[nodiscard]] std::int64_t id() const { return static_cast<std::int64_t>(done_); }

    const geo::Layer& layer_;
    GeometryEncoder encoder_;
    std::size_t done_ = 0;
    geo::Feature feature_;
    bool placed_ = false;
    std::vector<std::string> made_;
    std::vector<IndexedBox> boxes_;
};

std::int32_t srs_id_of(Database& database, const std::string& layer) {
    Statement query(database, "SELECT srs_id FROM gpkg_contents WHERE table_name = ?");
    query.bind(1, layer);
    return static_cast<std::int32_t>(query.whole_answer());
}

void write_extent(Database& database, const std::string& layer, const std::vector<IndexedBox>& boxes) {
    if (boxes.empty()) return;
    core::Box all = nowhere;
    for (const IndexedBox& each : boxes)
        include(all, each.box);
    Statement update(
        database, "UPDATE gpkg_contents SET min_x = ?, min_y = ?, max_x = ?, max_y = ? WHERE table_name = ?");
    update.bind(1, all.south_west.easting);
    update.bind(2, all.south_west.northing);
    update.bind(3, all.north_east.easting);
    update.bind(4, all.north_east.northing);
    update.bind(5, layer);
    update.run();
}

}  // namespace

void write_rows(Database& database, const geo::Layer& layer) {
    FeatureRows rows(layer, srs_id_of(database, layer.name));
    database.insert(layer.name, rows);
    Statement count(database, "UPDATE gpkg_ogr_contents SET feature_count = ? WHERE table_name = ?");
    count.bind(1, static_cast<std::int64_t>(layer.size));
    count.bind(2, layer.name);
    count.run();
    std::vector<IndexedBox> boxes = rows.take_boxes();
    write_extent(database, layer.name, boxes);
    fill_spatial_index(database, layer.name, std::move(boxes));
}

}  // namespace roostward::io
