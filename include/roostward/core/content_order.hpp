#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

namespace roostward::core {

/// Sorts records by what they say, `content(record)`, so that nothing hangs on the order in which they were
/// written down. Records that say the same stay in the order in which they came, which only tells their rows
/// apart.
template <class Record>
void put_in_order(std::vector<Record>& records) {
    const auto before = [](const Record& a, const Record& b) { return content(a) < content(b); };
    if (std::ranges::is_sorted(records, before)) return;
    std::vector<std::size_t> order(records.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order,
                             [&](std::size_t a, std::size_t b) { return before(records[a], records[b]); });
    std::vector<Record> sorted;
    sorted.reserve(records.size());
    for (const std::size_t i : order)
        sorted.push_back(std::move(records[i]));
    records = std::move(sorted);
}

}  // namespace roostward::core
