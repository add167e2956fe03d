#pragma once

#include <string>
#include <utility>
#include <variant>

namespace roostward::io {

/// Why a text could not be read: a short stable name, and the catalogue's key of what to do.
struct Trouble {
    std::string kind;
    std::string key;
};

/// What was read, or why not.
template <class Value>
using Reading = std::variant<Value, Trouble>;

template <class Value>
[[nodiscard]] const Value* value_in(const Reading<Value>& reading) {
    return std::get_if<Value>(&reading);
}

template <class Value>
[[nodiscard]] const Trouble& trouble_in(const Reading<Value>& reading) {
    return std::get<Trouble>(reading);
}

}  // namespace roostward::io
