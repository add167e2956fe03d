#include "roostward/survey/animal_words.hpp"

#include <algorithm>

namespace roostward::survey {

namespace {

bool is_of_a_word(unsigned char c) {
    return c >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z');
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// How many words the longest phrase has that stands in the text; 0: none does.
std::size_t longest_in(const std::vector<std::string>& text, const std::vector<std::string>& phrases) {
    std::size_t longest = 0;
    for (const std::string& phrase : phrases) {
        const std::vector<std::string> words = plain_words(phrase);
        if (words.size() > longest &&
            std::search(text.begin(), text.end(), words.begin(), words.end()) != text.end())
            longest = words.size();
    }
    return longest;
}

}  // namespace

std::vector<std::string> plain_words(std::string_view text) {
    std::vector<std::string> words;
    bool inside = false;
    for (const char written : text) {
        const char c = lower(written);
        const bool of_a_word = is_of_a_word(static_cast<unsigned char>(c));
        if (of_a_word && !inside) words.emplace_back();
        if (of_a_word) words.back() += c;
        inside = of_a_word;
    }
    for (std::string& word : words)
        if (word.size() >= 4 && word.back() == 's') word.pop_back();
    return words;
}

AnimalWords::Fit AnimalWords::fit(std::string_view written) const {
    const std::vector<std::string> words = plain_words(written);
    if (words.empty() || (counted.empty() && left_out.empty())) return Fit::counted;
    const std::size_t ours = longest_in(words, counted), others = longest_in(words, left_out);
    if (ours == 0 && others == 0) return Fit::unknown;
    return ours >= others ? Fit::counted : Fit::left_out;
}

}  // namespace roostward::survey
