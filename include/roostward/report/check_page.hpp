#pragma once

#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// What `check` prints, 80 columns wide: what to mend first, then a part for each layer with its rows, its
/// columns, and its findings grouped by kind, then what nobody has checked.
[[nodiscard]] std::string check_page(const plan::Checked& checked);

/// Up to three sentences: what would make the plan better, the most useful first.
[[nodiscard]] std::vector<std::string> fix_first(const plan::Checked& checked);

/// "12, 15–18 and 3 more": rows in ascending order, at most `most` runs of them.
[[nodiscard]] std::string row_list(const std::vector<std::size_t>& rows, std::size_t most);
/// "rows 12, 15–18 and 3 more"
[[nodiscard]] std::string rows_in_words(const std::vector<std::size_t>& rows, std::size_t most);

}  // namespace roostward::report
