#pragma once

#include <string>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Which flight lines there are and what the most used is like, for people: "Flight lines: 3 found. A runs
/// SSW–NNE, 180 m, used on 3 of 3 evenings, both ways." Says so plainly where there is none.
[[nodiscard]] std::string about_lines(const plan::Plan& plan);

/// The lines with all that is known of each, without their paths, as plan.json lists them.
[[nodiscard]] core::List lines_document(const plan::Plan& plan);

}  // namespace roostward::report
