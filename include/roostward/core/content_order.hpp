#pragma once

#include <algorithm>
#include <vector>

namespace roostward::core {

/// Sorts records by what they say, `content(record)`, so that nothing hangs on the order in which they were
/// written down. Records that say the same stay in the order in which they came, which only tells their rows
/// apart.
template <class Record>
void put_in_order(std::vector<Record>& records) {
    const auto before = [](const Record& a, const Record& b) { return content(a) < content(b); };
    if (!std::ranges::is_sorted(records, before)) std::ranges::stable_sort(records, before);
}

}  // namespace roostward::core
