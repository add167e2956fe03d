#pragma once

#include <functional>
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>

/// The words of data/words/en.toml, which travel inside the program.
namespace roostward::report {

/// The file as it was when the program was built.
extern const char* const words_text;

using Catalogue = std::map<std::string, std::string, std::less<>>;

/// `key = "text"` a line, blank lines and `#` comments between; in the text \" and \\ stand for " and \.
/// Throws std::invalid_argument at any other line, and at a key that was there before.
[[nodiscard]] Catalogue read_catalogue(std::string_view text);

[[nodiscard]] const Catalogue& catalogue();

struct Filling {
    std::string_view name;
    std::string text;
};

/// The text of a key, with each {name} filled in. Throws std::out_of_range for a key that is not there, and
/// std::invalid_argument where a {name} stays open.
[[nodiscard]] std::string said(std::string_view key, std::initializer_list<Filling> fillings = {});

/// "three"; beyond twelve in digits.
[[nodiscard]] std::string in_words(std::size_t count);

}  // namespace roostward::report
