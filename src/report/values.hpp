#pragma once

#include <optional>
#include <string>

#include "roostward/activity/ranges.hpp"
#include "roostward/core/document.hpp"

/// What is not known is null in every output.
namespace roostward::report {

template <class Quantity>
core::Document number(const std::optional<Quantity>& quantity) {
    return quantity ? core::Document(quantity->value()) : core::Document();
}

inline core::Document low_of(const std::optional<activity::Range>& range) {
    return range ? core::Document(range->low) : core::Document();
}

inline core::Document high_of(const std::optional<activity::Range>& range) {
    return range ? core::Document(range->high) : core::Document();
}

inline core::Document text(const std::string& value) {
    return value.empty() ? core::Document() : core::Document(value);
}

}  // namespace roostward::report
