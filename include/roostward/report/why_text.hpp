#pragma once

#include <string>
#include <string_view>

#include "roostward/core/document.hpp"
#include "roostward/report/finished_plan.hpp"

/// Why a tree is chosen, or is not: the answer of `why`.
namespace roostward::report {

/// Throws Error{usage} where the plan has no such tree; it names those that look alike.
[[nodiscard]] std::string why_text(const FinishedPlan& plan, std::string_view id);

/// The same for programs.
[[nodiscard]] core::Document why_document(const FinishedPlan& plan, std::string_view id);

}  // namespace roostward::report
