#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "roostward/core/folder_index.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::io {

struct FolderContents;

/// Throws Error{usage} where something stands there that is not an empty folder.
void require_new_or_empty(const std::filesystem::path& folder);

/// What to do where the folder holds what people wrote.
enum class PeoplesFiles {
    refuse,
    keep,              ///< see OutputFolder
    refuse_kept_ones,  ///< those that earlier runs kept too: nothing of them may stand beside what is written
};

/// The folder that appears whole or not at all: files are written into a folder beside it, which then takes
/// its place in one step. A run that fails or is killed leaves the earlier folder as it was. What people may
/// have written in is never lost.
class OutputFolder {
 public:
    /// `folder` may be new, empty, or an earlier run of ours: its index, a JSON file of that name, tells our
    /// program, a format we know, and the SHA-256 of every other file in it. Otherwise throws Error{usage},
    /// unless they are to be kept: then files of ours that were written in, and foreign ones that are in the
    /// way, move to kept/NAME.N, and all others stay where they are. Nothing in `kept` is ever removed.
    OutputFolder(const std::filesystem::path& folder, PeoplesFiles others, core::Threads threads = {},
                 std::string index = "plan.json");
    ~OutputFolder();  ///< removes what was not published
    OutputFolder(const OutputFolder&) = delete;
    OutputFolder& operator=(const OutputFolder&) = delete;

    /// Whether a file lies in the earlier folder and is ours, so that this run takes its place.
    [[nodiscard]] bool takes_the_place_of(const std::filesystem::path& file) const;

    /// Where to write a file of this name before it is published.
    [[nodiscard]] std::filesystem::path path_of(const std::string& name);

    /// Takes over what people have in the earlier folder, and tells of all that is there now. To be called
    /// when all but the index is written. Throws Error{outputs}.
    [[nodiscard]] core::FolderIndex index();

    /// Flushes every file to disk and exchanges the folders. Returns sentences to tell the user: what moved
    /// to where, and where an exchange in one step was refused. Throws Error{outputs}, which says what stands
    /// where.
    [[nodiscard]] std::vector<std::string> publish();

    /// Gives up, from any thread: removes what was written, unless it is published already, and holds a
    /// publish() that comes later for ever. For a program that is about to end.
    void discard();

 private:
    void take_over();
    /// Puts the new folder into its place; returns where the earlier one is then, empty where there was none.
    [[nodiscard]] std::filesystem::path exchange();

    std::filesystem::path target_;
    std::filesystem::path staging_;
    core::Threads threads_;
    std::string index_;
    std::unique_ptr<const FolderContents> earlier_;  ///< as the run began; none where there was no folder
    std::vector<std::string> told_;
    bool taken_over_ = false;
    bool published_ = false;
    std::mutex publishing_;
};

}  // namespace roostward::io
