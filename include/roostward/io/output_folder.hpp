#pragma once

#include <filesystem>
#include <mutex>
#include <string>
#include <vector>

namespace roostward::io {

/// Throws Error{usage} where something stands there that is not an empty folder.
void require_new_or_empty(const std::filesystem::path& folder);

/// The folder that appears whole or not at all: files are written into a folder beside it, which then takes
/// its place in one step. A run that fails or is killed leaves the earlier folder as it was.
class OutputFolder {
 public:
    /// `folder` may be new, empty, or an earlier run of ours: every file in it listed under "files" in its
    /// own plan.json. Otherwise throws Error{usage}, unless `force`, which keeps the files that are not ours.
    OutputFolder(const std::filesystem::path& folder, bool force);
    ~OutputFolder();  ///< removes what was not published
    OutputFolder(const OutputFolder&) = delete;
    OutputFolder& operator=(const OutputFolder&) = delete;

    /// Where to write a file of this name before it is published.
    [[nodiscard]] std::filesystem::path path_of(const std::string& name);

    /// Flushes every file to disk and exchanges the folders. Returns a line to tell the user where an
    /// exchange in one step was refused; empty otherwise. Throws Error{outputs}.
    [[nodiscard]] std::string publish();

    /// Gives up, from any thread: removes what was written, unless it is published already, and holds a
    /// publish() that comes later for ever. For a program that is about to end.
    void discard();

 private:
    std::filesystem::path target_;
    std::filesystem::path staging_;
    bool published_ = false;
    std::mutex publishing_;
};

}  // namespace roostward::io
