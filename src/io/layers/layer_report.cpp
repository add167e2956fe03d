#include "roostward/io/layer_report.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

using core::Severity;

LayerReport::LayerReport(std::string file, std::string layer)
    : LayerReport(std::vector{std::move(file)}, std::move(layer)) {}

LayerReport::LayerReport(std::vector<std::string> files, std::string layer)
    : files_(std::move(files)), file_(fmt::format("{}", fmt::join(files_, ", "))), layer_(std::move(layer)) {
    for (const std::string& file : files_)
        counts_.push_back({layer_, file});
}

void LayerReport::begin_file(std::uint32_t file) {
    row_ = {0, file};
}

void LayerReport::begin_row(std::size_t number) {
    row_.number = number;
    usable_ = true;
    ++counts_[row_.file].read;
    ++counts_[row_.file].used;
}

std::size_t LayerReport::rows_read() const {
    std::size_t read = 0;
    for (const core::RowCount& count : counts_)
        read += count.read;
    return read;
}

std::string LayerReport::name_of(core::RowRef row) const {
    return files_.size() == 1 ? std::to_string(row.number) : fmt::format("{} {}", file_of(row), row.number);
}

core::Place LayerReport::place(core::RowRef row, const std::string& field) const {
    return {file_of(row), layer_, row.number, field};
}

core::Place LayerReport::whole() const {
    return {in_a_file_ ? file_of(row_) : file_, layer_, {}, {}};
}

void LayerReport::add(Severity severity, core::Place place, const std::string& kind, std::string value,
                      std::string sentence) {
    findings_.push_back({severity, std::move(place), kind, std::move(value), std::move(sentence)});
}

void LayerReport::set_aside(const std::string& field, const std::string& kind, std::string value,
                            std::string sentence) {
    if (usable_) take_out(row_, &core::RowCount::set_aside);
    usable_ = false;
    add(Severity::set_aside, place(row_, field), kind, std::move(value), std::move(sentence));
}

void LayerReport::set_aside_row(core::RowRef row, const std::string& kind, std::string value,
                                std::string sentence, const std::string& field) {
    take_out(row, &core::RowCount::set_aside);
    add(Severity::set_aside, place(row, field), kind, std::move(value), std::move(sentence));
}

void LayerReport::take_out(core::RowRef row, std::size_t core::RowCount::*counted) {
    --counts_[row.file].used;
    ++(counts_[row.file].*counted);
}

void LayerReport::set_apart(const std::string& field, const std::string& kind, std::string value,
                            std::string sentence) {
    if (usable_) take_out(row_, &core::RowCount::apart);
    usable_ = false;
    add(Severity::apart, place(row_, field), kind, std::move(value), std::move(sentence));
}

void LayerReport::set_apart_row(core::RowRef row, const std::string& kind, std::string value,
                                std::string sentence) {
    take_out(row, &core::RowCount::apart);
    add(Severity::apart, place(row, {}), kind, std::move(value), std::move(sentence));
}

void LayerReport::set_apart_alike(const std::string& kind, std::string sentence) {
    if (usable_) take_out(row_, &core::RowCount::apart);
    usable_ = false;
    tell({Severity::apart, row_.file, kind, {}, {}}, std::move(sentence));
}

void LayerReport::doubt(const std::string& field, const std::string& kind, const std::string& value,
                        std::string sentence) {
    tell({Severity::doubtful, 0, kind, field, value}, std::move(sentence));
}

void LayerReport::tell(const Alike& alike, std::string sentence) {
    Told& told = told_together_[alike];
    const bool stands_for_all =
        told.rows.empty() || std::tie(sentence, row_) < std::tie(told.sentence, told.row);
    told.rows.push_back(row_);
    if (!stands_for_all) return;
    told.sentence = std::move(sentence);
    told.row = row_;
}

void LayerReport::doubt_row(core::RowRef row, const std::string& field, const std::string& kind,
                            std::string value, std::string sentence) {
    add(Severity::doubtful, place(row, field), kind, std::move(value), std::move(sentence));
}

void LayerReport::doubt_layer(const std::string& kind, std::string value, std::string sentence) {
    add(Severity::doubtful, whole(), kind, std::move(value), std::move(sentence));
}

void LayerReport::note_layer(const std::string& kind, std::string value, std::string sentence) {
    add(Severity::note, whole(), kind, std::move(value), std::move(sentence));
}

core::Findings LayerReport::findings() const {
    core::Findings all = findings_;
    for (const auto& [alike, told] : told_together_) {
        all.push_back({alike.severity, place(told.row, alike.field), alike.kind, alike.value, told.sentence,
                       told.rows.size(), told.rows.size() > 1 ? told.rows : std::vector<core::RowRef>()});
        std::ranges::sort(all.back().all_rows);
    }
    const auto key = [](const core::Finding& f) {
        return std::make_tuple(f.place.row.has_value(), std::cref(f.kind), std::cref(f.place.field),
                               std::cref(f.value), std::cref(f.sentence), std::cref(f.place.file),
                               f.place.row);
    };
    std::stable_sort(all.begin(), all.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
    return all;
}

void LayerReport::require_usable_share(double share) const {
    std::size_t bad = 0;
    for (const core::RowCount& count : counts_)
        bad += count.set_aside;
    const std::size_t read = rows_read();
    if (static_cast<double>(bad) <= share * static_cast<double>(read)) return;
    const core::Findings all = findings();
    std::map<std::string, std::size_t> rows_of_kind;
    for (const core::Finding& finding : all)
        rows_of_kind[finding.kind] += finding.severity == Severity::set_aside;
    const auto commonest = std::max_element(rows_of_kind.begin(), rows_of_kind.end(),
                                            [](const auto& a, const auto& b) { return a.second < b.second; });
    const auto example = std::find_if(all.begin(), all.end(), [&](const core::Finding& f) {
        return f.severity == Severity::set_aside && f.kind == commonest->first;
    });
    throw core::Error(core::Fault::inputs, {file_, layer_, {}, {}},
                      core::said("error.too_many_set_aside",
                                 {{"bad", bad},
                                  {"rows", read},
                                  {"percent", 100.0 * static_cast<double>(bad) / static_cast<double>(read)},
                                  {"allowed", 100.0 * share},
                                  {"kind", core::shown("kind", commonest->first)},
                                  {"count", commonest->second},
                                  {"row", example->place.row.value_or(0)},
                                  {"sentence", example->sentence}}));
}

}  // namespace roostward::io
