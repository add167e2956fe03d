#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace roostward::survey {

/// Lower case, in words of letters, digits and anything that is not ASCII; an "s" at the end of a word of
/// four letters and more does not matter.
[[nodiscard]] std::vector<std::string> plain_words(std::string_view text);

/// Which animals the boxes are for, and which they are not for, in words that people write.
struct AnimalWords {
    std::vector<std::string> counted;   ///< "bat", "pipistrelle"
    std::vector<std::string> left_out;  ///< "bird", "fruit bat"

    enum class Fit { counted, left_out, unknown };
    /// By the longest of these words in the text ("fruit bat" before "bat"); of equals the counted one. Text
    /// without words counts, and all does where no words are given.
    [[nodiscard]] Fit fit(std::string_view written) const;
};

}  // namespace roostward::survey
