#include "writing/write_geopackage_index.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <tuple>
#include <utility>
#include <vector>

#include "writing/binary_numbers.hpp"
#include "writing/geopackage_geometry.hpp"
#include "writing/sqlite_rows.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t cells_per_node = 51;  // SQLite's RTREE_MAXCELLS
constexpr std::size_t node_bytes = 4 + 24 * cells_per_node;

/// SQLite keeps single precision: the box grows to the next such number.
float rounded_down(double value) {
    const auto near = static_cast<float>(value);
    return static_cast<double>(near) > value ? std::nextafter(near, -std::numeric_limits<float>::infinity())
                                             : near;
}
float rounded_up(double value) {
    return -rounded_down(-value);
}

/// A node as SQLite keeps it, big-endian ("The SQLite R*Tree Module", shadow tables). `depth` is 0 but for
/// the root.
std::string node_of(std::uint16_t depth, std::span<const IndexedBox> cells) {
    std::string out;
    out.reserve(node_bytes);
    const auto append = [&out](auto value) { append_binary<std::endian::big>(out, value); };
    append(depth);
    append(static_cast<std::uint16_t>(cells.size()));
    for (const auto& [id, box] : cells) {
        append(id);
        append(rounded_down(box.south_west.easting));
        append(rounded_up(box.north_east.easting));
        append(rounded_down(box.south_west.northing));
        append(rounded_up(box.north_east.northing));
    }
    out.resize(node_bytes);
    return out;
}

/// How many boxes the piece with this number gets when `count` are shared out evenly over `pieces`.
std::size_t begin_of(std::size_t piece, std::size_t count, std::size_t pieces) {
    return piece * count / pieces;
}

/// Vertical slices of boxes, each from south to north, so that neighbours stand together.
void sort_into_tiles(std::span<IndexedBox> boxes, std::size_t nodes) {
    const auto by_x = [](const IndexedBox& b) {
        return std::tuple(b.box.south_west.easting + b.box.north_east.easting, b.id);
    };
    const auto by_y = [](const IndexedBox& b) {
        return std::tuple(b.box.south_west.northing + b.box.north_east.northing, b.id);
    };
    const auto slices = static_cast<std::size_t>(std::ceil(std::sqrt(static_cast<double>(nodes))));
    std::ranges::sort(boxes, {}, by_x);
    for (std::size_t s = 0; s < slices; ++s) {
        const std::size_t begin = begin_of(s, boxes.size(), slices);
        std::ranges::sort(boxes.subspan(begin, begin_of(s + 1, boxes.size(), slices) - begin), {}, by_y);
    }
}

IndexedBox around(std::int64_t id, std::span<const IndexedBox> boxes) {
    IndexedBox all{id, nowhere};
    for (const IndexedBox& each : boxes)
        include(all.box, each.box);
    return all;
}

/// One level of the tree: boxes in tiles, and the nodes over them.
struct Level {
    std::vector<IndexedBox> boxes;
    std::size_t nodes;
    std::int64_t first_node;
    std::uint16_t root_depth;  ///< 0 but for the root

    [[nodiscard]] std::span<const IndexedBox> under(std::size_t node) const {
        const std::size_t begin = begin_of(node, boxes.size(), nodes);
        return std::span(boxes).subspan(begin, begin_of(node + 1, boxes.size(), nodes) - begin);
    }
    [[nodiscard]] std::int64_t number_of(std::size_t node) const {
        return first_node + static_cast<std::int64_t>(node);
    }
};

/// Number and content of each node of a level.
class NodeRows : public RowSource {
 public:
    explicit NodeRows(const Level& level) : level_(level) {}
    [[nodiscard]] int columns() const override { return 2; }
    [[nodiscard]] bool next() override {
        if (done_ == level_.nodes) return false;
        bytes_ = node_of(level_.root_depth, level_.under(done_++));
        return true;
    }
    void put_value(int column, Cell cell) override {
        if (column == 0) {
            cell.put(level_.number_of(done_ - 1));
        } else {
            cell.put_blob(bytes_);
        }
    }

 private:
    const Level& level_;
    std::size_t done_ = 0;
    std::string bytes_;
};

/// For each box of a level, in the order of its ids, the node it stands in.
class WayUpRows : public RowSource {
 public:
    explicit WayUpRows(const Level& level)
        : first_id_(std::ranges::min_element(level.boxes, {}, &IndexedBox::id)->id),
          last_id_(std::ranges::max_element(level.boxes, {}, &IndexedBox::id)->id),
          id_(first_id_ - 1),
          node_by_id_(static_cast<std::size_t>(last_id_ - id_)) {
        for (std::size_t n = 0; n < level.nodes; ++n)
            for (const IndexedBox& box : level.under(n))
                node_by_id_[static_cast<std::size_t>(box.id - first_id_)] = level.number_of(n);
    }
    [[nodiscard]] int columns() const override { return 2; }
    [[nodiscard]] bool next() override {
        while (id_ < last_id_)
            if (++id_; node() != 0) return true;
        return false;
    }
    void put_value(int column, Cell cell) override { cell.put(column == 0 ? id_ : node()); }

 private:
    [[nodiscard]] std::int64_t node() const { return node_by_id_[static_cast<std::size_t>(id_ - first_id_)]; }

    std::int64_t first_id_;
    std::int64_t last_id_;
    std::int64_t id_;
    std::vector<std::int64_t> node_by_id_;  ///< 0 where no box has this id
};

}  // namespace

void fill_spatial_index(Database& database, const std::string& layer, std::vector<IndexedBox> boxes) {
    if (boxes.empty()) return;
    const std::string table = fmt::format("rtree_{}_geom", layer);
    database.run(fmt::format("DELETE FROM \"{}_node\"", table));  // the root of an empty tree
    std::int64_t next_node = 2;                                   // the root is number 1
    for (std::uint16_t depth = 0; true; ++depth) {
        const std::size_t nodes = (boxes.size() + cells_per_node - 1) / cells_per_node;
        const bool is_root = nodes == 1;
        sort_into_tiles(boxes, nodes);
        const Level level{std::move(boxes), nodes, is_root ? 1 : next_node,
                          is_root ? depth : std::uint16_t{0}};
        NodeRows node_rows(level);
        database.insert(table + "_node", node_rows);
        WayUpRows ways_up(level);
        database.insert(table + (depth == 0 ? "_rowid" : "_parent"), ways_up);
        if (is_root) return;
        boxes = {};
        for (std::size_t n = 0; n < nodes; ++n)
            boxes.push_back(around(level.number_of(n), level.under(n)));
        next_node += static_cast<std::int64_t>(nodes);
    }
}

}  // namespace roostward::io
