#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/io/row_source.hpp"

namespace roostward::io {

enum class CellKind : std::uint8_t { number, text, moment, truth, error };

/// A cell that holds something. A moment is ISO 8601 text, a truth "true" or "false", a share "35%"; an error
/// is what the program shows, as "#N/A".
struct SheetCell {
    Value value;
    std::uint32_t column = 0;  ///< from 0
    CellKind kind = CellKind::text;
};

struct SheetRow {
    std::size_t number = 0;  ///< as the spreadsheet counts it, from 1
    bool hidden = false;
    std::span<const SheetCell> cells;  ///< by column
};

/// One sheet. Rows that hold nothing are not there.
class Sheet {
 public:
    /// `room`: how many cells it may hold.
    Sheet(std::string name, bool hidden, std::size_t room)
        : name_(std::move(name)), hidden_(hidden), room_(room) {}

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] bool hidden() const { return hidden_; }
    [[nodiscard]] std::size_t size() const { return rows_.size(); }
    [[nodiscard]] std::size_t cell_count() const { return cells_.size(); }
    [[nodiscard]] SheetRow row(std::size_t index) const;
    [[nodiscard]] bool column_hidden(std::uint32_t column) const;

    /// What comes next belongs to this row.
    void begin_row(std::size_t number, bool hidden);
    /// Puts it into `times` cells side by side. Throws Error{inputs} where there are more cells, copies or
    /// columns than any honest sheet has.
    void put(std::uint64_t column, CellKind kind, Value value, std::uint64_t times = 1);
    /// Adds the present row so many times again, under the numbers that follow.
    void repeat_row(std::uint64_t times);
    void hide_columns(std::uint64_t first, std::uint64_t count) { hidden_columns_.push_back({first, count}); }
    /// The cell in the first row was merged with those below it, down to the last.
    void merge_down(std::uint64_t column, std::uint64_t first_row, std::uint64_t last_row) {
        if (last_row > first_row) merged_.push_back({column, first_row, last_row});
    }
    /// Nothing more will come.
    void finish();
    /// How many cells hold something only because they were merged with one above: people see it there.
    [[nodiscard]] std::size_t spread_count() const { return spread_; }

 private:
    struct Start {
        std::size_t number = 0;
        bool hidden = false;
        std::size_t first = 0;  ///< of its cells
    };
    struct Columns {
        std::uint64_t first = 0;
        std::uint64_t count = 0;
    };
    struct Merged {
        std::uint64_t column = 0;
        std::uint64_t first_row = 0;
        std::uint64_t last_row = 0;
    };
    [[nodiscard]] std::span<SheetCell> present_row();
    void count_copies(std::uint64_t copies);
    void sort_row();
    void spread_merged();

    std::string name_;
    bool hidden_ = false;
    std::size_t room_ = 0;
    std::vector<SheetCell> cells_;
    std::vector<Start> rows_;
    Start next_;
    std::uint64_t copies_ = 0;
    std::vector<Columns> hidden_columns_;
    std::vector<Merged> merged_;
    std::size_t spread_ = 0;
};

/// Texts that stay where they are as long as the pool lives, wherever it is moved.
class TextPool {
 public:
    [[nodiscard]] std::string_view keep(std::string_view text);

 private:
    std::deque<std::string> blocks_;
};

struct Workbook {
    Sheet& add_sheet(std::string name, bool hidden);

    std::vector<Sheet> sheets;
    TextPool texts;  ///< of all cells
};

/// Reads an XLSX or ODS file from its bytes, whatever they are. Throws Error{inputs} that says what to do:
/// for another format, a password, a damaged file, or one that unpacks to more than it honestly can.
[[nodiscard]] Workbook read_workbook(std::string_view bytes);

/// Hands out the named part of a file piece by piece; false where there is no such part.
using ReadPart = std::function<bool(const std::string& name, const std::function<void(std::string_view)>&)>;

/// The same from the parts of the file, unpacked.
[[nodiscard]] Workbook read_workbook(const ReadPart& read);

}  // namespace roostward::io
