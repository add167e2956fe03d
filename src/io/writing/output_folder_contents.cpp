#include "writing/output_folder_contents.hpp"

#include <simdjson.h>
#include <sys/stat.h>

#include <algorithm>
#include <ctime>
#include <optional>
#include <set>
#include <system_error>

#include "roostward/core/error.hpp"
#include "roostward/core/folder_index.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

/// What its index tells of a folder.
struct Index {
    Writer writer = Writer::nobody_known;
    std::map<std::string, std::string> files;  ///< name and SHA-256; an empty one where it is not told
    std::set<std::string> kept;
};

namespace json = simdjson::dom;

std::string text_at(const json::element& entry, const char* key) {
    std::string_view text;
    return entry[key].get(text) == simdjson::SUCCESS ? std::string(text) : std::string();
}

Writer writer_of(const json::element& plan) {
    std::int64_t format = 0;
    if (text_at(plan, "program") != core::program_name || plan["format"].get(format) != simdjson::SUCCESS)
        return Writer::nobody_known;
    return format > core::plan_format ? Writer::newer_program : Writer::this_program;
}

Index index_of(const fs::path& file) {
    json::parser parser;
    json::element plan;
    json::array files, kept;
    Index index;
    if (parser.load(file.string()).get(plan) != simdjson::SUCCESS) return index;
    index.writer = writer_of(plan);
    if (index.writer == Writer::nobody_known || index.writer == Writer::newer_program) return index;
    if (plan["files"].get(files) != simdjson::SUCCESS) return {};
    bool any_hash = false;
    for (const json::element entry : files) {
        const std::string sha256 = text_at(entry, "sha256");
        any_hash |= !sha256.empty();
        index.files.emplace(text_at(entry, "file"), sha256);
    }
    if (!any_hash) index.writer = Writer::without_hashes;
    if (plan["kept"].get(kept) == simdjson::SUCCESS)
        for (const json::element entry : kept)
            index.kept.insert(text_at(entry, "file"));
    return index;
}

/// Nothing for a file that changed this very moment, when the disk's clock may not tell one change from the
/// next.
std::optional<FileState> state_of(const fs::path& file) {
    constexpr std::int64_t second = 1'000'000'000;
    struct stat told {};
    struct timespec now {};
    if (::lstat(file.c_str(), &told) != 0 || ::clock_gettime(CLOCK_REALTIME, &now) != 0) return {};
    const std::int64_t changed = told.st_ctim.tv_sec * second + told.st_ctim.tv_nsec;
    if (now.tv_sec * second + now.tv_nsec - changed < 2 * second) return {};
    return FileState{told.st_ino, static_cast<std::uint64_t>(told.st_size), changed};
}

/// A file of ours, to be looked at.
struct Ours {
    std::string name, sha256;
    bool is_as_written = false;
    std::optional<FileState> state;
};

void look_at(Ours& ours, const fs::path& folder, const std::map<std::string, FileState>& known) {
    const fs::path file = folder / ours.name;
    ours.state = state_of(file);
    const auto before = known.find(ours.name);
    try {
        ours.is_as_written = (before != known.end() && ours.state == before->second) ||
                             (!ours.sha256.empty() && sha256_of(file) == ours.sha256);
    } catch (const core::Error&) {
        ours.is_as_written = false;  // nobody can read it, so nobody can tell
    }
}

void add_kept(FolderContents& contents, const Index& index, const fs::path& folder) {
    for (std::string& name : names_kept_in(folder))
        (index.kept.contains(name) ? contents.kept : contents.foreign).push_back(std::move(name));
}

void add(FolderContents& contents, std::vector<Ours>& ours, const Index& index,
         const fs::directory_entry& entry) {
    const std::string name = entry.path().filename().string();
    const fs::file_status status = entry.symlink_status();
    if (name == kept_folder && fs::is_directory(status)) {
        add_kept(contents, index, entry.path().parent_path());
        return;
    }
    const auto listed = index.files.find(name);
    if (!fs::is_regular_file(status) || listed == index.files.end())
        contents.foreign.push_back(name);
    else if (name != contents.index)
        ours.push_back({name, listed->second, false, {}});
}

/// A second name of the same file, or a copy; a folder with all that is in it.
void keep(const fs::path& from, const fs::path& to) {
    if (fs::is_directory(fs::symlink_status(from))) {
        fs::create_directory(to, from);
        for (const fs::directory_entry& entry : fs::directory_iterator(from))
            keep(entry, to / entry.path().filename());
        return;
    }
    std::error_code refused;
    fs::create_hard_link(from, to, refused);
    if (refused) fs::copy(from, to, fs::copy_options::copy_symlinks);
}

bool is_taken(const fs::path& file) {
    return fs::exists(fs::symlink_status(file));
}

Moved move_to_kept(const fs::path& from, const fs::path& to, const std::string& name) {
    fs::create_directory(to / kept_folder);
    const fs::path kept = numbered_name(to / kept_folder, name);
    keep(from / name, kept);
    return {name, (fs::path(kept_folder) / kept.filename()).string()};
}

}  // namespace

std::vector<std::string> FolderContents::peoples() const {
    std::vector<std::string> all = foreign;
    all.insert(all.end(), written_in.begin(), written_in.end());
    all.insert(all.end(), kept.begin(), kept.end());
    return all;
}

FolderContents contents_of(const fs::path& folder, const std::string& index_name, core::Threads threads,
                           const std::map<std::string, FileState>& as_written) {
    const Index index = index_of(folder / index_name);
    FolderContents contents;
    contents.index = index_name;
    contents.writer = index.writer;
    std::vector<Ours> ours;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
        add(contents, ours, index, entry);
    core::parallel_for(ours.size(), 1, threads,
                       [&](std::size_t i, std::size_t) { look_at(ours[i], folder, as_written); });
    for (const Ours& file : ours) {
        if (!file.is_as_written)
            contents.written_in.push_back(file.name);
        else if (file.state)
            contents.as_written.emplace(file.name, *file.state);
    }
    for (std::vector<std::string>* names : {&contents.foreign, &contents.written_in, &contents.kept})
        std::ranges::sort(*names);
    return contents;
}

std::vector<Moved> carry_over(const fs::path& from, const FolderContents& contents, const fs::path& to) {
    const bool has_kept = fs::is_directory(fs::symlink_status(from / kept_folder));
    if (has_kept) keep(from / kept_folder, to / kept_folder);
    std::vector<Moved> moved;
    for (const std::string& name : contents.written_in)
        moved.push_back(move_to_kept(from, to, name));
    for (const std::string& name : contents.foreign) {
        if (has_kept && name.starts_with(std::string(kept_folder) + "/")) continue;
        if (name == contents.index || name == kept_folder || is_taken(to / name))
            moved.push_back(move_to_kept(from, to, name));
        else
            keep(from / name, to / name);
    }
    return moved;
}

std::vector<std::string> names_kept_in(const fs::path& folder) {
    const fs::path kept = folder / kept_folder;
    std::vector<std::string> names;
    if (!fs::is_directory(fs::symlink_status(kept))) return names;
    for (const fs::directory_entry& entry : fs::directory_iterator(kept))
        names.push_back((fs::path(kept_folder) / entry.path().filename()).string());
    std::ranges::sort(names);
    return names;
}

fs::path free_name(const fs::path& wanted) {
    fs::path name = wanted;
    for (int n = 2; is_taken(name); ++n)
        name = wanted.string() + "-" + std::to_string(n);
    return name;
}

fs::path numbered_name(const fs::path& folder, const std::string& name) {
    for (int n = 1;; ++n)
        if (fs::path numbered = folder / (name + "." + std::to_string(n)); !is_taken(numbered))
            return numbered;
}

}  // namespace roostward::io
