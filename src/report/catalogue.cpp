#include "roostward/report/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace roostward::report {

namespace {

/// What stands between the quotes of `"…"`, which must be all there is.
std::string unquoted(std::string_view quoted, std::string_view line) {
    const auto wrong = [line] {
        return std::invalid_argument("words: not key = \"text\": " + std::string(line));
    };
    if (quoted.size() < 2 || quoted.front() != '"' || quoted.back() != '"') throw wrong();
    std::string text;
    for (std::size_t i = 1; i + 1 < quoted.size(); ++i) {
        if (quoted[i] == '"') throw wrong();
        if (quoted[i] == '\\' && ++i + 1 >= quoted.size()) throw wrong();
        text += quoted[i];
    }
    return text;
}

}  // namespace

Catalogue read_catalogue(std::string_view text) {
    constexpr std::string_view between = " = ";
    Catalogue words;
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(line.size() + 1, text.size()));
        if (line.empty() || line.front() == '#') continue;
        const std::size_t end_of_key = std::min(line.find(between), line.size());
        const std::size_t start = std::min(end_of_key + between.size(), line.size());
        const auto [entry, is_new] =
            words.emplace(line.substr(0, end_of_key), unquoted(line.substr(start), line));
        if (!is_new) throw std::invalid_argument("words: twice: " + entry->first);
    }
    return words;
}

const Catalogue& catalogue() {
    static const Catalogue words = read_catalogue(words_text);
    return words;
}

std::string said(std::string_view key, std::initializer_list<Filling> fillings) {
    const auto found = catalogue().find(key);
    if (found == catalogue().end()) throw std::out_of_range("words: no key " + std::string(key));
    std::string_view text = found->second;
    std::string out;
    while (true) {
        const std::size_t open = std::min(text.find('{'), text.size());
        out += text.substr(0, open);
        if (open == text.size()) return out;
        const std::size_t close = std::min(text.find('}', open), text.size() - 1);
        const std::string_view name = text.substr(open + 1, close - open - 1);
        const auto* const filling = std::ranges::find(fillings.begin(), fillings.end(), name, &Filling::name);
        if (filling == fillings.end())
            throw std::invalid_argument("words: nothing for {" + std::string(name) + "} in " +
                                        std::string(key));
        out += filling->text;
        text.remove_prefix(close + 1);
    }
}

std::string in_words(std::size_t count) {
    return count <= 12 ? said(fmt::format("number.{}", count)) : std::to_string(count);
}

}  // namespace roostward::report
