#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/io/text_encoding.hpp"

namespace roostward::io {

enum class RowFault { none, cell_count, open_quote };

/// One row as it stands. Cells are trimmed of white space; they live as long as the call that hands them out.
struct TextRow {
    std::size_t line = 0;  ///< of its beginning, from 1
    std::span<const std::string_view> cells;
    RowFault fault = RowFault::none;
    std::string_view text;  ///< the whole row, for telling what was found
};

/// A table in text (RFC 4180), with what people make of it: any encoding of text_encoding.hpp, any line ends,
/// cells parted by comma, semicolon, tab or pipe, as the header tells. The first row that is not blank is the
/// header.
class TextTable {
 public:
    /// `bytes` as they stand in the file.
    explicit TextTable(std::string bytes);

    /// Empty where there is no row, or where a quote in the header is not closed.
    [[nodiscard]] const std::vector<std::string>& header() const { return header_; }
    [[nodiscard]] Encoding encoding() const { return encoding_; }
    /// Lines below the header, blank ones too.
    [[nodiscard]] std::size_t line_count() const;
    [[nodiscard]] char delimiter() const { return delimiter_; }
    /// Calls `visit` for every row below the header but blank ones, until it returns false. A row with
    /// another number of cells than the header has `cell_count`. A quote that is never closed, or closed only
    /// lines later in a row of another number of cells, gives `open_quote` for its own line; reading goes on
    /// with the next.
    void for_each(const std::function<bool(const TextRow&)>& visit) const;

 private:
    std::string text_;
    Encoding encoding_ = Encoding::utf8;
    char delimiter_ = ',';
    std::vector<std::string> header_;
    std::size_t body_ = 0;       ///< where the rows begin
    std::size_t body_line_ = 1;  ///< and on which line
};

}  // namespace roostward::io
