#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/parallel.hpp"

namespace roostward::io {

/// What people wrote in stands here, inside the folder of a run, and travels on with later runs.
inline constexpr std::string_view kept_folder = "kept";

/// Who wrote a folder, by its index, the JSON file that tells what we wrote in it: the program, the format
/// and a SHA-256 a file.
enum class Writer {
    nobody_known,  ///< no index of ours
    this_program,
    without_hashes,  ///< an earlier version, which did not write down what it wrote
    newer_program    ///< of a newer format
};

/// A file as the disk knows it: what is written in it afterwards has another state.
struct FileState {
    std::uint64_t node = 0, size = 0;
    std::int64_t changed_ns = 0;  ///< when its content or its name last changed, by the disk's clock
    friend bool operator==(const FileState&, const FileState&) = default;
};

/// Names in each list are sorted.
struct FolderContents {
    std::string index;  ///< name of the file, as "plan.json"
    Writer writer = Writer::nobody_known;
    std::vector<std::string> foreign;     ///< what we did not write
    std::vector<std::string> written_in;  ///< files of ours that are, or may be, no longer as we wrote them
    std::vector<std::string> kept;        ///< in the folder `kept`, as the index lists them

    std::map<std::string, FileState>
        as_written;  ///< files of ours whose hash is as we wrote it, but fresh ones

    /// All three, one after the other.
    [[nodiscard]] std::vector<std::string> peoples() const;
    /// No file in it is anybody's but ours.
    [[nodiscard]] bool only_ours() const { return foreign.empty() && written_in.empty() && kept.empty(); }
};

/// A file that has still the state it has in `as_written` is not read again. Throws
/// std::filesystem::filesystem_error.
[[nodiscard]] FolderContents contents_of(const std::filesystem::path& folder, const std::string& index,
                                         core::Threads threads,
                                         const std::map<std::string, FileState>& as_written = {});

/// What moved from one name to another.
struct Moved {
    std::string from, to;
};

/// Puts whatever `from` holds of people into `to`, as a second name of the same file where the disk allows
/// it: what was kept stays kept, what was written in becomes kept/NAME.N, what is foreign stays where it was,
/// unless `to` holds something of that name: then it becomes kept/NAME.N too. Returns what moved.
std::vector<Moved> carry_over(const std::filesystem::path& from, const FolderContents& contents,
                              const std::filesystem::path& to);

/// "kept/boxes_to_hang.csv.1" and so on, sorted.
[[nodiscard]] std::vector<std::string> names_kept_in(const std::filesystem::path& folder);

/// The name itself where nothing has it, else the first of NAME-2, NAME-3 … that is free.
[[nodiscard]] std::filesystem::path free_name(const std::filesystem::path& wanted);

/// The first of NAME.1, NAME.2 … in the folder that is free.
[[nodiscard]] std::filesystem::path numbered_name(const std::filesystem::path& folder,
                                                  const std::string& name);

}  // namespace roostward::io
