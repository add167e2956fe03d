#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace roostward::io {

/// Leaves the rows that are marked good, in their order.
template <class Record>
void keep_rows(std::vector<Record>& rows, const std::vector<bool>& good) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!good[i]) continue;
        if (kept != i) rows[kept] = std::move(rows[i]);
        ++kept;
    }
    rows.resize(kept);
}

}  // namespace roostward::io
