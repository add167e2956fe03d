#pragma once

#include <memory>

#include "roostward/io/row_source.hpp"

// The kinds of row source behind open_rows.
namespace roostward::io {

[[nodiscard]] std::unique_ptr<RowSource> open_text_rows(const InputSource& source);
[[nodiscard]] std::unique_ptr<RowSource> open_ogr_rows(const InputSource& source);

}  // namespace roostward::io
