#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What plan.json tells of the folder it stands in, so that a later run knows what is ours.
namespace roostward::core {

inline constexpr std::string_view program_name = "roostward";
inline constexpr int plan_format = 1;

/// A file of the folder.
struct OutputFile {
    std::string name;
    std::string sha256;  ///< 64 hexadecimal digits
};

struct FolderIndex {
    std::vector<OutputFile> files;  ///< all that we wrote but plan.json, sorted by name
    std::vector<std::string> kept;  ///< "kept/boxes_to_hang.csv.1": what people wrote in, sorted
};

}  // namespace roostward::core
