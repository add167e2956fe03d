#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "places/whereabouts.hpp"
#include "roostward/core/finding.hpp"
#include "roostward/io/field_map.hpp"
#include "roostward/io/layer_report.hpp"
#include "roostward/io/row_reader.hpp"
#include "roostward/io/row_source.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

/// What is known of one file of a layer.
struct FileFacts {
    siting::InputFile file;
    geo::Crs crs;
    std::vector<std::size_t> british_rows{};  ///< placed by a reference of the British national grid
};

/// What is known of a layer besides its records, whose coordinates are still those of their files.
struct LayerFacts {
    LayerReport report;
    std::vector<FileFacts> files;
    std::size_t to_come = 0;  ///< rows of evenings that were not held yet, among those apart

    /// The one whose rows are being read.
    [[nodiscard]] FileFacts& present() { return files.back(); }
    [[nodiscard]] const FileFacts& of(core::RowRef row) const { return files[row.file]; }
};

/// Records with the coordinates of their files.
template <class Record>
struct UnplacedLayer {
    LayerFacts facts;
    std::vector<Record> rows;
    std::vector<Elsewhere<Record>> elsewhere{};  ///< rows whose place is told by something else
    core::Metres step{};  ///< in the plane: what its coordinates were rounded to; 0: no step shows
};

/// Of a layer none of whose files was opened yet.
[[nodiscard]] LayerFacts facts_of_source(const InputSource& source);
/// What is read from now on is read from this file, the next of the layer's.
void begin_file(const InputSource& source, LayerFacts& facts);

/// Opened rows of the next file of a layer, and where their fields are.
struct OpenLayer {
    OpenLayer(const InputSource& source, std::span<const FieldSpec> specs, LayerFacts& facts);
    std::unique_ptr<RowSource> rows;
    FieldMap fields;
    /// Columns to be read besides those of the fields.
    std::vector<std::size_t> further;

    [[nodiscard]] std::vector<bool> wanted() const;
};

/// Sets the present row aside.
void tell_trouble(const RowTrouble& trouble, LayerReport& report);
/// Each is a doubt, and the value counts as unknown.
void tell_cell_troubles(const SourceRow& row, const std::vector<std::string>& columns, LayerReport& report);

/// Visits every row that can be read; `make` returns what it holds, which `keep` gets if nothing set the row
/// aside.
template <class Make, class Keep>
void visit_rows(OpenLayer& layer, LayerReport& report, const Make& make, const Keep& keep) {
    layer.rows->for_each(layer.wanted(), [&](const SourceRow& row) {
        report.begin_row(row.number);
        if (row.trouble != nullptr) {
            tell_trouble(*row.trouble, report);
            return true;
        }
        tell_cell_troubles(row, layer.rows->columns(), report);
        auto made = make(RowReader(row, report));
        if (report.usable()) keep(std::move(made));
        return true;
    });
}

/// Keeps a record a row.
template <class Record, class Make>
void read_rows(OpenLayer& layer, UnplacedLayer<Record>& into, const Make& make) {
    into.rows.reserve(layer.rows->expected_rows());
    visit_rows(layer, into.facts.report, make,
               [&](Record&& record) { into.rows.push_back(std::move(record)); });
}

/// A record, and where it lies if its position is not set.
template <class Record>
struct MaybePlaced {
    Record record;
    std::optional<Whereabouts> elsewhere{};
};

/// The same where some rows tell their place by something else than coordinates.
template <class Record, class Make>
void read_placed_or_not(OpenLayer& layer, UnplacedLayer<Record>& into, const Make& make) {
    into.rows.reserve(layer.rows->expected_rows());
    visit_rows(layer, into.facts.report, make, [&](MaybePlaced<Record>&& made) {
        if (made.elsewhere)
            into.elsewhere.push_back({std::move(made.record), std::move(*made.elsewhere)});
        else
            into.rows.push_back(std::move(made.record));
    });
}

}  // namespace roostward::io
