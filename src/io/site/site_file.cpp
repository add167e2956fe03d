#include "roostward/io/site_file.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/animal_groups.hpp"
#include "roostward/io/box_profiles.hpp"
#include "roostward/io/writers.hpp"
#include "site/evenings_teams.hpp"
#include "site/reading_rules.hpp"
#include "site/site_file_inputs.hpp"
#include "site/site_file_overrides.hpp"
#include "site/site_parameters.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

constexpr std::array<std::string_view, 9> sections{"site",        "inputs",  "avoid",  "box",     "activity",
                                                   "suitability", "weights", "choose", "evenings"};

/// What to say of a file that is not there, or is a folder: keys of the catalogue.
struct Missing {
    const char* no_file;
    const char* a_folder;
};
constexpr Missing site_file_missing{"error.no_site_file", "error.folder_for_site_file"};
constexpr Missing groups_missing{"error.no_animal_groups_file", "error.folder_for_animal_groups"};
constexpr Missing tree_words_missing{"error.no_tree_words_file", "error.folder_for_tree_words"};
constexpr Missing profiles_missing{"error.no_profiles_file", "error.folder_for_profiles"};

std::string text_of(const std::string& path, const Missing& missing) {
    const auto refuse = [&](const char* key) {
        throw core::Error(core::Fault::site_file, core::Place{path, {}, {}, {}}, core::said(key));
    };
    if (!fs::exists(path)) refuse(missing.no_file);
    if (fs::is_directory(path)) refuse(missing.a_folder);
    std::ifstream in(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(in), {}};
    if (!in) refuse("error.unreadable_site_file");
    return text;
}

/// The entries that a section may hold.
std::vector<std::string_view> names_of(std::string_view section) {
    std::vector<std::string_view> names;
    for (const ParameterSpec& spec : parameter_specs())
        if (spec.key.starts_with(section) && spec.key[section.size()] == '.')
            names.push_back(spec.key.substr(section.size() + 1));
    if (section == "inputs")
        for (const std::string_view role : input_roles())
            names.emplace_back(role);
    if (section == "evenings") names.emplace_back("team");
    return names;
}

const std::vector<std::string>& all_keys() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> keys;
        for (const std::string_view section : sections)
            for (const std::string_view name : names_of(section))
                keys.push_back(fmt::format("{}.{}", section, name));
        return keys;
    }();
    return all;
}

void check_keys(const TomlEntry& root) {
    root.allow_only(sections);
    for (const std::string_view section : sections)
        if (section != "avoid") root.at(section).allow_only(names_of(section));
}

const std::vector<siting::Profile>& profiles_within() {
    static const std::vector<siting::Profile> profiles =
        parse_box_profiles(box_profiles_text, "box-profiles.toml");
    return profiles;
}

siting::Profile profile_for(const TomlEntry& site, const fs::path& folder) {
    const TomlEntry own = site.at("profiles");
    const std::string path = own.given() ? (folder / own.text()).lexically_normal().string() : "";
    const std::vector<siting::Profile> theirs =
        own.given() ? parse_box_profiles(text_of(path, profiles_missing), own.text())
                    : std::vector<siting::Profile>();
    const std::vector<siting::Profile>& profiles = own.given() ? theirs : profiles_within();
    std::vector<std::string> ids;
    ids.reserve(profiles.size());
    for (const siting::Profile& profile : profiles)
        ids.push_back(profile.id);
    const TomlEntry animal = site.at("animal");
    const std::string known =
        core::said("site_file.one_of", {{"names", fmt::format("{}", fmt::join(ids, ", "))}});
    if (!animal.given()) animal.fail(core::said("site_file.must_say_animal", {{"known", known}}));
    const auto found = std::ranges::find(profiles, animal.text(), &siting::Profile::id);
    if (found == profiles.end()) animal.refuse(known);
    return *found;
}

std::vector<survey::AnimalGroup> groups_for(const TomlEntry& site, const fs::path& folder) {
    const TomlEntry own = site.at("animal_groups");
    if (!own.given()) return parse_animal_groups(animal_groups_text, "animals.toml");
    const std::string path = (folder / own.text()).lexically_normal().string();
    return parse_animal_groups(text_of(path, groups_missing), own.text());
}

/// A tree lower than its own box is no site.
void require_trees_above_boxes(const TomlEntry& root, const siting::Settings& settings) {
    const core::Metres entrance = siting::entrance_height(settings.profile);
    const core::Metres least = entrance + trees::trunk_above_entrance;
    if (settings.suitability.min_height >= least) return;
    root.at_path("suitability.min_height_m")
        .fail(core::said("site_file.trees_below_boxes", {{"metres", settings.suitability.min_height.value()},
                                                         {"entrance", entrance.value()},
                                                         {"least", least.value()},
                                                         {"usual", entrance.value() + 3.0}}));
}

/// Files of one's own in place of lists in the program.
std::vector<siting::InputFile> own_lists(const TomlEntry& site, const fs::path& folder) {
    std::vector<siting::InputFile> files;
    for (const char* role : {"profiles", "animal_groups", "tree_words"})
        if (const TomlEntry own = site.at(role); own.given())
            files.push_back(
                {role, own.text(), sha256_of((folder / own.text()).lexically_normal()), {}, {}, {}, {}});
    return files;
}

TomlFile parsed(const std::string& path, const std::vector<Override>& overrides) {
    TomlFile file = parse_toml(text_of(path, site_file_missing), path);
    file.known = all_keys();
    apply_overrides(file, overrides);
    return file;
}

}  // namespace

SiteFile read_site_file(const std::string& path, const std::vector<Override>& overrides) {
    const TomlFile file = parsed(path, overrides);
    const TomlEntry root(file);
    check_keys(root);
    const fs::path folder = fs::path(path).parent_path();
    SiteFile site;
    site.settings.site_file = path;
    site.settings.profile = profile_for(root.at("site"), folder);
    site.settings.survey.animals.groups = groups_for(root.at("site"), folder);
    site.own_lists = own_lists(root.at("site"), folder);
    if (const TomlEntry own = root.at("site").at("tree_words"); own.given()) {
        const std::string words = (folder / own.text()).lexically_normal().string();
        site.tree_words.emplace(text_of(words, tree_words_missing), own.text());
    }
    read_parameters(root, site);
    require_trees_above_boxes(root, site.settings);
    read_input_sources(root, folder, site);
    site.evenings.teams = read_teams(root.at("evenings").at("team"));
    site.reading_rules = reading_rules(file);
    return site;
}

std::optional<std::string> words_named_in(const std::string& path, const std::vector<Override>& overrides) {
    const TomlFile file = parsed(path, overrides);
    const TomlEntry words = TomlEntry(file).at("site").at("words");
    return words.given() ? std::optional(words.text()) : std::nullopt;
}

}  // namespace roostward::io
