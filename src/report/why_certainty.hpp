#pragma once

#include <string>

#include "roostward/report/finished_plan.hpp"

/// How firmly a tree of a finished plan is chosen, or not: parts of the answer of `why`.
namespace roostward::report {

/// What plan.json says of a chosen tree; null of any other.
[[nodiscard]] const core::Document& site_of(const FinishedPlan& plan, const FinishedTree& tree);

/// Re-draws, weightings, its group and its reserve, under a title; empty where there is nothing to say.
[[nodiscard]] std::string how_sure_of(const FinishedPlan& plan, const FinishedTree& tree);

/// The what-ifs that take the tree's site away, or bring the tree in, under a title; empty where none does.
[[nodiscard]] std::string what_would_change_it(const FinishedPlan& plan, const FinishedTree& tree);

}  // namespace roostward::report
