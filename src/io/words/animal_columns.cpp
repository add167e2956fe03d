#include "words/animal_columns.hpp"

#include <fmt/format.h>

#include "layers/layer_opening.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

/// Longer texts are remarks, and name no animal plainly.
constexpr std::size_t longest_name = 60;

bool counts_not(const survey::AnimalMeaning& meaning) {
    return meaning.fit == survey::AnimalFit::another || meaning.fit == survey::AnimalFit::noise;
}

}  // namespace

FieldSpec animal_field() {
    return {"animal",
            {},
            Dimension::plain,
            {{"species"},        {"speciesname"},  {"taxon"},       {"taxonname"},  {"commonname"},
             {"scientificname"}, {"latinname"},    {"animalname"},  {"animalseen"}, {"whatanimal"},
             {"whatwasseen"},    {"whatseen"},     {"what"},        {"seen"},       {"kind"},
             {"identification"}, {"identifiedas"}, {"art"},         {"tierart"},    {"tier"},
             {"artname"},        {"espece"},       {"esp\u00E8ce"}, {"especie"},    {"specie"},
             {"soort"},          {"dier"},         {"djur"},        {"dyr"},        {"laji"},
             {"gatunek"},        {"druh"},         {"esp\u00E9cie"}}};
}

AnimalColumns::AnimalColumns(OpenLayer& layer, const survey::AnimalDictionary& dictionary,
                             const InputSource& source)
    : animal_(layer.fields.at("animal")), words_(dictionary, source.counts) {
    const std::vector<bool> taken = layer.wanted();
    const std::vector<std::string>& columns = layer.rows->columns();
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (taken[i]) continue;
        others_.push_back({i, columns[i]});
        layer.further.push_back(i);
    }
}

std::string AnimalColumns::animal_in(const RowReader& row) {
    std::string animal = row.text(animal_);
    for (Column& other : others_) {
        const auto* text = std::get_if<std::string_view>(&row.row().values[other.column]);
        if (text == nullptr || text->empty() || text->size() > longest_name) continue;
        const std::string written(*text);
        const survey::AnimalMeaning& meaning = words_.meaning_of(written);
        if (!meaning.plainly || !meaning.says_which) continue;
        ++other.rows[meaning.group];
        const bool said_to_count = !animal.empty() && !counts_not(words_.meaning_of(animal));
        if (counts_not(meaning) && (animal.empty() || said_to_count)) animal = written;
    }
    return animal;
}

void AnimalColumns::tell(LayerReport& report) const {
    for (const Column& other : others_) {
        std::vector<std::string> groups;
        for (const auto& [group, rows] : other.rows)
            groups.push_back(fmt::format("{} ({})", group, rows));
        if (!groups.empty())
            report.doubt_layer("column of animals", other.name,
                               core::said("finding.column_of_animals",
                                          {{"animals", core::all_of(groups)}, {"column", other.name}}));
    }
}

}  // namespace roostward::io
