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
#include <map>
#include <memory>
#include <string_view>
#include <system_error>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"
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

/// Says what stands in the way, and what to do.
[[noreturn]] void refuse_to_replace(const fs::path& target, const FolderContents& contents) {
    std::string text;
    const auto add = [&text](const std::string& sentence) { text += (text.empty() ? "" : " ") + sentence; };
    const auto tell = [&add](const char* key, const std::vector<std::string>& names) {
        if (!names.empty()) add(core::said(key, {{"files", named(names)}}));
    };
    tell(contents.writer == Writer::newer_program ? "folder.newer" : "folder.foreign", contents.foreign);
    tell(contents.writer == Writer::without_hashes ? "folder.without_hashes" : "folder.written_in",
         contents.written_in);
    add(core::said("folder.what_to_do"));
    if (std::ranges::find(contents.written_in, "boxes_to_hang.csv") != contents.written_in.end())
        add(core::said("folder.notes_of_boxes"));
    refuse(target, text);
}

/// Returns what is in it, if anything is there.
std::unique_ptr<const FolderContents> checked(const fs::path& target, const std::string& index,
                                              PeoplesFiles others, core::Threads threads) {
    const fs::file_status status = fs::symlink_status(target);
    if (!fs::exists(status)) return {};
    if (!fs::is_directory(status)) refuse(target, core::said("error.file_for_folder"));
    if (is_mount_point(target)) refuse(target, core::said("error.mounted"));
    FolderContents contents = contents_of(target, index, threads);
    if (others == PeoplesFiles::refuse_kept_ones && !contents.only_ours())
        refuse(target, core::said("folder.not_for_everybody", {{"files", named(contents.peoples())}}));
    if (others == PeoplesFiles::refuse && !(contents.foreign.empty() && contents.written_in.empty()))
        refuse_to_replace(target, contents);
    return std::make_unique<const FolderContents>(std::move(contents));
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

/// 0, or the fault that kept what is there from reaching the disk.
int flushed(const fs::path& path) {
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool done = descriptor >= 0 && ::fsync(descriptor) == 0;
    const int fault = done ? 0 : errno;
    if (descriptor >= 0) ::close(descriptor);
    // A folder on some file systems cannot be flushed by itself.
    return fault == EINVAL ? 0 : fault;
}

void flush_to_disk(const fs::path& path) {
    if (const int fault = flushed(path)) cannot_publish(path, std::strerror(fault));
}

void flush_all(const fs::path& folder) {
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
        const fs::file_status status = entry.symlink_status();
        if (fs::is_regular_file(status) || fs::is_directory(status)) flush_to_disk(entry);
    }
    flush_to_disk(folder);
}

/// Where an earlier run goes that does not go away: DIR.previous, in place of an older one in which nothing
/// is anybody's but ours.
fs::path place_for_previous(const fs::path& target, const std::string& index) {
    const fs::path previous = target.string() + ".previous";
    if (fs::is_directory(fs::symlink_status(previous)) &&
        contents_of(previous, index, core::Threads{1}).only_ours())
        fs::remove_all(previous);
    return free_name(previous);
}

/// For file systems that cannot exchange. Where it is killed between the two steps, the folder that it
/// returns holds the earlier run.
fs::path replace_in_two_steps(const fs::path& staging, const fs::path& target, const std::string& index) {
    fs::path previous = place_for_previous(target, index);
    fs::rename(target, previous);
    std::error_code fault, no_way_back;
    fs::rename(staging, target, fault);
    if (!fault) return previous;
    fs::rename(previous, target, no_way_back);
    if (!no_way_back) cannot_publish(target, fault.message());
    throw core::Error(
        core::Fault::outputs, core::Place{target.string(), {}, {}, {}},
        core::said("error.folder_gone", {{"why", fault.message()}, {"folder", previous.string()}}));
}

/// The new folder stands, but the disk did not say that it keeps it: the earlier one stays too.
[[noreturn]] void published_unflushed(const fs::path& target, fs::path earlier, const fs::path& staging,
                                      const std::string& why) {
    if (earlier == staging) {
        std::error_code stays;
        const fs::path previous = free_name(target.string() + ".previous");
        fs::rename(staging, previous, stays);
        if (!stays) earlier = previous;
    }
    throw core::Error(
        core::Fault::outputs, core::Place{target.string(), {}, {}, {}},
        earlier.empty() ? core::said("error.unflushed", {{"why", why}})
                        : core::said("error.unflushed_beside", {{"why", why}, {"folder", earlier.string()}}));
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

OutputFolder::OutputFolder(const fs::path& folder, PeoplesFiles others, core::Threads threads,
                           std::string index)
    : target_(resolved(folder)),
      staging_(target_.parent_path() / (staging_prefix(target_) + std::to_string(::getpid()))),
      threads_(threads),
      index_(std::move(index)) {
    try {
        earlier_ = checked(target_, index_, others, threads);
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

bool OutputFolder::takes_the_place_of(const fs::path& file) const {
    std::error_code fault;
    const fs::path there = fs::weakly_canonical(fs::absolute(file), fault);
    if (fault || !earlier_ || there.parent_path() != target_ || !fs::exists(there)) return false;
    return std::ranges::find(earlier_->foreign, there.filename().string()) == earlier_->foreign.end();
}

fs::path OutputFolder::path_of(const std::string& name) {
    return staging_ / name;
}

void OutputFolder::discard() {
    publishing_.lock();
    std::error_code ignored;
    if (!published_) fs::remove_all(staging_, ignored);
}

void OutputFolder::take_over() {
    if (std::exchange(taken_over_, true) || !fs::exists(target_)) return;
    const FolderContents contents = contents_of(
        target_, index_, threads_, earlier_ ? earlier_->as_written : std::map<std::string, FileState>());
    for (const Moved& moved : carry_over(target_, contents, staging_))
        told_.push_back(core::said("note.kept", {{"file", moved.from}, {"kept", moved.to}}));
}

core::FolderIndex OutputFolder::index() {
    core::FolderIndex index;
    try {
        for (const fs::directory_entry& entry : fs::directory_iterator(staging_))
            index.files.push_back({entry.path().filename().string(), {}});
        take_over();
        index.kept = names_kept_in(staging_);
    } catch (const fs::filesystem_error& fault) {
        cannot_publish(target_, fault.code().message());
    }
    std::ranges::sort(index.files, {}, &core::OutputFile::name);
    core::parallel_for(index.files.size(), 1, threads_, [&](std::size_t i, std::size_t) {
        index.files[i].sha256 = sha256_of(staging_ / index.files[i].name);
    });
    return index;
}

fs::path OutputFolder::exchange() {
    try {
        const bool anew = !fs::exists(target_);
        take_over();
        if (!anew) fs::permissions(staging_, fs::status(target_).permissions());
        flush_all(staging_);
        if (anew) {
            fs::rename(staging_, target_);
            return {};
        }
        if (::renameat2(AT_FDCWD, staging_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0)
            return staging_;
        if (errno != EINVAL && errno != ENOSYS) cannot_publish(target_, std::strerror(errno));
        fs::path previous = replace_in_two_steps(staging_, target_, index_);
        told_.push_back(core::said("note.not_exchanged", {{"folder", previous.string()}}));
        return previous;
    } catch (const fs::filesystem_error& fault) {
        cannot_publish(target_, fault.code().message());
    }
}

std::vector<std::string> OutputFolder::publish() {
    const std::scoped_lock lock(publishing_);
    const fs::path earlier = exchange();
    published_ = true;
    const int fault = flushed(target_.parent_path());
    if (fault != 0) published_unflushed(target_, earlier, staging_, std::strerror(fault));
    std::error_code ignored;
    if (earlier == staging_) fs::remove_all(staging_, ignored);
    return told_;
}

}  // namespace roostward::io
