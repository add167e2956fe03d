#include "writing/sqlite_rows.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <string>

namespace roostward::io {

void Cell::put(std::int64_t value) {
    sqlite3_result_int64(context_, value);
}
void Cell::put(double value) {
    sqlite3_result_double(context_, value);
}
void Cell::put_text(std::string_view text) {
    sqlite3_result_text64(context_, text.data(), text.size(), SQLITE_STATIC, SQLITE_UTF8);
}
void Cell::put_blob(std::string_view bytes) {
    sqlite3_result_blob64(context_, bytes.data(), bytes.size(), SQLITE_STATIC);
}

/// What SQLite calls. No exception may pass through it.
struct RowTableCalls {
    struct Table : sqlite3_vtab {
        RowTable* given;
    };

    static int connect(sqlite3* connection, void* given, int, const char* const*, sqlite3_vtab** made,
                       char**) {
        auto* const own = static_cast<RowTable*>(given);
        return guarded(*own, [&] {
            std::string sql = "CREATE TABLE given (c0";
            for (int i = 1; i < own->rows_.columns(); ++i)
                sql += fmt::format(", c{}", i);
            *made = new Table{{}, own};
            return sqlite3_declare_vtab(connection, (sql + ")").c_str());
        });
    }
    static int disconnect(sqlite3_vtab* table) {
        delete static_cast<Table*>(table);
        return SQLITE_OK;
    }
    static int best_index(sqlite3_vtab*, sqlite3_index_info*) { return SQLITE_OK; }
    static int open(sqlite3_vtab* table, sqlite3_vtab_cursor** made) {
        return guarded(given_by(table), [&] {
            *made = new sqlite3_vtab_cursor{};
            return SQLITE_OK;
        });
    }
    static int close(sqlite3_vtab_cursor* cursor) {
        delete cursor;
        return SQLITE_OK;
    }
    static int filter(sqlite3_vtab_cursor* cursor, int, const char*, int, sqlite3_value**) {
        return next(cursor);
    }
    static int next(sqlite3_vtab_cursor* cursor) {
        RowTable& given = given_by(cursor->pVtab);
        return guarded(given, [&] {
            given.ended_ = !given.rows_.next();
            return SQLITE_OK;
        });
    }
    static int eof(sqlite3_vtab_cursor* cursor) { return given_by(cursor->pVtab).ended_ ? 1 : 0; }
    static int column(sqlite3_vtab_cursor* cursor, sqlite3_context* context, int column) {
        RowTable& given = given_by(cursor->pVtab);
        return guarded(given, [&] {
            given.rows_.put_value(column, Cell(context));
            return SQLITE_OK;
        });
    }
    static int rowid(sqlite3_vtab_cursor*, sqlite3_int64*) { return SQLITE_ERROR; }

 private:
    static RowTable& given_by(sqlite3_vtab* table) { return *static_cast<Table*>(table)->given; }

    template <class Work>
    static int guarded(RowTable& given, const Work& work) {
        try {
            return work();
        } catch (...) {
            given.failure_ = std::current_exception();
            return SQLITE_ERROR;
        }
    }
};

namespace {

/// Without xCreate: the table is there without being created.
constexpr sqlite3_module calls = [] {
    sqlite3_module module{};
    module.xConnect = RowTableCalls::connect;
    module.xBestIndex = RowTableCalls::best_index;
    module.xDisconnect = RowTableCalls::disconnect;
    module.xOpen = RowTableCalls::open;
    module.xClose = RowTableCalls::close;
    module.xFilter = RowTableCalls::filter;
    module.xNext = RowTableCalls::next;
    module.xEof = RowTableCalls::eof;
    module.xColumn = RowTableCalls::column;
    module.xRowid = RowTableCalls::rowid;
    return module;
}();

}  // namespace

RowTable::RowTable(sqlite3* connection, RowSource& rows) : connection_(connection), rows_(rows) {
    sqlite3_create_module(connection_, name, &calls, this);
}

RowTable::~RowTable() {
    sqlite3_create_module(connection_, name, nullptr, nullptr);
}

void RowTable::rethrow() const {
    if (failure_) std::rethrow_exception(failure_);
}

}  // namespace roostward::io
