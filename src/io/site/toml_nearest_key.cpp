#include "site/toml_nearest_key.hpp"

#include <algorithm>
#include <cstddef>
#include <tuple>
#include <vector>

namespace roostward::io {

namespace {

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
    const auto rank = [key](const std::string& candidate) {
        return std::tuple(edit_distance(last_part(key), last_part(candidate)),
                          table_of(key) != table_of(candidate), std::string_view(candidate));
    };
    const auto nearest = std::ranges::min_element(known, {}, rank);
    return nearest == known.end() ? std::string() : *nearest;
}

}  // namespace roostward::io
