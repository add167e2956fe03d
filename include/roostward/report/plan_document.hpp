#pragma once

#include <optional>
#include <string>
#include <string_view>
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

/// Every output with its hash; the index that tells it has none.
[[nodiscard]] core::List files_document(const core::FolderIndex& folder,
                                        std::string_view index = "plan.json");

[[nodiscard]] core::List kept_document(const core::FolderIndex& folder);

/// Every file that was read: its hash, system, and which column was taken for what.
[[nodiscard]] core::List inputs_document(const std::vector<siting::InputFile>& files);

[[nodiscard]] core::List counts_document(const std::vector<core::RowCount>& counts);

}  // namespace roostward::report
