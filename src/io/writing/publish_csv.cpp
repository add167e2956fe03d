#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <string>
#include <system_error>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"
#include "writing/output_folder_contents.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void refuse(const fs::path& file) {
    throw core::Error(core::Fault::usage, {file.string(), {}, {}, {}}, core::said("error.another_file"));
}

/// Never over another file. Where the disk knows no such step, only what comes within this moment is not
/// seen.
void rename_to_free(const fs::path& from, const fs::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
    if (errno == EEXIST) refuse(to);
    if (errno != EINVAL && errno != ENOSYS) cannot_write(to, std::strerror(errno));
    require_free(to);
    fs::rename(from, to);
}

fs::path moved_to_kept(const fs::path& file) {
    const fs::path folder = file.parent_path() / kept_folder;
    fs::create_directory(folder);
    fs::path kept = numbered_name(folder, file.filename().string());
    rename_to_free(file, kept);
    return kept;
}

/// Where it cannot be put there, what was there comes back.
void put_in_place(const fs::path& part, const fs::path& file, const fs::path& kept) {
    try {
        rename_to_free(part, file);
    } catch (...) {
        std::error_code ignored;
        if (!kept.empty()) fs::rename(kept, file, ignored);
        throw;
    }
}

}  // namespace

void require_free(const fs::path& file) {
    std::error_code unseen;
    if (fs::exists(fs::symlink_status(file, unseen))) refuse(file);
}

fs::path publish_csv(const fs::path& file, const geo::Table& table) {
    const fs::path part = free_name(
        file.parent_path() / ("." + file.filename().string() + ".writing-" + std::to_string(::getpid())));
    std::error_code ignored;
    try {
        write_csv(part, table);
        const bool there = fs::exists(fs::symlink_status(file));
        if (there && fs::is_directory(file)) refuse(file);
        const bool same = there && sha256_of(file) == sha256_of(part);
        fs::path kept = there && !same ? moved_to_kept(file) : fs::path();
        if (same) {
            fs::remove(part);
        } else {
            put_in_place(part, file, kept);
        }
        return kept;
    } catch (const fs::filesystem_error& fault) {
        fs::remove(part, ignored);
        cannot_write(file, fault.code().message());
    } catch (...) {
        fs::remove(part, ignored);
        throw;
    }
}

}  // namespace roostward::io
