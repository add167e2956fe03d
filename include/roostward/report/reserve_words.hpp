#pragma once

#include <cstddef>
#include <string>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// Which tree comes next if a chosen one turns out to be unsafe.
namespace roostward::report {

/// Of a site, by its number; empty where no tree can take the place of its tree.
[[nodiscard]] const siting::Reserve* reserve_of(const plan::Plan& plan, std::size_t site);

/// "site 4 and site 6": the other sites whose reserve is the same tree; empty where there are none.
[[nodiscard]] std::string others_with_reserve_of(const plan::Plan& plan, std::size_t site);

/// Of the chosen tree with this index into `plan.chosen`; null where no tree can take its place.
[[nodiscard]] core::Document reserve_document(const plan::Plan& plan, std::size_t site);

/// All trees that can stand in for a site, best first.
[[nodiscard]] core::List reserves_document(const plan::Plan& plan);

}  // namespace roostward::report
