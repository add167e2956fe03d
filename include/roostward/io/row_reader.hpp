#pragma once

#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "roostward/io/field_map.hpp"
#include "roostward/io/layer_report.hpp"
#include "roostward/io/row_source.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

/// What a number must be. Both ends are allowed.
struct Limits {
    double least = -std::numeric_limits<double>::infinity();
    double most = std::numeric_limits<double>::infinity();
    bool zero_is_unknown = false;
};

/// What to do with a row whose value cannot be read.
enum class OtherwiseRow { is_used, is_set_aside };

/// Reads the fields of one row. What it cannot read it tells the report; the value is then unknown.
class RowReader {
 public:
    RowReader(const SourceRow& row, LayerReport& report) : row_(row), report_(report) {}

    [[nodiscard]] const SourceRow& row() const { return row_; }
    [[nodiscard]] LayerReport& report() const { return report_; }

    /// In our words, where the site file maps values; empty where there is nothing.
    [[nodiscard]] std::string text(const Field& field) const;
    /// In the field's own unit. The lower end of a range is used, with a doubt.
    [[nodiscard]] std::optional<double> number(const Field& field, Limits limits = {},
                                               OtherwiseRow otherwise = OtherwiseRow::is_used) const;
    [[nodiscard]] std::optional<bool> yes_no(const Field& field) const;

    /// One of a list of words; `choices` is the catalogue's key of their names, as "good, fair, poor or
    /// dead".
    template <class Meaning>
    [[nodiscard]] std::optional<Meaning> word(const Field& field, std::span<const Word<Meaning>> words,
                                              std::string_view choices) const {
        const std::string written = text(field);
        if (says_nothing(written)) return std::nullopt;
        const std::optional<Meaning> meaning = read_word(written, words);
        if (!meaning)
            report_.doubt(field.name, "unknown " + field.name, written, unknown_word(field, choices));
        return meaning;
    }

 private:
    [[nodiscard]] std::optional<double> number_in_text(const Field& field, const std::string& written,
                                                       OtherwiseRow otherwise) const;
    void tell(const Field& field, OtherwiseRow otherwise, const std::string& kind, const std::string& value,
              const std::string& sentence) const;
    [[nodiscard]] static std::string unknown_word(const Field& field, std::string_view choices);

    const SourceRow& row_;
    LayerReport& report_;
};

}  // namespace roostward::io
