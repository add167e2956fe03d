#include "roostward/io/field_map.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

/// A column that may hold a field, and what its name says about the unit.
struct Candidate {
    std::size_t column = 0;
    std::string_view unit;
    bool girth = false;
    bool exact = false;
};

class Finder {
 public:
    explicit Finder(const std::vector<std::string>& columns) : columns_(columns) {
        for (std::size_t i = 0; i < columns.size(); ++i)
            by_bare_word_.emplace_back(bare_word(columns[i]), i);
        std::sort(by_bare_word_.begin(), by_bare_word_.end());
    }

    /// All columns that may hold the field, best first.
    [[nodiscard]] std::vector<Candidate> candidates(const FieldSpec& spec) const {
        std::vector<Candidate> found;
        const auto add = [&](std::string_view word, std::string_view unit, bool girth) {
            for (auto it = first_of(word); it != by_bare_word_.end() && it->first == word; ++it) {
                const std::size_t i = it->second;
                const bool known = std::ranges::find(found, i, &Candidate::column) != found.end();
                if (!known) found.push_back({i, unit, girth, columns_[i] == spec.name});
            }
        };
        add(bare_word(spec.name), spec.unit, false);
        for (const Synonym& synonym : spec.synonyms)
            add(synonym.word, synonym.unit, synonym.girth);
        std::stable_partition(found.begin(), found.end(), [](const Candidate& c) { return c.exact; });
        return found;
    }

    /// The column of this name, as written or else with case and marks ignored.
    [[nodiscard]] std::optional<std::size_t> named(const std::string& name) const {
        const auto exact = std::find(columns_.begin(), columns_.end(), name);
        if (exact != columns_.end()) return static_cast<std::size_t>(exact - columns_.begin());
        const std::string word = bare_word(name);
        const auto alike = first_of(word);
        if (alike == by_bare_word_.end() || alike->first != word) return std::nullopt;
        return alike->second;
    }

 private:
    using Named = std::pair<std::string, std::size_t>;

    [[nodiscard]] std::vector<Named>::const_iterator first_of(std::string_view word) const {
        return std::lower_bound(by_bare_word_.begin(), by_bare_word_.end(), word,
                                [](const Named& named, std::string_view w) { return named.first < w; });
    }

    const std::vector<std::string>& columns_;
    std::vector<Named> by_bare_word_;  ///< of one word, the first column comes first
};

void set_unit(Field& field, std::string_view unit, bool girth, const InputSource& source) {
    field.girth = girth;
    if (field.dimension == Dimension::length && !unit.empty()) {
        const std::optional<double> micrometres = micrometres_in(unit);
        if (!micrometres) {
            throw core::Error(core::Fault::site_file, {{}, source.role, {}, field.name},
                              core::said("error.unknown_unit", {{"unit", unit}}));
        }
        field.factor = *micrometres / field.micrometres;
    }
    if (girth) field.factor /= std::numbers::pi;
}

std::string told_of(const Field& field, const std::string& column, std::string_view unit) {
    std::vector<std::string> how;
    if (field.girth) how.push_back(core::said("column.girth"));
    if (!unit.empty()) how.push_back(core::said("column.unit", {{"unit", unit}}));
    if (!field.values.empty()) how.push_back(core::said("column.words"));
    return fmt::format("{} ← {}{}", field.name, column,
                       how.empty() ? "" : fmt::format(" ({})", fmt::join(how, ", ")));
}

void require_known_fields(std::span<const FieldSpec> specs, const InputSource& source) {
    for (const auto& [name, from] : source.fields) {
        const std::string& wanted = name;
        if (std::any_of(specs.begin(), specs.end(),
                        [&](const FieldSpec& spec) { return spec.name == wanted; }))
            continue;
        std::vector<std::string_view> names;
        for (const FieldSpec& spec : specs)
            names.push_back(spec.name);
        throw core::Error(
            core::Fault::site_file, {{}, source.role, {}, name},
            core::said("error.no_such_field", {{"layer", source.role},
                                               {"field", name},
                                               {"fields", fmt::format("{}", fmt::join(names, ", "))}}));
    }
}

}  // namespace

FieldMap::FieldMap(std::span<const FieldSpec> specs, const std::vector<std::string>& columns,
                   const InputSource& source, LayerReport& report)
    : column_count_(columns.size()) {
    require_known_fields(specs, source);
    fields_.reserve(specs.size());
    const Finder finder(columns);
    for (const FieldSpec& spec : specs) {
        Field field{std::string(spec.name),
                    spec.dimension,
                    spec.dimension == Dimension::length ? micrometres_in(spec.unit).value() : 1e6,
                    {},
                    1.0,
                    false,
                    {}};
        std::string_view unit = spec.unit;
        const auto chosen = source.fields.find(field.name);
        if (chosen != source.fields.end()) {
            const FieldSource& from = chosen->second;
            field.column = finder.named(from.column);
            if (!field.column) {
                throw core::Error(core::Fault::inputs, {source.file, source.role, {}, field.name},
                                  core::said("error.no_such_column",
                                             {{"column", from.column},
                                              {"columns", fmt::format("{}", fmt::join(columns, ", "))}}));
            }
            if (!from.unit.empty()) unit = from.unit;
            field.values = from.values;
            set_unit(field, unit, from.girth, source);
        } else if (const std::vector<Candidate> candidates = finder.candidates(spec); !candidates.empty()) {
            const Candidate& best = candidates.front();
            field.column = best.column;
            if (!best.unit.empty()) unit = best.unit;
            set_unit(field, unit, best.girth, source);
            if (candidates.size() > 1 && !best.exact) {
                report.doubt_layer(
                    "two columns for one field", columns[candidates[1].column],
                    core::said("finding.two_columns", {{"field", field.name},
                                                       {"column", columns[best.column]},
                                                       {"other", columns[candidates[1].column]}}));
            }
        }
        if (field.column) told_.push_back(told_of(field, columns[*field.column], unit));
        fields_.push_back(std::move(field));
    }
}

const Field& FieldMap::at(std::string_view name) const {
    const auto found =
        std::find_if(fields_.begin(), fields_.end(), [&](const Field& f) { return f.name == name; });
    if (found == fields_.end())
        throw core::Error(core::Fault::internal, {{}, {}, {}, std::string(name)}, "no such field");
    return *found;
}

std::vector<bool> FieldMap::wanted() const {
    std::vector<bool> wanted(column_count_, false);
    for (const Field& field : fields_) {
        if (field.column) wanted[*field.column] = true;
    }
    return wanted;
}

}  // namespace roostward::io
