#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "roostward/io/reading.hpp"

namespace roostward::io {

/// What a number may carry behind it.
enum class Dimension { plain, length, angle, temperature, speed };

struct WrittenNumber {
    double value = 0.0;
    std::string unit;    ///< as written behind it, in lower case; empty where none
    bool range = false;  ///< "30-45": `value` is the lower end
    bool below = false;  ///< "<10": `value` is the upper end, the lower is not known
};

/// Without blanks and tabs at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Folded, without spaces and the marks `-_.()/#°` between words: how names and words are compared.
[[nodiscard]] std::string bare_word(std::string_view text);

/// Empty, "-", "?", "n/a", "unknown" and their like.
[[nodiscard]] bool says_nothing(std::string_view text);

/// "35", "35,5 cm", "1 234.5" (any kind of space), "30-45", "about 12", ">60", "5%". Empty where it is no
/// number. One comma alone is a decimal comma.
[[nodiscard]] std::optional<WrittenNumber> read_number(std::string_view text);

/// Whether the text is a number and nothing else, as a program writes it.
[[nodiscard]] bool is_plain_number(std::string_view text);

/// Micrometres, a whole number, in one of mm, cm, m, in, ft and their everyday spellings; empty for anything
/// else.
[[nodiscard]] std::optional<double> micrometres_in(std::string_view unit);

/// Whether a unit may stand behind a number of this dimension without changing it, or, for a length, be
/// converted.
[[nodiscard]] bool fits(std::string_view unit, Dimension dimension);

/// yes, y, true, 1, x … and no, n, false, 0 …; empty for anything else.
[[nodiscard]] std::optional<bool> read_yes_no(std::string_view text);

/// One everyday word, written as bare_word gives it, and what it stands for.
template <class Meaning>
struct Word {
    std::string_view word;
    Meaning meaning;
};

template <class Meaning>
[[nodiscard]] std::optional<Meaning> read_word(std::string_view text, std::span<const Word<Meaning>> words) {
    const std::string bare = bare_word(text);
    for (const Word<Meaning>& known : words) {
        if (known.word == bare) return known.meaning;
    }
    return std::nullopt;
}

}  // namespace roostward::io
