#include "layers/layer_opening.hpp"

#include "files/input_file.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

LayerFacts facts_of_source(const InputSource& source) {
    require_file(source);
    siting::InputFile file;
    file.role = source.role;
    file.file = source.file;
    file.sha256 = sha256_of(source.path);
    return {LayerReport(source.file, source.role), std::move(file), {}};
}

OpenLayer::OpenLayer(const InputSource& source, std::span<const FieldSpec> specs, LayerFacts& facts)
    : rows(open_rows(source)), fields(specs, rows->columns(), source, facts.report) {
    for (RowTrouble& note : rows->notes()) {
        facts.report.note_layer(note.kind, std::move(note.value), std::move(note.sentence));
    }
    facts.file.columns = fields.told();
}

std::vector<bool> OpenLayer::wanted() const {
    std::vector<bool> wanted = fields.wanted();
    for (const std::size_t column : further)
        wanted[column] = true;
    return wanted;
}

void tell_trouble(const RowTrouble& trouble, LayerReport& report) {
    if (trouble.nothing_wrong)
        report.set_apart({}, trouble.kind, trouble.value, trouble.sentence);
    else
        report.set_aside({}, trouble.kind, trouble.value, trouble.sentence);
}

void tell_cell_troubles(const SourceRow& row, const std::vector<std::string>& columns, LayerReport& report) {
    for (const CellTrouble& cell : row.cell_troubles) {
        report.doubt(columns[cell.column], "error in a cell", std::string(cell.shown),
                     core::said("finding.cell_error"));
    }
}

}  // namespace roostward::io
