#pragma once

#include <string>
#include <string_view>
#include <vector>

// How other people's column names and words are compared: case, accents and marks do not matter.
namespace roostward::io {

/// A column name taken apart, in small Latin letters and digits: "Höhe", "Hoehe" and "HOHE" are all "hohe".
struct ColumnName {
    std::vector<std::string> words;      ///< "dbhIn_cm" is dbh, in, cm
    std::vector<std::string> as_parted;  ///< the same, parted by marks alone: "StU" is stu
    std::string joined;                  ///< all words, without anything between
};
[[nodiscard]] ColumnName taken_apart(std::string_view name);

/// A word of a list: `=` before it asks for the whole name or one whole word of it, else a part of the joined
/// name is enough, unless the word is short.
struct ListedWord {
    explicit ListedWord(std::string_view written);
    std::string bare;
    bool whole = false;
};

/// 0 where the word is not in the name; more where it says more of it.
[[nodiscard]] int match(const ColumnName& name, const ListedWord& word);

/// The length unit that stands in the name as a word, or, joined to it, behind `stem`; empty where none.
[[nodiscard]] std::string_view unit_in(const ColumnName& name, std::string_view stem);

}  // namespace roostward::io
