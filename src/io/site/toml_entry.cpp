#include "site/toml_entry.hpp"

#include <algorithm>
#include <cmath>

#include <sstream>
#include <utility>

#include <fmt/format.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/times.hpp"
#include "site/toml_nearest_key.hpp"

namespace roostward::io {

namespace {

std::optional<std::size_t> line_of(const toml::source_region& source) {
    const auto line = static_cast<std::size_t>(source.begin.line);
    return line == 0 ? std::nullopt : std::optional(line);
}

}  // namespace

TomlFile parse_toml(std::string_view text, const std::string& name) {
    try {
        return {name, toml::parse(text, std::string_view(name)), {}, {}};
    } catch (const toml::parse_error& fault) {
        throw core::Error(core::Fault::site_file, core::Place{name, {}, line_of(fault.source()), {}},
                          core::said("toml.not_toml", {{"why", fault.description()}}));
    }
}

std::string to_text(NumberRange range) {
    return range.above_min ? core::said("toml.number_above", {{"min", range.min}, {"max", range.max}})
                           : core::said("toml.number", {{"min", range.min}, {"max", range.max}});
}

std::string listed(std::span<const std::string_view> words) {
    std::vector<std::string> quoted;
    quoted.reserve(words.size());
    for (const std::string_view word : words)
        quoted.push_back(fmt::format("\"{}\"", word));
    return core::one_of(quoted);
}

TomlEntry::TomlEntry(const TomlEntry& parent, const toml::node* node, std::string key)
    : file_(parent.file_),
      node_(node),
      key_(std::move(key)),
      line_(node == nullptr ? parent.line_ : line_of(node->source())) {}

TomlEntry required(const TomlEntry& table, std::string_view member) {
    TomlEntry entry = table.at(member);
    if (!entry.given()) entry.fail(core::said("toml.missing"));
    return entry;
}

bool TomlEntry::from_override() const {
    return std::ranges::any_of(file_->overridden, [this](const std::string& set) {
        return key_.starts_with(set) &&
               (key_.size() == set.size() || key_[set.size()] == '.' || key_[set.size()] == '[');
    });
}

std::string TomlEntry::member_key(std::string_view member) const {
    return key_.empty() ? std::string(member) : fmt::format("{}.{}", key_, member);
}

TomlEntry TomlEntry::at(std::string_view member) const {
    return {*this, given() ? table().get(member) : nullptr, member_key(member)};
}

TomlEntry TomlEntry::at_path(std::string_view path) const {
    const std::size_t dot = path.find('.');
    return dot == std::string_view::npos ? at(path) : at(path.substr(0, dot)).at_path(path.substr(dot + 1));
}

std::vector<std::string> TomlEntry::members() const {
    std::vector<std::string> names;
    if (!given()) return names;
    for (const auto& [name, node] : table())
        names.emplace_back(name.str());
    return names;
}

void TomlEntry::allow_only(std::span<const std::string_view> names) const {
    for (const std::string& name : members()) {
        if (std::ranges::find(names, name) != names.end()) continue;
        std::vector<std::string> known(file_->known.begin(), file_->known.end());
        for (const std::string_view allowed : names)
            known.push_back(member_key(allowed));
        const TomlEntry unknown = at(name);
        unknown.fail(core::said("toml.no_such_key", {{"nearest", nearest_key(unknown.key_, known)}}));
    }
}

std::vector<TomlEntry> TomlEntry::tables() const {
    std::vector<TomlEntry> entries;
    if (!given()) return entries;
    const toml::array* array = node_->as_array();
    if (array == nullptr) refuse(core::said("toml.tables", {{"key", key_}}));
    for (std::size_t i = 0; i < array->size(); ++i) {
        entries.push_back({*this, array->get(i), fmt::format("{}[{}]", key_, i)});
        (void)entries.back().table();
    }
    return entries;
}

const toml::table& TomlEntry::table() const {
    if (!node_->is_table()) refuse(core::said("toml.table", {{"key", key_}}));
    return *node_->as_table();
}

std::string TomlEntry::text() const {
    std::string value = node_->is_string() ? node_->as_string()->get() : std::string();
    if (value.find_first_not_of(" \t\r\n") == std::string::npos) refuse(core::said("toml.text"));
    return value;
}

std::string TomlEntry::word(std::span<const std::string_view> allowed) const {
    const bool fits =
        node_->is_string() && std::ranges::find(allowed, node_->as_string()->get()) != allowed.end();
    if (!fits) refuse(listed(allowed));
    return node_->as_string()->get();
}

double TomlEntry::number(NumberRange range, const std::string& or_else) const {
    // toml++ itself refuses whole numbers that no double holds exactly.
    const double value = node_->is_integer() ? static_cast<double>(node_->as_integer()->get())
                                             : node_->value<double>().value_or(std::nan(""));
    if (value >= range.min && value <= range.max && !(range.above_min && value == range.min)) return value;
    refuse(or_else.empty() ? to_text(range)
                           : core::said("toml.number_or", {{"number", to_text(range)}, {"words", or_else}}));
}

std::int64_t TomlEntry::whole(std::int64_t min, std::int64_t max, const std::string& or_else) const {
    const std::int64_t value = node_->is_integer() ? node_->as_integer()->get() : min - 1;
    if (value >= min && value <= max) return value;
    const std::string range = core::said("toml.whole", {{"min", min}, {"max", max}});
    refuse(or_else.empty() ? range : core::said("toml.number_or", {{"number", range}, {"words", or_else}}));
}

std::chrono::minutes TomlEntry::time_of_day() const {
    if (const toml::time* time = node_->is_time() ? &node_->as_time()->get() : nullptr)
        return std::chrono::hours(time->hour) + std::chrono::minutes(time->minute);
    const std::string written = node_->is_string() ? node_->as_string()->get() : std::string();
    const Reading<WrittenTime> reading = read_time(written, DateOrder::unknown);
    const WrittenTime* const time = value_in(reading);
    const bool open = time != nullptr && time->of_twelve_hours && !written.starts_with('0');
    if (time == nullptr || time->date || !time->time_of_day || time->offset || open)
        refuse(core::said("toml.time_of_day"));
    return std::chrono::duration_cast<std::chrono::minutes>(*time->time_of_day);
}

bool TomlEntry::truth() const {
    if (!node_->is_boolean()) refuse(core::said("toml.truth"));
    return node_->as_boolean()->get();
}

std::vector<std::string> TomlEntry::texts() const {
    if (!node_->is_array()) refuse(core::said("toml.texts"));
    std::vector<std::string> values;
    for (const toml::node& item : *node_->as_array()) {
        if (!item.is_string()) refuse(core::said("toml.texts"));
        values.push_back(item.as_string()->get());
    }
    return values;
}

std::vector<std::pair<double, double>> TomlEntry::number_pairs() const {
    if (!node_->is_array()) refuse(core::said("toml.pairs"));
    std::vector<std::pair<double, double>> pairs;
    for (const toml::node& item : *node_->as_array()) {
        const toml::array* pair = item.as_array();
        if (pair == nullptr || pair->size() != 2) refuse(core::said("toml.pairs"));
        const auto first = (*pair)[0].value<double>(), second = (*pair)[1].value<double>();
        if (!first || !second) refuse(core::said("toml.pairs"));
        pairs.emplace_back(*first, *second);
    }
    return pairs;
}

std::vector<std::string> TomlEntry::words(std::span<const std::string_view> allowed) const {
    std::vector<std::string> values = texts();
    const bool fits = std::ranges::all_of(
        values, [&](const std::string& value) { return std::ranges::find(allowed, value) != allowed.end(); });
    if (!fits || values.empty()) refuse(core::said("toml.words", {{"words", listed(allowed)}}));
    return values;
}

std::string TomlEntry::scalar() const {
    if (node_->is_string()) return node_->as_string()->get();
    if (!node_->is_number() && !node_->is_boolean()) refuse(core::said("toml.scalar"));
    return value_text();
}

std::string TomlEntry::value_text() const {
    if (node_->is_table()) return core::said("toml.a_table");
    std::ostringstream out;
    node_->visit([&out](const auto& node) { out << node; });
    constexpr std::size_t longest = 60;
    std::string text = out.str();
    if (text.size() > longest) text = text.substr(0, longest) + "…";
    return text;
}

void TomlEntry::refuse(const std::string& allowed) const {
    fail(core::said("toml.not_possible", {{"value", value_text()}, {"allowed", allowed}}));
}

void TomlEntry::fail(const std::string& sentence) const {
    // What an override made on the way to its value has no line either.
    const bool made_by_override = given() && !line_ && node_ != &file_->root;
    if (from_override() || made_by_override)
        throw core::Error(core::Fault::site_file, core::Place{"--set", {}, {}, key_}, sentence);
    throw core::Error(core::Fault::site_file, core::Place{file_->name, {}, line_, key_}, sentence);
}

}  // namespace roostward::io
