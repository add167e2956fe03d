#include "roostward/io/tree_words.hpp"

#include <algorithm>
#include <array>

#include "roostward/core/folding.hpp"
#include "roostward/io/row_source.hpp"
#include "roostward/io/values.hpp"
#include "site/toml_entry.hpp"
#include "site/toml_sources.hpp"
#include "site/tree_words_text.hpp"

namespace roostward::io {

namespace {

using Phrase = std::vector<std::string>;
using Names = std::vector<std::string_view>;

/// Numbers say nothing of what stands there: "STUMP - 24 in".
Phrase phrase_of(std::string_view text) {
    Phrase words = core::plain_words(text);
    std::erase_if(words, [](const std::string& word) {
        return std::ranges::all_of(word, [](char c) { return c >= '0' && c <= '9'; });
    });
    return words;
}

/// "Palm - Washingtonia robusta (old)" in three.
std::vector<Phrase> parts_of(std::string_view text) {
    constexpr std::string_view marks = ",;:/()[]|";
    constexpr std::array<std::string_view, 3> dashes{" - ", "\u2013", "\u2014"};
    std::vector<Phrase> parts;
    std::string part;
    const auto end_part = [&] {
        if (Phrase words = phrase_of(part); !words.empty()) parts.push_back(std::move(words));
        part.clear();
    };
    while (!text.empty()) {
        const auto* const dash =
            std::ranges::find_if(dashes, [&](std::string_view d) { return text.starts_with(d); });
        if (dash != dashes.end() || marks.find(text.front()) != std::string_view::npos) {
            end_part();
        } else {
            part += text.front();
        }
        text.remove_prefix(dash != dashes.end() ? dash->size() : 1);
    }
    end_part();
    return parts;
}

bool begins(const Phrase& text, const Phrase& phrase) {
    return phrase.size() <= text.size() && std::equal(phrase.begin(), phrase.end(), text.begin());
}
bool ends(const Phrase& text, const Phrase& phrase) {
    return phrase.size() <= text.size() && std::equal(phrase.rbegin(), phrase.rend(), text.rbegin());
}
bool within(const Phrase& text, const Phrase& phrase) {
    return std::search(text.begin(), text.end(), phrase.begin(), phrase.end()) != text.end();
}

template <class Fits>
bool any(const std::vector<Phrase>& phrases, const Phrase& text, const Fits& fits) {
    return std::ranges::any_of(phrases, [&](const Phrase& phrase) { return fits(text, phrase); });
}

bool equal(const Phrase& text, const Phrase& phrase) {
    return text == phrase;
}

std::vector<Phrase> phrases_in(const TomlEntry& entry, std::string_view name) {
    std::vector<Phrase> phrases;
    for (const std::string& text : required(entry, name).texts())
        if (Phrase words = phrase_of(text); !words.empty()) phrases.push_back(std::move(words));
    return phrases;
}

TomlEntry entry_of(const TomlEntry& table, std::string_view name, Names names) {
    const TomlEntry entry = required(table, name);
    names.insert(names.end(), {"status", "source"});
    entry.allow_only(names);
    static_cast<void>(provenance_of(entry));
    return entry;
}

/// The part without the × of a hybrid.
Phrase without_cross(Phrase part) {
    if (part.size() > 1 && part.front() == "x") part.erase(part.begin());
    return part;
}

}  // namespace

TreeWords::TreeWords(const std::string& toml, const std::string& file) {
    const TomlFile parsed = parse_toml(toml, file);
    const TomlEntry root(parsed);
    root.allow_only(Names{"no_tree", "dead", "not_told", "kind", "columns"});
    const TomlEntry no_tree = entry_of(root, "no_tree", {"begins", "holds", "whole"});
    gone_first_ = phrases_in(no_tree, "begins");
    gone_within_ = phrases_in(no_tree, "holds");
    gone_ = phrases_in(no_tree, "whole");
    const TomlEntry dead = entry_of(root, "dead", {"whole", "begins"});
    dead_ = phrases_in(dead, "whole");
    dead_first_ = phrases_in(dead, "begins");
    not_told_ = phrases_in(entry_of(root, "not_told", {"whole"}), "whole");
    const TomlEntry kinds = root.at("kind");
    for (const std::string& name : kinds.members()) {
        const TomlEntry kind = entry_of(kinds, name, {"genera", "first", "last"});
        kinds_.push_back(
            {name, phrases_in(kind, "genera"), phrases_in(kind, "first"), phrases_in(kind, "last")});
    }
    for (const std::string& column : required(entry_of(root, "columns", {"names"}), "names").texts())
        columns_.push_back(bare_word(column));
}

TreeWords::Meaning TreeWords::meaning_of(std::string_view text) const {
    Meaning meaning;
    const Phrase whole = phrase_of(text);
    if (whole.empty()) return meaning;
    meaning.no_tree =
        any(gone_, whole, equal) || any(gone_first_, whole, begins) || any(gone_within_, whole, within);
    meaning.not_told = any(not_told_, whole, equal);
    for (const Phrase& part : parts_of(text)) {
        const Phrase named = without_cross(part);
        meaning.dead = meaning.dead || any(dead_, part, equal) || any(dead_first_, part, begins);
        for (const Kind& kind : kinds_)
            if (!meaning.no_box && (any(kind.genera, named, begins) || any(kind.first, part, begins) ||
                                    any(kind.last, part, ends)))
                meaning.no_box = std::make_shared<const trees::NoBoxKind>(
                    trees::NoBoxKind{kind.name, std::string(trimmed(text))});
    }
    return meaning;
}

bool TreeWords::tells_what_stands(std::string_view column) const {
    return std::ranges::find(columns_, bare_word(column)) != columns_.end();
}

const TreeWords& tree_words_within() {
    static const TreeWords words(tree_words_text, "tree-words.toml");
    return words;
}

KindColumns::KindColumns(const std::vector<std::string>& columns, const TreeWords& words,
                         std::span<const std::size_t> further)
    : words_(&words), names_(columns) {
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (words.tells_what_stands(columns[i]) || std::ranges::find(further, i) != further.end())
            columns_.push_back(i);
}

KindColumns::Row KindColumns::look_at(const SourceRow& row, std::optional<std::size_t> condition) const {
    Row told;
    const auto note = [](std::optional<Told>& matter, bool holds, const Told& by) {
        if (holds && !matter) matter = by;
    };
    for (const std::size_t column : columns_) {
        const auto* const text = std::get_if<std::string_view>(&row.values[column]);
        if (text == nullptr || text->empty()) continue;
        const auto [entry, is_new] = known_.try_emplace(std::string(*text));
        if (is_new) entry->second = words_->meaning_of(*text);
        const TreeWords::Meaning& meaning = entry->second;
        const Told by{column, entry->first};
        note(told.no_tree, meaning.no_tree, by);
        note(told.dead, meaning.dead, by);
        note(told.not_told, meaning.not_told && column != condition, by);
        if (!told.no_box) told.no_box = meaning.no_box;
    }
    return told;
}

}  // namespace roostward::io
