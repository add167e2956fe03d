#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

struct sqlite3;
struct sqlite3_stmt;

namespace roostward::io {

class RowSource;

/// An SQLite file that is being written. Whatever SQLite refuses, as where the disk is full, becomes
/// Error{outputs} that names the file.
class Database {
 public:
    /// Opens a file that is there. Its triggers do not fire on this connection.
    explicit Database(std::filesystem::path file);
    /// Statements without parameters; their answers are not looked at.
    void run(const std::string& sql);
    /// Inserts all rows in one statement: a statement a row takes twice as long. The table's name must hold
    /// no quotation mark.
    void insert(const std::string& table, RowSource& rows);

 private:
    friend class Statement;
    void check(int code) const;

    struct Closer {
        void operator()(sqlite3* connection) const noexcept;
    };
    std::filesystem::path file_;
    std::unique_ptr<sqlite3, Closer> connection_;
};

/// One statement with parameters, which count from 1.
class Statement {
 public:
    Statement(Database& database, const std::string& sql);
    void bind(int parameter, std::int64_t value);
    void bind(int parameter, double value);
    void bind(int parameter, const std::string& text);
    void run();
    /// The first cell of the answer's first row; throws where there is no row.
    [[nodiscard]] std::int64_t whole_answer();

 private:
    struct Finalizer {
        void operator()(sqlite3_stmt* statement) const noexcept;
    };
    Database& database_;
    std::unique_ptr<sqlite3_stmt, Finalizer> statement_;
};

}  // namespace roostward::io
