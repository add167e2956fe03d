#include "writing/sqlite.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

#include "roostward/core/catalogue.hpp"
#include "writing/sqlite_rows.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

void Database::Closer::operator()(sqlite3* connection) const noexcept {
    sqlite3_close(connection);
}

void Statement::Finalizer::operator()(sqlite3_stmt* statement) const noexcept {
    sqlite3_finalize(statement);
}

Database::Database(std::filesystem::path file) : file_(std::move(file)) {
    sqlite3* connection = nullptr;
    const int code =
        sqlite3_open_v2(file_.c_str(), &connection, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, nullptr);
    connection_.reset(connection);
    check(code);
    check(sqlite3_db_config(connection, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr));
}

void Database::run(const std::string& sql) {
    check(sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr));
}

void Database::insert(const std::string& table, RowSource& rows) {
    RowTable given(connection_.get(), rows);
    const std::string sql = fmt::format("INSERT INTO \"{}\" SELECT * FROM {}", table, RowTable::name);
    const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    given.rethrow();
    check(code);
}

void Database::check(int code) const {
    if (code != SQLITE_OK) cannot_write(file_, sqlite3_errmsg(connection_.get()));
}

Statement::Statement(Database& database, const std::string& sql) : database_(database) {
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v2(database.connection_.get(), sql.c_str(), -1, &statement, nullptr);
    statement_.reset(statement);
    database_.check(code);
}

void Statement::bind(int parameter, std::int64_t value) {
    database_.check(sqlite3_bind_int64(statement_.get(), parameter, value));
}

void Statement::bind(int parameter, double value) {
    database_.check(sqlite3_bind_double(statement_.get(), parameter, value));
}

void Statement::bind(int parameter, const std::string& text) {
    database_.check(sqlite3_bind_text(statement_.get(), parameter, text.c_str(), -1, SQLITE_TRANSIENT));
}

void Statement::run() {
    sqlite3_step(statement_.get());
    database_.check(sqlite3_reset(statement_.get()));  // says whether the step went well
}

std::int64_t Statement::whole_answer() {
    const bool found = sqlite3_step(statement_.get()) == SQLITE_ROW;
    const std::int64_t answer = found ? sqlite3_column_int64(statement_.get(), 0) : 0;
    database_.check(sqlite3_reset(statement_.get()));
    if (!found) cannot_write(database_.file_, core::said("unwritten.table"));
    return answer;
}

}  // namespace roostward::io
