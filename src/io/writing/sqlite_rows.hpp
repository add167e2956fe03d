#pragma once

#include <cstdint>
#include <exception>
#include <string_view>

struct sqlite3;
struct sqlite3_context;

namespace roostward::io {

/// Takes one value of a row; null where nothing is put.
class Cell {
 public:
    explicit Cell(sqlite3_context* context) : context_(context) {}
    void put(std::int64_t value);
    void put(double value);
    /// Texts and blobs are not copied: they must live until the next row.
    void put_text(std::string_view text);
    void put_blob(std::string_view bytes);

 private:
    sqlite3_context* context_;
};

/// Rows to be inserted, one after the other.
class RowSource {
 public:
    virtual ~RowSource() = default;
    [[nodiscard]] virtual int columns() const = 0;
    /// Goes on to the next row, the first time to the first; false where there is none left.
    [[nodiscard]] virtual bool next() = 0;
    /// The value of this row in a column, counted from 0.
    virtual void put_value(int column, Cell cell) = 0;
};

/// A table that a statement can read a source's rows from, once, as long as this object lives ("The Virtual
/// Table Mechanism Of SQLite", section 2.1.2).
class RowTable {
 public:
    static constexpr const char* name = "given_rows";
    RowTable(sqlite3* connection, RowSource& rows);
    ~RowTable();
    RowTable(const RowTable&) = delete;
    RowTable& operator=(const RowTable&) = delete;
    /// Throws what the source has thrown, if anything.
    void rethrow() const;

 private:
    friend struct RowTableCalls;
    sqlite3* connection_;
    RowSource& rows_;
    bool ended_ = false;
    std::exception_ptr failure_;
};

}  // namespace roostward::io
