#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "roostward/io/row_source.hpp"

namespace roostward::io {

/// Whether words of an inventory name something that is no standing tree: a stump, an empty planting site,
/// "no room", a tree that was felled; in several languages. Case, marks and what follows ("Stump - grind") do
/// not matter.
[[nodiscard]] bool names_no_tree(std::string_view text);

/// The columns of an inventory that tell what kind of thing stands there: species, names, status, condition.
class KindColumns {
 public:
    explicit KindColumns(const std::vector<std::string>& columns);

    [[nodiscard]] std::span<const std::size_t> columns() const { return columns_; }
    [[nodiscard]] const std::string& name_of(std::size_t column) const { return names_[column]; }

    struct Told {
        std::size_t column;
        std::string words;
    };
    /// The first column that says that this row is no tree.
    [[nodiscard]] std::optional<Told> no_tree_in(const SourceRow& row) const;

 private:
    std::vector<std::string> names_;
    std::vector<std::size_t> columns_;
    mutable std::unordered_map<std::string, bool> known_;  ///< words seen before
};

}  // namespace roostward::io
