#include "site/site_file_overrides.hpp"

#include <charconv>
#include <variant>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

using Step = std::variant<std::string, std::size_t>;  // into a table, or into an array

[[noreturn]] void refuse(const Override& set, const std::string& sentence) {
    throw core::Error(core::Fault::usage, core::Place{"--set", {}, {}, set.key}, sentence);
}

/// "avoid[0].within_m" as avoid, 0, within_m.
std::vector<Step> steps_of(const Override& set) {
    const auto wrong = [&set] { refuse(set, core::said("set.not_a_key")); };
    std::vector<Step> steps;
    std::string_view rest = set.key;
    while (!rest.empty()) {
        if (rest.front() == '[') {
            std::size_t index = 0;
            const auto [end, fault] = std::from_chars(rest.data() + 1, rest.data() + rest.size(), index);
            if (fault != std::errc{} || end == rest.data() + rest.size() || *end != ']') wrong();
            steps.emplace_back(index);
            rest.remove_prefix(static_cast<std::size_t>(end - rest.data()) + 1);
        } else {
            const std::string_view name = rest.substr(0, rest.find_first_of(".["));
            if (name.empty()) wrong();
            steps.emplace_back(std::string(name));
            rest.remove_prefix(name.size());
        }
        if (rest == ".") wrong();
        if (rest.starts_with('.')) rest.remove_prefix(1);
    }
    if (steps.empty() || std::holds_alternative<std::size_t>(steps.front())) wrong();
    return steps;
}

/// The value as TOML under the key "value", or as text where it is not TOML.
toml::table parsed(const std::string& text) {
    try {
        toml::table table = toml::parse("value = " + text);
        if (table.size() == 1) return table;
    } catch (const toml::parse_error&) {
        // Then it is text.
    }
    return toml::table{{"value", text}};
}

/// The table entry or array item that a step leads to; tables that are not there yet are made.
toml::node& follow(toml::node& from, const Step& step, const Override& set) {
    if (const auto* index = std::get_if<std::size_t>(&step)) {
        toml::array* array = from.as_array();
        if (array == nullptr) refuse(set, core::said("set.not_a_list", {{"index", *index}}));
        if (*index >= array->size())
            refuse(set, core::said("set.no_such_entry", {{"index", *index}, {"count", array->size()}}));
        return *array->get(*index);
    }
    toml::table* table = from.as_table();
    const auto& name = std::get<std::string>(step);
    if (table == nullptr) refuse(set, core::said("set.not_a_table", {{"name", name}}));
    return table->insert(name, toml::table{}).first->second;
}

void assign(toml::node& into, const Step& last, toml::node& value, const Override& set) {
    value.visit([&](auto& node) {
        if (const auto* index = std::get_if<std::size_t>(&last)) {
            (void)follow(into, last, set);
            toml::array& array = *into.as_array();
            array.replace(array.begin() + static_cast<std::ptrdiff_t>(*index), node);
        } else {
            if (!into.is_table()) (void)follow(into, last, set);
            into.as_table()->insert_or_assign(std::get<std::string>(last), node);
        }
    });
}

}  // namespace

void apply_overrides(TomlFile& file, const std::vector<Override>& overrides) {
    for (const Override& set : overrides) {
        const std::vector<Step> steps = steps_of(set);
        toml::node* at = &file.root;
        for (std::size_t i = 0; i + 1 < steps.size(); ++i)
            at = &follow(*at, steps[i], set);
        toml::table value = parsed(set.value);
        assign(*at, steps.back(), *value.get("value"), set);
        file.overridden.insert(set.key);
    }
}

}  // namespace roostward::io
