#pragma once

#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace roostward::survey {

/// Animals, or what is taken for some, that people call by certain words.
struct AnimalGroup {
    /// `unknown`: somebody could not tell which animal it was; `unnamed`: the words tell of none.
    enum class Is { animal, noise, unknown, unnamed };

    std::string name;    ///< "fox"
    std::string family;  ///< what else it is: a barn owl is an owl
    Is is = Is::animal;
    bool general = false;            ///< its words say no more than a kind, as "bat"
    std::vector<std::string> words;  ///< words and phrases, in any case
};

/// Which animals the boxes are for, and which they are not for, in words that people write.
struct AnimalWords {
    std::vector<AnimalGroup> groups;
    std::vector<std::string> counted;   ///< names of groups, or words: "bat", "small bat"
    std::vector<std::string> left_out;  ///< words for others, whatever their group
    bool keep_others = false;           ///< all animals count; noise does not
};

enum class AnimalFit { counted, another, noise, unknown };

/// What the site file says of words for animals, by the word folded.
using AnimalAnswers = std::map<std::string, AnimalFit, std::less<>>;

struct AnimalMeaning {
    AnimalFit fit = AnimalFit::counted;
    std::string group;       ///< its name, else the word itself; empty: none was found
    std::string family;      ///< of the group
    bool says_which = true;  ///< false: the words name no animal, as "flight" or "unclear"
    bool plainly = false;    ///< the text holds nothing but these words
};

/// What words for animals mean.
class AnimalDictionary {
 public:
    explicit AnimalDictionary(const AnimalWords& words);

    /// By the longest of the words in the text ("fruit bat" before "bat"). Of equal ones, those that name no
    /// animal give way to others, and general ones to others of their family; where they still do not agree
    /// it is unknown. Text without words counts, and where `counted` is empty every animal does.
    [[nodiscard]] AnimalMeaning meaning_of(std::string_view written) const;
    /// The family of the group that has this name, family or word; else the word.
    [[nodiscard]] std::string family_of(std::string_view word) const;

 private:
    struct Entry {
        std::vector<std::string> phrase;
        AnimalMeaning meaning;
        bool general = false;
    };
    void add(Entry entry);
    [[nodiscard]] std::vector<const Entry*> longest_in(const std::vector<std::string>& text) const;

    std::map<std::string, std::vector<Entry>> by_first_word_;
    std::map<std::string, std::string> family_by_name_;
    AnimalFit nobodys_;  ///< of words that no group has
};

/// The same for one layer, whose answers in the site file come first: they hold for a text as written, or for
/// the name of its group. Each text is looked at once.
class AnimalReader {
 public:
    /// Refers to both.
    AnimalReader(const AnimalDictionary& dictionary, const AnimalAnswers& answers)
        : dictionary_(&dictionary), answers_(&answers) {}

    [[nodiscard]] const AnimalMeaning& meaning_of(const std::string& written);

 private:
    const AnimalDictionary* dictionary_;
    const AnimalAnswers* answers_;
    std::unordered_map<std::string, AnimalMeaning> known_;
};

}  // namespace roostward::survey
