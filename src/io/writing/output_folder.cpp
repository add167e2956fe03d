#include "roostward/io/output_folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstring>
#include <string_view>
#include <system_error>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "writing/output_folder_contents.hpp"

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void refuse(const fs::path& folder, const std::string& sentence) {
    throw core::Error(core::Fault::usage, core::Place{folder.string(), {}, {}, {}}, sentence);
}

[[noreturn]] void cannot_publish(const fs::path& folder, const std::string& why) {
    throw core::Error(core::Fault::outputs, core::Place{folder.string(), {}, {}, {}},
                      core::said("error.folder_unwritten", {{"why", why}}));
}

/// Listed for people: the first few, and how many more.
std::string named(const std::vector<std::string>& names) {
    constexpr std::size_t most = 5;
    const auto shown = static_cast<std::ptrdiff_t>(std::min(names.size(), most));
    const std::string text = fmt::format("{}", fmt::join(names.begin(), names.begin() + shown, ", "));
    return names.size() <= most
               ? text
               : core::said("list.and_more", {{"list", text}, {"count", names.size() - most}});
}

/// Absolute, links followed, with an existing parent.
fs::path resolved(const fs::path& folder) {
    if (folder.empty()) refuse(folder, core::said("error.folder_without_name"));
    std::error_code fault;
    fs::path target = fs::weakly_canonical(fs::absolute(folder), fault);
    if (fault) refuse(folder, core::said("error.unusable_folder", {{"why", fault.message()}}));
    if (!target.has_filename()) target = target.parent_path();
    if (!target.has_filename()) refuse(folder, core::said("error.root_folder"));
    if (!fs::is_directory(target.parent_path()))
        refuse(folder, core::said("error.no_parent_folder", {{"folder", target.parent_path().string()}}));
    return target;
}

bool is_mount_point(const fs::path& folder) {
    struct stat own {
    }, parent{};
    return ::stat(folder.c_str(), &own) == 0 && ::stat(folder.parent_path().c_str(), &parent) == 0 &&
           own.st_dev != parent.st_dev;
}

void check_target(const fs::path& target, bool force) {
    const fs::file_status status = fs::symlink_status(target);
    if (!fs::exists(status)) return;
    if (!fs::is_directory(status)) refuse(target, core::said("error.file_for_folder"));
    if (is_mount_point(target)) refuse(target, core::said("error.mounted"));
    const std::vector<std::string> foreign = foreign_entries(target);
    if (!foreign.empty() && !force)
        refuse(target, core::said("error.foreign_files", {{"files", named(foreign)}}));
}

std::string staging_prefix(const fs::path& target) {
    return fmt::format(".{}.writing-", target.filename().string());
}

/// Whether the process that the name of a staging folder ends in has ended.
bool is_stale(std::string_view name, std::string_view prefix) {
    if (!name.starts_with(prefix)) return false;
    const std::string_view number = name.substr(prefix.size());
    ::pid_t process = 0;
    const auto [end, fault] = std::from_chars(number.data(), number.data() + number.size(), process);
    if (fault != std::errc{} || end != number.data() + number.size() || process <= 0) return false;
    return process == ::getpid() || (::kill(process, 0) != 0 && errno == ESRCH);
}

void remove_stale_staging(const fs::path& target) {
    std::error_code ignored;
    const std::string prefix = staging_prefix(target);
    for (const fs::directory_entry& entry : fs::directory_iterator(target.parent_path(), ignored))
        if (is_stale(entry.path().filename().string(), prefix)) fs::remove_all(entry, ignored);
}

void flush_to_disk(const fs::path& path) {
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool flushed = descriptor >= 0 && ::fsync(descriptor) == 0;
    const int fault = errno;
    if (descriptor >= 0) ::close(descriptor);
    // A folder on some file systems cannot be flushed by itself.
    if (!flushed && fault != EINVAL) cannot_publish(path, std::strerror(fault));
}

void flush_all(const fs::path& folder) {
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
        const fs::file_status status = entry.symlink_status();
        if (fs::is_regular_file(status) || fs::is_directory(status)) flush_to_disk(entry);
    }
    flush_to_disk(folder);
}

/// For file systems that cannot exchange. Where it is killed between the two steps, DIR.previous holds the
/// earlier run.
std::string replace_in_two_steps(const fs::path& staging, const fs::path& target) {
    fs::path previous = target.string() + ".previous";
    if (fs::is_directory(fs::symlink_status(previous)) && foreign_entries(previous).empty())
        fs::remove_all(previous);
    previous = free_name(previous);
    fs::rename(target, previous);
    fs::rename(staging, target);
    return core::said("note.not_exchanged", {{"folder", previous.string()}});
}

}  // namespace

void require_new_or_empty(const fs::path& folder) {
    std::error_code fault;
    const fs::file_status status = fs::status(folder, fault);
    if (!fs::exists(status)) return;
    if (!fs::is_directory(status)) refuse(folder, core::said("error.file_for_new_folder"));
    const fs::directory_iterator entries(folder, fault);
    if (fault) refuse(folder, core::said("error.folder_unseen", {{"why", fault.message()}}));
    if (entries != fs::directory_iterator())
        refuse(folder,
               core::said("error.folder_not_empty", {{"entry", entries->path().filename().string()}}));
}

OutputFolder::OutputFolder(const fs::path& folder, bool force)
    : target_(resolved(folder)),
      staging_(target_.parent_path() / (staging_prefix(target_) + std::to_string(::getpid()))) {
    try {
        check_target(target_, force);
    } catch (const fs::filesystem_error& fault) {
        refuse(target_, core::said("error.folder_unseen", {{"why", fault.code().message()}}));
    }
    remove_stale_staging(target_);
    std::error_code fault;
    if (!fs::create_directory(staging_, fault)) cannot_publish(target_, fault.message());
}

OutputFolder::~OutputFolder() {
    std::error_code ignored;
    if (!published_) fs::remove_all(staging_, ignored);
}

fs::path OutputFolder::path_of(const std::string& name) {
    return staging_ / name;
}

void OutputFolder::discard() {
    publishing_.lock();
    std::error_code ignored;
    if (!published_) fs::remove_all(staging_, ignored);
}

std::string OutputFolder::publish() {
    const std::scoped_lock lock(publishing_);
    std::string said;
    try {
        if (fs::exists(target_)) {
            keep_foreign_entries(target_, staging_);
            fs::permissions(staging_, fs::status(target_).permissions());
            flush_all(staging_);
            if (::renameat2(AT_FDCWD, staging_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) != 0) {
                if (errno != EINVAL && errno != ENOSYS) cannot_publish(target_, std::strerror(errno));
                said = replace_in_two_steps(staging_, target_);
            }
        } else {
            flush_all(staging_);
            fs::rename(staging_, target_);
        }
    } catch (const fs::filesystem_error& fault) {
        cannot_publish(target_, fault.code().message());
    }
    published_ = true;
    flush_to_disk(target_.parent_path());
    std::error_code ignored;
    fs::remove_all(staging_, ignored);
    return said;
}

}  // namespace roostward::io
