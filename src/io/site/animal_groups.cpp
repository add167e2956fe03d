#include "roostward/io/animal_groups.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "site/toml_entry.hpp"
#include "site/toml_sources.hpp"

namespace roostward::io {

namespace {

using survey::AnimalGroup;

AnimalGroup::Is what_it_is(const TomlEntry& group) {
    constexpr std::array<std::string_view, 4> words{"animal", "noise", "unknown", "unnamed"};
    constexpr std::array meanings{AnimalGroup::Is::animal, AnimalGroup::Is::noise, AnimalGroup::Is::unknown,
                                  AnimalGroup::Is::unnamed};
    const auto* const word = std::ranges::find(words, required(group, "is").word(words));
    return meanings[static_cast<std::size_t>(word - words.begin())];
}

AnimalGroup group_of(const TomlEntry& entry, const std::string& name) {
    entry.allow_only(std::array<std::string_view, 6>{"is", "general", "family", "words", "status", "source"});
    static_cast<void>(provenance_of(entry));
    const TomlEntry general = entry.at("general");
    return {name, required(entry, "family").text(), what_it_is(entry), general.given() && general.truth(),
            required(entry, "words").texts()};
}

}  // namespace

std::vector<AnimalGroup> parse_animal_groups(const std::string& toml, const std::string& file) {
    const TomlFile parsed = parse_toml(toml, file);
    const TomlEntry root(parsed);
    root.allow_only(std::array<std::string_view, 1>{"group"});
    const TomlEntry all = required(root, "group");
    std::vector<AnimalGroup> groups;
    std::map<std::vector<std::string>, std::string> group_of_word;
    for (const std::string& name : all.members()) {
        groups.push_back(group_of(all.at(name), name));
        for (const std::string& word : groups.back().words) {
            const std::string& first = group_of_word.emplace(core::plain_words(word), name).first->second;
            if (first != name)
                all.at(name).fail(core::said("animals.word_twice", {{"word", word}, {"group", first}}));
        }
    }
    return groups;
}

}  // namespace roostward::io
