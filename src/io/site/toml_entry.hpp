#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <toml++/toml.h>

namespace roostward::io {

/// A TOML file as it was parsed, for errors that say where.
struct TomlFile {
    std::string name;  ///< as the user gave it
    toml::table root;
    std::set<std::string> overridden;      ///< keys that came from --set
    std::span<const std::string> known{};  ///< every key there is, for "did you mean"
};

/// Throws Error{site_file} with the line where the text is not TOML.
[[nodiscard]] TomlFile parse_toml(std::string_view text, const std::string& name);

struct NumberRange {
    double min = 0.0;
    double max = 0.0;
    bool above_min = false;  ///< `min` itself is not allowed
};

/// One entry of a TOML file, given or not, with the key that leads to it. The file must outlive it.
/// Whatever is read from it throws Error{site_file} with key, line, value and what is allowed.
class TomlEntry {
 public:
    /// The whole file.
    explicit TomlEntry(const TomlFile& file) : file_(&file), node_(&file.root) {}

    [[nodiscard]] bool given() const { return node_ != nullptr; }
    [[nodiscard]] const std::string& key() const { return key_; }
    [[nodiscard]] bool from_override() const;
    [[nodiscard]] bool is_text() const { return given() && node_->is_string(); }
    [[nodiscard]] bool is_list() const { return given() && node_->is_array(); }
    [[nodiscard]] bool is_table() const { return given() && node_->is_table(); }

    /// An entry of this table, given or not.
    [[nodiscard]] TomlEntry at(std::string_view member) const;
    /// By a path as "choose.sites".
    [[nodiscard]] TomlEntry at_path(std::string_view path) const;
    /// Names of the entries of this table, in the order of their keys.
    [[nodiscard]] std::vector<std::string> members() const;
    /// Throws where this table has an entry of another name, and says which known key is nearest.
    void allow_only(std::span<const std::string_view> names) const;
    /// The tables of an array of tables; none where it is not given.
    [[nodiscard]] std::vector<TomlEntry> tables() const;

    [[nodiscard]] std::string text() const;  ///< not empty
    [[nodiscard]] std::string word(std::span<const std::string_view> allowed) const;
    /// `or_else` tells what else is allowed, for the error.
    [[nodiscard]] double number(NumberRange range, const std::string& or_else = {}) const;
    [[nodiscard]] std::int64_t whole(std::int64_t min, std::int64_t max,
                                     const std::string& or_else = {}) const;
    /// "22:30" or 22:30:00, after midnight. Refuses "9:30", of which nobody knows which half of the day it
    /// is.
    [[nodiscard]] std::chrono::minutes time_of_day() const;
    [[nodiscard]] bool truth() const;
    [[nodiscard]] std::vector<std::string> texts() const;
    /// A list of pairs of numbers, as [[0, 0], [3, 1]].
    [[nodiscard]] std::vector<std::pair<double, double>> number_pairs() const;
    [[nodiscard]] std::vector<std::string> words(std::span<const std::string_view> allowed) const;
    /// Text, a number or a truth, as text.
    [[nodiscard]] std::string scalar() const;

    /// The same with something else where not given.
    [[nodiscard]] std::string text_or(const std::string& otherwise) const {
        return given() ? text() : otherwise;
    }

    /// Throws: what stands here is wrong, `allowed` says what may stand here.
    [[noreturn]] void refuse(const std::string& allowed) const;
    /// Throws with a sentence of its own.
    [[noreturn]] void fail(const std::string& sentence) const;

 private:
    TomlEntry(const TomlEntry& parent, const toml::node* node, std::string key);
    [[nodiscard]] const toml::table& table() const;
    [[nodiscard]] std::string member_key(std::string_view member) const;
    [[nodiscard]] std::string value_text() const;

    const TomlFile* file_;
    const toml::node* node_;
    std::string key_;
    std::optional<std::size_t> line_;  ///< of the table that it should stand in, where not given
};

/// An entry of a table that must be given. Throws Error{site_file}.
[[nodiscard]] TomlEntry required(const TomlEntry& table, std::string_view member);

/// "a number from 1 to 200", "a number above 0, up to 24"
[[nodiscard]] std::string to_text(NumberRange range);

/// `"good", "fair" or "poor"`
[[nodiscard]] std::string listed(std::span<const std::string_view> words);

}  // namespace roostward::io
