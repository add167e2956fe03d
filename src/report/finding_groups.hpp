#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/finding.hpp"

namespace roostward::report {

/// Findings of one kind in one file of a layer, or about all its files, equally grave.
struct FindingGroup {
    std::string layer;
    std::string file;
    core::Severity severity = core::Severity::note;
    std::string kind;
    std::vector<const core::Finding*> findings;  ///< in their order; never empty
    std::vector<std::size_t> rows;               ///< ascending, each once; empty where it is about the layer
    std::size_t count = 0;                       ///< of rows, those told of together included
};

/// By layer in order of appearance, the commonest kinds first. Points into `findings`.
[[nodiscard]] std::vector<FindingGroup> grouped(const core::Findings& findings);

/// Whether findings of this kind ask for anything: what a rule leaves out, as an evening of rain, does not.
[[nodiscard]] bool can_be_mended(std::string_view kind);

/// At most so many columns, with "…" where something was cut off.
[[nodiscard]] std::string cut(const std::string& text, std::size_t columns);

}  // namespace roostward::report
