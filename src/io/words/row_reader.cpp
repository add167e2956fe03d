#include "roostward/io/row_reader.hpp"

#include <cmath>
#include <cstdint>
#include <numbers>

#include <fmt/format.h>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

std::string number_text(double value) {
    if (std::abs(value) < 1e15 && value == std::floor(value))
        return fmt::format("{}", static_cast<std::int64_t>(value));
    return fmt::format("{}", value);
}

/// Their word in ours: as written, else with case and marks ignored.
std::string mapped(const std::map<std::string, std::string>& values, std::string written) {
    if (const auto exact = values.find(written); exact != values.end()) return exact->second;
    const std::string bare = bare_word(written);
    for (const auto& [theirs, ours] : values) {
        if (bare_word(theirs) == bare) return ours;
    }
    return written;
}

}  // namespace

std::string RowReader::text(const Field& field) const {
    if (!field.column) return {};
    const Value& value = row_.values[*field.column];
    std::string written;
    if (const auto* text = std::get_if<std::string_view>(&value))
        written = *text;
    else if (const auto* number = std::get_if<double>(&value))
        written = number_text(*number);
    return field.values.empty() || written.empty() ? written : mapped(field.values, std::move(written));
}

void RowReader::tell(const Field& field, OtherwiseRow otherwise, const std::string& kind,
                     const std::string& value, const std::string& sentence) const {
    if (otherwise == OtherwiseRow::is_set_aside)
        report_.set_aside(field.name, kind, value, sentence);
    else
        report_.doubt(field.name, kind, value, core::said("finding.unknown_until", {{"sentence", sentence}}));
}

std::optional<double> RowReader::number_in_text(const Field& field, const std::string& written,
                                                OtherwiseRow otherwise) const {
    if (says_nothing(written)) return std::nullopt;
    const std::optional<WrittenNumber> number = read_number(written);
    if (!number) {
        tell(field, otherwise, "not a number", written, core::said("finding.not_a_number"));
        return std::nullopt;
    }
    if (!fits(number->unit, field.dimension)) {
        tell(field, otherwise, "unknown unit", written, core::said("finding.unknown_unit"));
        return std::nullopt;
    }
    if (number->below) {
        tell(field, otherwise, "only an upper end", written, core::said("finding.only_an_upper_end"));
        return std::nullopt;
    }
    if (number->range) {
        report_.doubt(field.name, "range", written, core::said("finding.range_of_numbers"));
    }
    const bool own_unit = field.dimension == Dimension::length && !number->unit.empty();
    if (!own_unit) return number->value * field.factor;
    const double across = field.girth ? std::numbers::inv_pi : 1.0;
    return number->value * *micrometres_in(number->unit) / field.micrometres * across;
}

std::optional<double> RowReader::number(const Field& field, Limits limits, OtherwiseRow otherwise) const {
    if (!field.column) return std::nullopt;
    const Value& cell = row_.values[*field.column];
    std::optional<double> value;
    const auto* plain = std::get_if<double>(&cell);
    if (plain != nullptr && field.values.empty())
        value = *plain * field.factor;
    else
        value = number_in_text(field, text(field), otherwise);
    if (!value || std::isnan(*value) || (limits.zero_is_unknown && *value == 0.0)) return std::nullopt;
    if (*value >= limits.least && *value <= limits.most) return value;
    const bool too_small = *value < limits.least;
    tell(field, otherwise, "impossible " + field.name, text(field),
         core::said(too_small ? "finding.too_small" : "finding.too_large",
                    {{"field", field.name}, {"limit", too_small ? limits.least : limits.most}}));
    return std::nullopt;
}

std::optional<bool> RowReader::yes_no(const Field& field) const {
    const std::string written = text(field);
    if (says_nothing(written)) return std::nullopt;
    const std::optional<bool> answer = read_yes_no(written);
    if (!answer)
        report_.doubt(field.name, "unknown " + field.name, written, unknown_word(field, "choices.yes_or_no"));
    return answer;
}

std::string RowReader::unknown_word(const Field& field, std::string_view choices) {
    return core::said("finding.unknown_word", {{"field", field.name}, {"choices", core::said(choices)}});
}

}  // namespace roostward::io
