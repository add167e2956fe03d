#include "site/reading_rules.hpp"

#include <algorithm>
#include <sstream>
#include <string>
#include <utility>

#include "site/site_file_inputs.hpp"

namespace roostward::io {

namespace {

using core::Document;

Document document_of(const toml::node& node);

/// A table without its "file".
core::Object table_of(const toml::table& table) {
    core::Object members;
    for (const auto& [key, value] : table)
        if (key.str() != "file") members.emplace_back(std::string(key.str()), document_of(value));
    return members;
}

Document list_of_nodes(const toml::array& array) {
    core::List items;
    for (const toml::node& item : array)
        items.push_back(document_of(item));
    return items;
}

Document document_of(const toml::node& node) {
    if (const toml::table* table = node.as_table()) return table_of(*table);
    if (const toml::array* array = node.as_array()) return list_of_nodes(*array);
    std::ostringstream written;
    node.visit([&written](const auto& value) { written << value; });
    return written.str();
}

/// Of one layer, given as a path, a table, or a list of either: one member a file of which more than its
/// name is told.
core::List layer_rules(const toml::node& layer) {
    core::List rules;
    const auto add = [&rules](const toml::node& file) {
        const toml::table* table = file.as_table();
        if (core::Object told = table != nullptr ? table_of(*table) : core::Object(); !told.empty())
            rules.emplace_back(std::move(told));
    };
    add(layer);
    if (const toml::array* files = layer.as_array())
        for (const toml::node& file : *files)
            add(file);
    std::ranges::sort(rules, {}, [](const Document& rule) { return core::to_json(rule); });
    return rules;
}

}  // namespace

Document reading_rules(const TomlFile& file) {
    core::Object rules;
    if (const toml::table* inputs = file.root["inputs"].as_table())
        for (const auto& [key, layer] : *inputs)
            if (core::List of_layer = layer_rules(layer); !of_layer.empty() && !is_of_evenings(key.str()))
                rules.emplace_back(std::string(key.str()), std::move(of_layer));
    if (const toml::array* avoid = file.root["avoid"].as_array())
        rules.emplace_back("avoid", list_of_nodes(*avoid));
    return rules;
}

}  // namespace roostward::io
