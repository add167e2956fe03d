#include "write_geopackage_index.hpp"

#include <gdal.h>
#include <ogr_api.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>
#include <span>
#include <string_view>
#include <tuple>
#include <utility>

#include <fmt/format.h>

namespace roostward::io {

namespace {

constexpr std::size_t cells_per_node = 51;  // SQLite's RTREE_MAXCELLS
constexpr std::size_t node_bytes = 4 + 24 * cells_per_node;
constexpr std::size_t longest_statement = 200'000;

void run(void* dataset, const std::string& sql) {
    if (OGRLayerH answer = GDALDatasetExecuteSQL(dataset, sql.c_str(), nullptr, nullptr))
        GDALDatasetReleaseResultSet(dataset, answer);
}

std::string text_answer(void* dataset, const std::string& sql) {
    std::string text;
    OGRLayerH answer = GDALDatasetExecuteSQL(dataset, sql.c_str(), nullptr, nullptr);
    if (answer == nullptr) return text;
    if (OGRFeatureH row = OGR_L_GetNextFeature(answer)) {
        text = OGR_F_GetFieldAsString(row, 0);
        OGR_F_Destroy(row);
    }
    GDALDatasetReleaseResultSet(dataset, answer);
    return text;
}

/// Rows for one table, inserted many at a time.
class RowInserter {
 public:
    RowInserter(void* dataset, const std::string& table)
        : dataset_(dataset), head_(fmt::format("INSERT OR REPLACE INTO \"{}\" VALUES ", table)) {}
    void add(std::string_view row) {
        sql_ += sql_.empty() ? head_ : ",";
        sql_ += row;
        if (sql_.size() > longest_statement) finish();
    }
    void finish() {
        if (!sql_.empty()) run(dataset_, sql_);
        sql_.clear();
    }

 private:
    void* dataset_;
    std::string head_;
    std::string sql_;
};

/// SQLite keeps single precision: the box grows to the next such number.
float rounded_down(double value) {
    const auto near = static_cast<float>(value);
    return static_cast<double>(near) > value ? std::nextafter(near, -std::numeric_limits<float>::infinity())
                                             : near;
}
float rounded_up(double value) {
    return -rounded_down(-value);
}

/// Hexadecimal digits of a node, big-endian throughout (SQLite, "The SQLite R*Tree Module", shadow tables).
class NodeText {
 public:
    explicit NodeText(std::uint16_t depth, std::size_t cells) {
        append(depth, 2);
        append(cells, 2);
    }
    void add(const IndexedBox& box) {
        append(static_cast<std::uint64_t>(box.id), 8);
        for (const float side :
             {rounded_down(box.min_x), rounded_up(box.max_x), rounded_down(box.min_y), rounded_up(box.max_y)})
            append(std::bit_cast<std::uint32_t>(side), 4);
    }
    [[nodiscard]] std::string text() {
        hex_.resize(2 * node_bytes, '0');
        return hex_;
    }

 private:
    void append(std::uint64_t value, int bytes) {
        constexpr std::string_view digits = "0123456789ABCDEF";
        for (int nibble = 2 * bytes - 1; nibble >= 0; --nibble)
            hex_ += digits[(value >> (4U * static_cast<unsigned>(nibble))) & 0xFU];
    }
    std::string hex_;
};

/// How many boxes the piece with this number gets when `count` are shared out evenly over `pieces`.
std::size_t begin_of(std::size_t piece, std::size_t count, std::size_t pieces) {
    return piece * count / pieces;
}

/// Vertical slices of boxes, each from south to north, so that neighbours stand together.
void sort_into_tiles(std::span<IndexedBox> boxes, std::size_t nodes) {
    const auto by_x = [](const IndexedBox& b) { return std::tuple(b.min_x + b.max_x, b.id); };
    const auto by_y = [](const IndexedBox& b) { return std::tuple(b.min_y + b.max_y, b.id); };
    const auto slices = static_cast<std::size_t>(std::ceil(std::sqrt(static_cast<double>(nodes))));
    std::ranges::sort(boxes, {}, by_x);
    for (std::size_t s = 0; s < slices; ++s) {
        const std::size_t begin = begin_of(s, boxes.size(), slices);
        std::ranges::sort(boxes.subspan(begin, begin_of(s + 1, boxes.size(), slices) - begin), {}, by_y);
    }
}

IndexedBox around(std::int64_t id, std::span<const IndexedBox> boxes) {
    IndexedBox all = boxes.front();
    all.id = id;
    for (const IndexedBox& box : boxes) {
        all.min_x = std::min(all.min_x, box.min_x);
        all.max_x = std::max(all.max_x, box.max_x);
        all.min_y = std::min(all.min_y, box.min_y);
        all.max_y = std::max(all.max_y, box.max_y);
    }
    return all;
}

}  // namespace

SpatialIndex::SpatialIndex(void* dataset, const std::string& layer)
    : dataset_(dataset), table_(fmt::format("rtree_{}_geom", layer)) {
    run(dataset_, fmt::format("SELECT CreateSpatialIndex('{}', 'geom')", layer));
    insert_trigger_ =
        text_answer(dataset_, fmt::format("SELECT sql FROM sqlite_master WHERE name = '{}_insert'", table_));
    run(dataset_, fmt::format("DROP TRIGGER \"{}_insert\"", table_));
}

void SpatialIndex::fill(std::vector<IndexedBox> boxes) {
    RowInserter nodes(dataset_, table_ + "_node");
    std::int64_t next_node = 2;  // the root is number 1
    for (std::uint16_t depth = 0; !boxes.empty(); ++depth) {
        const std::size_t count = (boxes.size() + cells_per_node - 1) / cells_per_node;
        sort_into_tiles(boxes, count);
        std::vector<IndexedBox> parents;
        std::vector<std::pair<std::int64_t, std::int64_t>> node_of;
        for (std::size_t n = 0; n < count; ++n) {
            const std::size_t begin = begin_of(n, boxes.size(), count);
            const std::span<const IndexedBox> own(boxes.data() + begin,
                                                  begin_of(n + 1, boxes.size(), count) - begin);
            const std::int64_t number = count == 1 ? 1 : next_node++;
            NodeText node(count == 1 ? depth : std::uint16_t{0}, own.size());
            for (const IndexedBox& box : own) {
                node.add(box);
                node_of.emplace_back(box.id, number);
            }
            nodes.add(fmt::format("({},X'{}')", number, node.text()));
            parents.push_back(around(number, own));
        }
        std::ranges::sort(node_of);
        RowInserter ways_up(dataset_, table_ + (depth == 0 ? "_rowid" : "_parent"));
        for (const auto& [id, number] : node_of)
            ways_up.add(fmt::format("({},{})", id, number));
        ways_up.finish();
        if (count == 1) break;
        boxes = std::move(parents);
    }
    nodes.finish();
    run(dataset_, insert_trigger_);
}

}  // namespace roostward::io
