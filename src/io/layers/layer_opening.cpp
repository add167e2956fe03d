#include "layers/layer_opening.hpp"

#include "files/input_file.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

LayerFacts facts_of_source(const InputSource& source) {
    std::vector<std::string> names;
    for (const InputSource& file : each_file(source))
        names.push_back(file.file);
    return {LayerReport(std::move(names), source.role), {}};
}

void begin_file(const InputSource& source, LayerFacts& facts) {
    require_file(source);
    facts.report.begin_file(static_cast<std::uint32_t>(facts.files.size()));
    FileFacts& present = facts.files.emplace_back();
    present.file.role = source.role;
    present.file.file = source.file;
    present.file.sha256 = sha256_of(source.path);
}

OpenLayer::OpenLayer(const InputSource& source, std::span<const FieldSpec> specs, LayerFacts& facts)
    : rows((begin_file(source, facts), open_rows(source))),
      fields(specs, rows->columns(), source, facts.report) {
    for (RowTrouble& note : rows->notes()) {
        facts.report.note_layer(note.kind, std::move(note.value), std::move(note.sentence));
    }
    facts.present().file.columns = fields.told();
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
