#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <variant>
#include <vector>

#include "roostward/io/site_file.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

struct TextKind {};
struct WordKind {
    std::vector<std::string_view> allowed;
};
/// A whole number, or one of some words in its place.
struct WholeKind {
    std::int64_t min, max;
    std::vector<std::string_view> or_words = {};
};
/// A number, or one of some words in its place.
struct NumberKind {
    NumberRange range;
    std::vector<std::string_view> or_words = {};
};
/// A list of texts; of `allowed` only where there are any.
struct ListKind {
    std::vector<std::string_view> allowed = {};
};
/// Of the clock on the wall, as "22:30".
struct TimeOfDayKind {};
/// { field = …, count = … }, or a list of such tables, each with another field.
struct QuotaKind {
    std::vector<std::string_view> fields;
};
using ParameterKind =
    std::variant<TextKind, WordKind, WholeKind, NumberKind, ListKind, TimeOfDayKind, QuotaKind>;

struct DefaultValue {
    core::Document value;
    siting::Provenance provenance;
    std::string_view set_by = "default";
};

/// One setting of the site file.
struct ParameterSpec {
    std::string_view key;
    ParameterKind kind;
    std::string_view unit;
    /// From what is set so far: the box profile and the parameters above. Empty: the site file must say.
    std::function<DefaultValue(const SiteFile&)> default_of;
    std::string_view
        meaning;  ///< key of one short sentence; for one that must be given, an example behind it
    std::function<void(SiteFile&, const core::Document&)> apply;
};

/// Every setting that the site file knows, in the order of `check --explain`.
[[nodiscard]] const std::vector<ParameterSpec>& parameter_specs();

/// Reads, checks and applies every parameter, and records each in `site.settings.parameters`, but those of
/// [evenings], which change no plan, in `site.evenings_parameters`. The box profile must be in `site`
/// already.
void read_parameters(const TomlEntry& root, SiteFile& site);

}  // namespace roostward::io
