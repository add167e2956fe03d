#include "roostward/io/plan_number.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t digits = 8;

/// Settings that are names of files: what is in those counts, as an input.
constexpr std::array<std::string_view, 4> names_of_files{"site.profiles", "site.animal_groups",
                                                         "site.tree_words", "site.words"};

core::List settings_of(const SiteFile& site) {
    core::List list;
    for (const siting::Parameter& parameter : site.settings.parameters)
        if (std::ranges::find(names_of_files, parameter.key) == names_of_files.end())
            list.emplace_back(core::List{parameter.key, parameter.value});
    return list;
}

core::List hashes_of(std::span<const siting::InputFile> files) {
    std::vector<std::pair<std::string, std::string>> hashes;
    for (const siting::InputFile& file : files)
        hashes.emplace_back(file.role, file.sha256);
    std::ranges::sort(hashes);
    core::List list;
    for (const auto& [role, sha256] : hashes)
        list.emplace_back(core::List{role, sha256});
    return list;
}

}  // namespace

std::string plan_number(const SiteFile& site, std::span<const siting::InputFile> files,
                        std::string_view version) {
    const core::Document all = core::Object{{"version", version},
                                            {"seed", site.settings.activity.seed},
                                            {"settings", settings_of(site)},
                                            {"reading", site.reading_rules},
                                            {"inputs", hashes_of(files)}};
    return sha256_of_text(core::to_json(all)).substr(0, digits);
}

}  // namespace roostward::io
