#include "writing/output_folder_contents.hpp"

#include <simdjson.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <system_error>

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

/// Names under "files" of the folder's plan.json, and "plan.json"; empty where it holds no such list.
std::set<std::string> own_names(const fs::path& folder) {
    namespace json = simdjson::dom;
    json::parser parser;
    json::array files;
    if (parser.load((folder / "plan.json").string())["files"].get(files) != simdjson::SUCCESS) return {};
    std::set<std::string> names{"plan.json"};
    for (const json::element entry : files)
        if (std::string_view name; entry["file"].get(name) == simdjson::SUCCESS) names.emplace(name);
    return names;
}

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

}  // namespace

std::vector<std::string> foreign_entries(const fs::path& folder) {
    const std::set<std::string> own = own_names(folder);
    std::vector<std::string> foreign;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        if (!entry.is_regular_file() || !own.contains(name)) foreign.push_back(name);
    }
    std::ranges::sort(foreign);
    return foreign;
}

void keep_foreign_entries(const fs::path& from, const fs::path& to) {
    for (const std::string& name : foreign_entries(from)) {
        const bool taken = fs::exists(fs::symlink_status(to / name));
        keep(from / name, taken ? free_name(to / (name + ".kept")) : to / name);
    }
}

fs::path free_name(const fs::path& wanted) {
    fs::path name = wanted;
    for (int n = 2; fs::exists(fs::symlink_status(name)); ++n)
        name = wanted.string() + "-" + std::to_string(n);
    return name;
}

}  // namespace roostward::io
