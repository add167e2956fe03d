#pragma once

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// Which tree comes next if a chosen one turns out to be unsafe.
namespace roostward::report {

/// Of the chosen tree with this index into `plan.chosen`; null where no tree can take its place.
[[nodiscard]] core::Document reserve_document(const plan::Plan& plan, std::size_t site);

/// All trees that can stand in for a site, best first.
[[nodiscard]] core::List reserves_document(const plan::Plan& plan);

}  // namespace roostward::report
