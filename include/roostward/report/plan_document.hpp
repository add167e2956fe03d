#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/core/folder_index.hpp"
#include "roostward/core/time.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

struct RunFacts {
    std::string version;
    std::string repeat;  ///< the command that makes the same again
    core::Instant made_at;
    core::FolderIndex folder;
};

/// What plan.json holds: everything needed to repeat the run and to judge it.
[[nodiscard]] core::Document plan_document(const plan::Plan& plan, const RunFacts& facts);

/// Every setting with its value, unit, where it was set, status, source and meaning.
[[nodiscard]] core::List parameters_document(const std::vector<siting::Parameter>& parameters);

/// Every output with its hash; plan.json itself has none.
[[nodiscard]] core::List files_document(const core::FolderIndex& folder);

[[nodiscard]] core::List kept_document(const core::FolderIndex& folder);

[[nodiscard]] core::List counts_document(const std::vector<core::RowCount>& counts);

}  // namespace roostward::report
