#include "roostward/io/layer_report.hpp"

#include <algorithm>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

using core::Severity;

LayerReport::LayerReport(std::string file, std::string layer)
    : file_(std::move(file)), layer_(std::move(layer)) {}

void LayerReport::begin_row(std::size_t row) {
    row_ = row;
    usable_ = true;
    ++read_;
}

void LayerReport::add(Severity severity, core::Place place, const std::string& kind, std::string value,
                      std::string sentence) {
    findings_.push_back({severity, std::move(place), kind, std::move(value), std::move(sentence)});
}

void LayerReport::set_aside(const std::string& field, const std::string& kind, std::string value,
                            std::string sentence) {
    if (usable_) ++set_aside_;
    usable_ = false;
    add(Severity::set_aside, {file_, layer_, row_, field}, kind, std::move(value), std::move(sentence));
}

void LayerReport::set_aside_row(std::size_t row, const std::string& kind, std::string value,
                                std::string sentence) {
    ++set_aside_;
    add(Severity::set_aside, {file_, layer_, row, {}}, kind, std::move(value), std::move(sentence));
}

void LayerReport::set_apart(const std::string& field, const std::string& kind, std::string value,
                            std::string sentence) {
    set_apart_[kind] += usable_;
    set_aside(field, kind, std::move(value), std::move(sentence));
}

void LayerReport::set_apart_row(std::size_t row, const std::string& kind, std::string value,
                                std::string sentence) {
    ++set_apart_[kind];
    set_aside_row(row, kind, std::move(value), std::move(sentence));
}

void LayerReport::doubt(const std::string& field, const std::string& kind, const std::string& value,
                        std::string sentence) {
    Doubt& doubt = doubts_[{kind, field, value}];
    if (doubt.rows++ > 0) return;
    doubt.first_row = row_;
    doubt.sentence = std::move(sentence);
}

void LayerReport::doubt_row(std::size_t row, const std::string& field, const std::string& kind,
                            std::string value, std::string sentence) {
    add(Severity::doubtful, {file_, layer_, row, field}, kind, std::move(value), std::move(sentence));
}

void LayerReport::doubt_layer(const std::string& kind, std::string value, std::string sentence) {
    add(Severity::doubtful, {file_, layer_, {}, {}}, kind, std::move(value), std::move(sentence));
}

void LayerReport::note_layer(const std::string& kind, std::string value, std::string sentence) {
    add(Severity::note, {file_, layer_, {}, {}}, kind, std::move(value), std::move(sentence));
}

core::RowCount LayerReport::counts() const {
    return {layer_, file_, read_, read_ - set_aside_, set_aside_};
}

core::Findings LayerReport::findings() const {
    core::Findings all = findings_;
    for (const auto& [key, doubt] : doubts_) {
        const auto& [kind, field, value] = key;
        all.push_back({Severity::doubtful,
                       {file_, layer_, doubt.first_row, field},
                       kind,
                       value,
                       doubt.sentence,
                       doubt.rows});
    }
    const auto key = [](const core::Finding& f) {
        return std::tie(f.place.row, f.place.field, f.kind, f.value, f.sentence);
    };
    std::stable_sort(all.begin(), all.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
    return all;
}

std::size_t LayerReport::bad_rows() const {
    std::size_t bad = set_aside_;
    for (const auto& [kind, rows] : set_apart_)
        bad -= rows;
    return bad;
}

void LayerReport::require_usable_share(double share) const {
    const std::size_t bad = bad_rows();
    if (static_cast<double>(bad) <= share * static_cast<double>(read_)) return;
    std::map<std::string, std::size_t> rows_of_kind;
    for (const core::Finding& finding : findings_) {
        if (!set_apart_.contains(finding.kind))
            rows_of_kind[finding.kind] += finding.severity == Severity::set_aside;
    }
    const auto commonest = std::max_element(rows_of_kind.begin(), rows_of_kind.end(),
                                            [](const auto& a, const auto& b) { return a.second < b.second; });
    const auto example = std::find_if(findings_.begin(), findings_.end(), [&](const core::Finding& f) {
        return f.severity == Severity::set_aside && f.kind == commonest->first;
    });
    throw core::Error(core::Fault::inputs, {file_, layer_, {}, {}},
                      core::said("error.too_many_set_aside",
                                 {{"bad", bad},
                                  {"rows", read_},
                                  {"percent", 100.0 * static_cast<double>(bad) / static_cast<double>(read_)},
                                  {"allowed", 100.0 * share},
                                  {"kind", core::shown("kind", commonest->first)},
                                  {"count", commonest->second},
                                  {"row", example->place.row.value_or(0)},
                                  {"sentence", example->sentence}}));
}

}  // namespace roostward::io
