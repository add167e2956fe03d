#include "roostward/survey/animal_words.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "roostward/core/folding.hpp"

namespace roostward::survey {

namespace {

using Words = std::vector<std::string>;
using Is = AnimalGroup::Is;

AnimalFit fit_of(const AnimalGroup& group, const AnimalWords& words) {
    const bool all = words.counted.empty() || words.keep_others;
    const bool named = std::ranges::any_of(words.counted, [&](const std::string& counted) {
        return core::plain_words(counted) == core::plain_words(group.name);
    });
    if (group.is == Is::noise) return AnimalFit::noise;
    if (group.is == Is::unnamed || named || all) return AnimalFit::counted;
    return group.is == Is::unknown ? AnimalFit::unknown : AnimalFit::another;
}

std::string joined(const Words& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

}  // namespace

AnimalDictionary::AnimalDictionary(const AnimalWords& words)
    : nobodys_(words.counted.empty() || words.keep_others ? AnimalFit::counted : AnimalFit::unknown) {
    for (const AnimalGroup& group : words.groups) {
        family_by_name_.emplace(joined(core::plain_words(group.name)), group.family);
        family_by_name_.emplace(joined(core::plain_words(group.family)), group.family);
        const bool says_which = group.is == Is::animal || group.is == Is::noise;
        for (const std::string& word : group.words)
            add({core::plain_words(word),
                 {fit_of(group, words), group.name, group.family, says_which},
                 group.general});
    }
    const auto add_own = [&](const std::string& word, AnimalFit fit) {
        add({core::plain_words(word), {fit, word, family_of(word)}});
    };
    for (const std::string& word : words.left_out)
        add_own(word, words.keep_others ? AnimalFit::counted : AnimalFit::another);
    for (const std::string& word : words.counted)
        add_own(word, AnimalFit::counted);
}

/// The last that is said of a phrase holds; it stays as general as it was.
void AnimalDictionary::add(Entry entry) {
    if (entry.phrase.empty()) return;
    family_by_name_.emplace(joined(entry.phrase), entry.meaning.family);
    std::vector<Entry>& entries = by_first_word_[entry.phrase.front()];
    const auto same = std::ranges::find(entries, entry.phrase, &Entry::phrase);
    if (same == entries.end())
        entries.push_back(std::move(entry));
    else
        same->meaning.fit = entry.meaning.fit;
}

std::string AnimalDictionary::family_of(std::string_view word) const {
    const std::string asked = joined(core::plain_words(word));
    const auto known = family_by_name_.find(asked);
    return known == family_by_name_.end() ? asked : known->second;
}

std::vector<const AnimalDictionary::Entry*> AnimalDictionary::longest_in(const Words& text) const {
    std::vector<const Entry*> longest;
    for (auto at = text.begin(); at != text.end(); ++at) {
        const auto entries = by_first_word_.find(*at);
        if (entries == by_first_word_.end()) continue;
        for (const Entry& entry : entries->second) {
            const auto left = static_cast<std::size_t>(text.end() - at);
            if (entry.phrase.size() > left || !std::equal(entry.phrase.begin(), entry.phrase.end(), at))
                continue;
            const std::size_t length = longest.empty() ? 0 : longest.front()->phrase.size();
            if (entry.phrase.size() < length) continue;
            if (entry.phrase.size() > length) longest.clear();
            longest.push_back(&entry);
        }
    }
    return longest;
}

AnimalMeaning AnimalDictionary::meaning_of(std::string_view written) const {
    const Words text = core::plain_words(written);
    if (text.empty()) return {};
    std::vector<const Entry*> found = longest_in(text);
    const auto says_which = [](const Entry* entry) { return entry->meaning.says_which; };
    if (std::ranges::any_of(found, says_which)) std::erase_if(found, std::not_fn(says_which));
    std::vector<const Entry*> left;
    for (const Entry* entry : found)
        if (!entry->general || std::ranges::none_of(found, [&](const Entry* other) {
                return !other->general && other->meaning.family == entry->meaning.family;
            }))
            left.push_back(entry);
    if (left.empty()) return {nobodys_, {}, {}, false, false};
    AnimalMeaning meaning = left.front()->meaning;
    const bool agree =
        std::ranges::all_of(left, [&](const Entry* entry) { return entry->meaning.fit == meaning.fit; });
    if (!agree) return {AnimalFit::unknown, {}, {}, false, false};
    meaning.plainly = left.front()->phrase.size() == text.size();
    return meaning;
}

const AnimalMeaning& AnimalReader::meaning_of(const std::string& written) {
    const auto [entry, is_new] = known_.try_emplace(written);
    if (!is_new) return entry->second;
    AnimalMeaning& meaning = entry->second;
    meaning = dictionary_->meaning_of(written);
    auto answer = answers_->find(core::folded(written));
    if (answer == answers_->end()) answer = answers_->find(core::folded(meaning.group));
    if (answer != answers_->end()) meaning.fit = answer->second;
    return meaning;
}

}  // namespace roostward::survey
