#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "roostward/trees/tree.hpp"

namespace roostward::io {

struct SourceRow;

/// Words of inventories for what cannot hold a box: stumps and empty sites, dead trees, palms.
class TreeWords {
 public:
    /// Of a TOML text as data/tree-words.toml. `file` names it in errors. Throws Error{site_file}.
    TreeWords(const std::string& toml, const std::string& file);

    struct Meaning {
        bool no_tree = false;  ///< nothing stands there that could be a site
        bool dead = false;
        bool not_told = false;                           ///< nobody says which tree it is, as "other"
        std::shared_ptr<const trees::NoBoxKind> no_box;  ///< null: no kind that holds no box
    };
    [[nodiscard]] Meaning meaning_of(std::string_view text) const;
    /// Whether a column of this name tells what stands there.
    [[nodiscard]] bool tells_what_stands(std::string_view column) const;

 private:
    using Phrase = std::vector<std::string>;
    struct Kind {
        std::string name;
        std::vector<Phrase> genera, first, last;
    };

    std::vector<Phrase> gone_first_, gone_within_, gone_;
    std::vector<Phrase> dead_first_, dead_;
    std::vector<Phrase> not_told_;
    std::vector<Kind> kinds_;
    std::vector<std::string> columns_;  ///< as bare_word gives them
};

/// data/tree-words.toml as it was when the program was built.
[[nodiscard]] const TreeWords& tree_words_within();

/// The columns of an inventory that tell what kind of thing stands there: species, names, status, condition.
class KindColumns {
 public:
    /// Refers to the words. `further`: columns that tell it whatever they are called.
    KindColumns(const std::vector<std::string>& columns, const TreeWords& words,
                std::span<const std::size_t> further = {});

    [[nodiscard]] std::span<const std::size_t> columns() const { return columns_; }
    [[nodiscard]] const std::string& name_of(std::size_t column) const { return names_[column]; }

    struct Told {
        std::size_t column;
        std::string_view words;  ///< lives as long as these columns
    };
    /// For each matter the first column that tells of it.
    struct Row {
        std::optional<Told> no_tree, dead, not_told;
        std::shared_ptr<const trees::NoBoxKind> no_box;
    };
    /// "unknown" in the column of `condition` tells nothing of the kind.
    [[nodiscard]] Row look_at(const SourceRow& row, std::optional<std::size_t> condition = {}) const;

 private:
    const TreeWords* words_;
    std::vector<std::string> names_;
    std::vector<std::size_t> columns_;
    mutable std::unordered_map<std::string, TreeWords::Meaning> known_;  ///< words seen before
};

}  // namespace roostward::io
