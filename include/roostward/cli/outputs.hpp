#pragma once

#include <string>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/core/time.hpp"
#include "roostward/io/output_folder.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::cli {

/// Names of everything `plan` writes.
[[nodiscard]] const std::vector<std::string>& output_names();

/// Writes every output of `plan` into the folder, which is not yet published.
void write_outputs(const plan::Plan& plan, io::OutputFolder& folder, core::Threads threads);

/// The present, or SOURCE_DATE_EPOCH where that is set. Throws Error{usage} where it is not a number.
[[nodiscard]] core::Instant made_at();

}  // namespace roostward::cli
