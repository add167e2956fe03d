#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "roostward/io/row_source.hpp"

namespace roostward::io {

/// `only` on a table without types of its own.
class TableFilter {
 public:
    /// `numeric` has one mark a column: whether it is compared as numbers. Throws Error{inputs} for an
    /// expression that cannot be read.
    TableFilter(const std::vector<std::string>& columns, const std::vector<bool>& numeric,
                const InputSource& source);
    ~TableFilter();
    TableFilter(TableFilter&&) noexcept;
    TableFilter& operator=(TableFilter&&) noexcept;

    /// `row` has one value a column.
    [[nodiscard]] bool accepts(std::span<const Value> row) const;

 private:
    struct Query;
    std::unique_ptr<Query> query_;
};

/// Finds the columns in which every value that is there is a plain number.
class NumericColumns {
 public:
    explicit NumericColumns(std::size_t columns) : numeric_(columns, true) {}
    void look_at(std::size_t column, const Value& value);
    [[nodiscard]] const std::vector<bool>& found() const { return numeric_; }

 private:
    std::vector<bool> numeric_;
};

}  // namespace roostward::io
