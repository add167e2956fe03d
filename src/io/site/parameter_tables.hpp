#pragma once

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "site/site_parameters.hpp"

/// The tables of settings, and what they are written with.
namespace roostward::io {

[[nodiscard]] std::vector<ParameterSpec> site_specs();
[[nodiscard]] std::vector<ParameterSpec> activity_specs();
/// Which evenings and animals count.
[[nodiscard]] std::vector<ParameterSpec> counting_specs();
/// What a tree must be like.
[[nodiscard]] std::vector<ParameterSpec> suitability_specs();
/// What its surroundings must be like.
[[nodiscard]] std::vector<ParameterSpec> surroundings_specs();
[[nodiscard]] std::vector<ParameterSpec> box_specs();
[[nodiscard]] std::vector<ParameterSpec> weight_specs();
[[nodiscard]] std::vector<ParameterSpec> choice_specs();
[[nodiscard]] std::vector<ParameterSpec> evenings_specs();

using core::Document;
using siting::Provenance;
using siting::Status;

inline const Provenance common_practice{Status::common_practice, ""};
inline const Provenance azam{Status::published, "Azam et al. 2018"};
inline const Provenance from_memory{Status::from_memory, ""};

inline auto always(Document value, Provenance provenance) {
    return [fallback = DefaultValue{std::move(value), std::move(provenance)}](const SiteFile&) {
        return fallback;
    };
}

/// The default is what the box profile says.
template <class Value, class ToDocument>
auto by_profile(siting::Sourced<Value> siting::Profile::*entry, ToDocument to_document) {
    return [entry, to_document](const SiteFile& site) {
        const siting::Sourced<Value>& sourced = site.settings.profile.*entry;
        return DefaultValue{to_document(sourced.value), sourced.provenance, "box profile"};
    };
}

inline double number_in(const Document& value) {
    return std::get<double>(value.value());
}
inline std::size_t whole_in(const Document& value) {
    return static_cast<std::size_t>(std::get<std::int64_t>(value.value()));
}
/// As TimeOfDayKind reads it.
inline std::chrono::minutes time_of_day_in(const Document& value) {
    const std::string_view text = value.text();
    const auto digits = [&](std::size_t at) { return 10 * (text[at] - '0') + (text[at + 1] - '0'); };
    return std::chrono::hours(digits(0)) + std::chrono::minutes(digits(3));
}
inline const std::string& text_in(const Document& value) {
    return std::get<std::string>(value.value());
}

/// The number, or nothing where a word stands in its place.
template <class Quantity, class Number = double>
std::optional<Quantity> number_or_word_in(const Document& value) {
    const Number* number = std::get_if<Number>(&value.value());
    return number != nullptr ? std::optional(Quantity(*number)) : std::nullopt;
}

inline std::vector<std::string> texts_in(const Document& value) {
    std::vector<std::string> texts;
    for (const Document& item : std::get<core::List>(value.value()))
        texts.push_back(text_in(item));
    return texts;
}

inline Document list_of(const std::vector<std::string>& texts) {
    return core::List(texts.begin(), texts.end());
}

/// A number that stands in the settings with its default. `where` finds it there.
template <class Where>
ParameterSpec number_spec(std::string_view key, NumberRange range, std::string_view unit,
                          Provenance provenance, std::string_view meaning, Where where) {
    SiteFile unset;
    auto& entry = where(unset);
    using Entry = std::remove_cvref_t<decltype(entry)>;
    const auto put = [where](SiteFile& site, const Document& value) {
        where(site) = Entry(number_in(value));
    };
    if constexpr (std::is_same_v<Entry, double>)
        return {key, NumberKind{range}, unit, always(entry, std::move(provenance)), meaning, put};
    else
        return {key, NumberKind{range}, unit, always(entry.value(), std::move(provenance)), meaning, put};
}

}  // namespace roostward::io
