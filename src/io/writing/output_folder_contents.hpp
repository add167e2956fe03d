#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace roostward::io {

/// What lies in the folder and is not a file of an earlier run of ours, by name: everything that "files" of
/// its own plan.json does not list. plan.json itself is ours where it holds such a list.
[[nodiscard]] std::vector<std::string> foreign_entries(const std::filesystem::path& folder);

/// Puts the foreign entries of one folder into another as well, by hard links where the file system has them.
/// One whose name is taken there becomes "NAME.kept".
void keep_foreign_entries(const std::filesystem::path& from, const std::filesystem::path& to);

/// `wanted`, or with "-2", "-3" … behind it where there is something of that name.
[[nodiscard]] std::filesystem::path free_name(const std::filesystem::path& wanted);

}  // namespace roostward::io
