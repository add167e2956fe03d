#include "known_roosts.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::plan {

namespace {

bool holds(const std::vector<std::string>& families, const std::string& family) {
    return std::ranges::find(families, family) != families.end();
}

}  // namespace

SortedRoosts sorted_roosts(core::Records<trees::KnownRoost> roosts, const survey::Settings& settings) {
    const survey::AnimalDictionary dictionary(settings.animals);
    survey::AnimalReader reader(dictionary, settings.roost_answers);
    const auto families_of = [&](const std::vector<std::string>& words) {
        std::vector<std::string> families;
        for (const std::string& word : words)
            families.push_back(dictionary.family_of(word));
        return families;
    };
    const std::vector<std::string> ours = families_of(settings.animals.counted),
                                   to_keep_from = families_of(settings.keep_from);
    SortedRoosts sorted;
    std::map<std::pair<std::string, std::string>, core::Finding> apart;  // by file and kind
    std::vector<trees::KnownRoost> rows = std::exchange(roosts.rows, {});
    for (trees::KnownRoost& roost : rows) {
        const survey::AnimalMeaning meaning =
            roost.animal.empty() ? survey::AnimalMeaning{} : reader.meaning_of(roost.animal);
        const bool other = meaning.fit == survey::AnimalFit::another && !holds(ours, meaning.family);
        if (!other && meaning.fit != survey::AnimalFit::noise) {
            roosts.rows.push_back(std::move(roost));
            continue;
        }
        if (holds(to_keep_from, meaning.family))
            sorted.neighbours.push_back({roosts.place(roost.row), roost.position,
                                         core::Evening{roost.date.value_or(core::Date{})}, roost.animal,
                                         true});
        const std::string& name = meaning.group.empty() ? roost.animal : meaning.group;
        const core::Place place = roosts.place(roost.row, "animal");
        core::Finding& told =
            apart
                .try_emplace({place.file, name},
                             core::Finding{core::Severity::apart, place, "another animal", name,
                                           core::said("finding.roost_of_others", {{"word", name}}), 0})
                .first->second;
        ++told.rows;
    }
    for (auto& [name, finding] : apart)
        sorted.findings.push_back(std::move(finding));
    sorted.kept = std::move(roosts);
    return sorted;
}

}  // namespace roostward::plan
