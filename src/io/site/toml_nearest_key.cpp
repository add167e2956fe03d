#include "site/toml_nearest_key.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <tuple>
#include <vector>

namespace roostward::io {

namespace {

constexpr std::size_t longest_compared = 64;  // nobody gives longer names

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row.back();
}

std::string_view last_part(std::string_view key) {
    return key.substr(key.rfind('.') + 1);
}

std::string_view table_of(std::string_view key) {
    return key.substr(0, key.size() - last_part(key).size());
}

}  // namespace

std::string nearest_key(std::string_view key, std::span<const std::string> known) {
    const std::string_view written = last_part(key).substr(0, longest_compared);
    std::tuple nearest(std::string_view::npos, true, std::string_view());
    for (const std::string& candidate : known) {
        const std::string_view last = last_part(candidate);
        const std::size_t edits_at_least =
            std::max(written.size(), last.size()) - std::min(written.size(), last.size());
        if (edits_at_least > std::get<0>(nearest)) continue;
        nearest =
            std::min(nearest, std::tuple(edit_distance(written, last), table_of(key) != table_of(candidate),
                                         std::string_view(candidate)));
    }
    return std::string(std::get<2>(nearest));
}

}  // namespace roostward::io
