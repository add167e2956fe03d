#pragma once

#include <concepts>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// Every word that a person reads, by key: data/words/en.toml, which travels inside the program, or a
/// translation of it.
namespace roostward::core {

/// The English file as it was when the program was built.
extern const char* const words_text;

using Catalogue = std::map<std::string, std::string, std::less<>>;

/// A line of a catalogue that cannot be read.
class UnreadableLine : public std::invalid_argument {
 public:
    UnreadableLine(std::size_t number, std::string key_told_before);
    [[nodiscard]] std::size_t number() const noexcept { return number_; }  ///< from 1
    /// Empty where the line is no `key = "text"`.
    [[nodiscard]] const std::string& key_told_before() const noexcept { return key_; }

 private:
    std::size_t number_;
    std::string key_;
};

/// `key = "text"` a line, blank lines and `#` comments between; in the text \" , \\ and \n stand for ", \ and
/// a new line. Blanks at the ends of lines don't matter. Throws UnreadableLine at any other line, and at a
/// key that was there before.
[[nodiscard]] Catalogue read_catalogue(std::string_view text);

[[nodiscard]] const Catalogue& catalogue();

/// From now on the texts of `translation` are said; a key it does not have stays English. Returns its keys
/// that English does not have and those whose {names} English does not fill, or fills otherwise than is
/// written behind the colon: they are left out. Not while other threads speak.
std::vector<std::string> speak(const Catalogue& translation);

/// What stands in the place of {name}, or of {name:spec} for numbers: spec as of fmt and std::format.
struct Filling {
    std::string_view name;
    std::variant<std::string, std::int64_t, double> value;

    Filling(std::string_view hole, std::string text) : name(hole), value(std::move(text)) {}
    Filling(std::string_view hole, std::string_view text) : Filling(hole, std::string(text)) {}
    Filling(std::string_view hole, const char* text) : Filling(hole, std::string(text)) {}
    Filling(std::string_view hole, std::integral auto number)
        : name(hole), value(static_cast<std::int64_t>(number)) {}
    Filling(std::string_view hole, double number) : name(hole), value(number) {}
};

/// The text of a key, with each {name} filled in, a brace before a blank as it is; a number with the decimal
/// mark of the language. Throws std::out_of_range for a key that is not there, and std::invalid_argument
/// where a {name} stays open or its spec does not fit.
[[nodiscard]] std::string said(std::string_view key, std::initializer_list<Filling> fillings = {});

/// The text of "key.one" for one and of "key.many" for other numbers, with {count} filled in as well.
[[nodiscard]] std::string said_for(std::size_t count, std::string_view key,
                                   std::initializer_list<Filling> fillings = {});

/// "state.ruled_out" for "state" and "ruled out": what is no letter of English and no digit parts words.
[[nodiscard]] std::string key_of(std::string_view topic, std::string_view word);

/// A word of the program as people are shown it: the text of its key, or that of its first part's key where
/// it takes the {rest}: "kind.impossible" for "impossible dbh_cm".
/// One that has no key, as a reason of somebody's own, stays as it is.
[[nodiscard]] std::string shown(std::string_view topic, std::string_view word);

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string all_of(const std::vector<std::string>& items);
/// "a", "a or b", "a, b or c".
[[nodiscard]] std::string one_of(const std::vector<std::string>& items);

/// "three"; beyond twelve in digits.
[[nodiscard]] std::string in_words(std::size_t count);

}  // namespace roostward::core
