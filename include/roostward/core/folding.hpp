#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace roostward::core {

/// How names and words are compared with each other: case folded and composed (Unicode 15: full case folding,
/// NFC), what has no width left out, every run of blanks one space, none at the ends. "Österhof", "ÖSTERHOF"
/// and "O\u0308sterhof" are one name, "Osterhof" is another. Bytes that are no UTF-8 stay as they are.
[[nodiscard]] std::string folded(std::string_view text);

/// Accents and other marks taken off letters, case kept: "Höhe" → "Hohe", "espèce" → "espece".
[[nodiscard]] std::string without_marks(std::string_view text);

/// Words of a text as they are looked for in lists: folded, without marks, parted by all that is neither
/// letter nor digit. An "s" at the end of a word of four letters and more does not matter: "Espèces" →
/// "espece".
[[nodiscard]] std::vector<std::string> plain_words(std::string_view text);

}  // namespace roostward::core
