#include "roostward/io/no_tree.hpp"

#include <algorithm>
#include <array>

#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

using namespace std::string_view_literals;

// Everyday words of inventories, from memory; as parted_words gives them.
/// Whatever follows them.
constexpr std::array beginnings = {
    // English
    "stump"sv, "tree stump"sv, "vacant"sv, "empty site"sv, "empty pit"sv, "empty tree pit"sv,
    "planting site"sv, "planting space"sv, "planting location"sv, "planting pit"sv, "available site"sv,
    "no room"sv, "no tree"sv, "not a tree"sv, "tree removed"sv, "removed tree"sv, "tree felled"sv,
    "felled tree"sv, "under process for plant"sv, "to be planted"sv, "not planted"sv, "homeowner refused"sv,
    "resident refused"sv, "unsuitable site"sv,
    // German
    "stumpf"sv, "baumstumpf"sv, "stubben"sv, "fehlstelle"sv, "leerstelle"sv, "leere baumscheibe"sv,
    "pflanzstelle"sv, "kein baum"sv, "baum gefällt"sv, "baum entfernt"sv,
    // French
    "souche"sv, "emplacement vide"sv, "emplacement libre"sv, "fosse vide"sv, "arbre abattu"sv,
    "arbre absent"sv, "pas d arbre"sv, "à planter"sv, "non planté"sv,
    // Spanish
    "tocón"sv, "tocon"sv, "alcorque vacío"sv, "alcorque vacio"sv, "sin árbol"sv, "sin arbol"sv, "marra"sv,
    // Italian
    "ceppaia"sv, "posto vuoto"sv, "posto pianta vuoto"sv, "albero abbattuto"sv, "nessun albero"sv,
    // Dutch
    "stobbe"sv, "boomstronk"sv, "lege plek"sv, "lege boomspiegel"sv, "lege plantplaats"sv, "geen boom"sv,
    // Portuguese
    "caldeira vazia"sv, "cova vazia"sv, "sem árvore"sv, "sem arvore"sv,
    // Danish, Swedish, Norwegian
    "træstub"sv, "tom plads"sv, "intet træ"sv, "stubbe"sv, "tom plats"sv, "inget träd"sv, "trestubbe"sv,
    // Finnish, Polish, Czech
    "tyhjä paikka"sv, "pniak"sv, "puste miejsce"sv, "brak drzewa"sv, "pařez"sv, "prázdné místo"sv};

/// Only where nothing else stands beside them, since they also begin other things.
constexpr std::array whole = {
    "empty"sv,           "removed"sv,   "felled"sv,     "gone"sv,      "missing"sv,
    "cut down"sv,        "refused"sv,   "gefällt"sv,    "entfernt"sv,  "leer"sv,
    "nicht vorhanden"sv, "abattu"sv,    "essouché"sv,   "vide"sv,      "absent"sv,
    "vacío"sv,           "vacio"sv,     "talado"sv,     "eliminado"sv, "ceppo"sv,
    "vuoto"sv,           "abbattuto"sv, "assente"sv,    "stronk"sv,    "leeg"sv,
    "geveld"sv,          "gekapt"sv,    "verwijderd"sv, "toco"sv,      "cepo"sv,
    "vazio"sv,           "abatido"sv,   "stub"sv,       "fældet"sv,    "fjernet"sv,
    "fälld"sv,           "borttagen"sv, "felt"sv,       "kanto"sv,     "kaadettu"sv,
    "karpa"sv,           "usunięte"sv,  "wycięte"sv,    "pokácen"sv,   "pokáceno"sv};

/// Columns that tell what stands there, as bare_word gives them.
constexpr std::array kind_columns = {
    "species"sv,    "speciesname"sv, "commonname"sv,    "botanicalname"sv, "scientificname"sv,
    "latinname"sv,  "genus"sv,       "genusname"sv,     "treename"sv,      "treetype"sv,
    "type"sv,       "sitetype"sv,    "kind"sv,          "category"sv,      "status"sv,
    "treestatus"sv, "state"sv,       "condition"sv,     "health"sv,        "baumart"sv,
    "art"sv,        "gattung"sv,     "zustand"sv,       "baumname"sv,      "essence"sv,
    "espece"sv,     "espèce"sv,      "genre"sv,         "etat"sv,          "état"sv,
    "nom"sv,        "nomfrancais"sv, "especie"sv,       "género"sv,        "genero"sv,
    "estado"sv,     "nombrecomun"sv, "specie"sv,        "stato"sv,         "nomecomune"sv,
    "soort"sv,      "boomsoort"sv,   "boomsoortnaam"sv, "toestand"sv,      "espécie"sv,
    "træart"sv,     "trædart"sv,     "trädart"sv,       "tilstand"sv,      "laji"sv,
    "gatunek"sv,    "stan"sv,        "druh"sv};

/// Lower case, everything that is no letter one space: "STUMP - 24 in" → "stump in".
std::string parted_words(std::string_view text) {
    std::string words;
    for (const char c : lower_case(text)) {
        const auto byte = static_cast<unsigned char>(c);
        const bool letter = (c >= 'a' && c <= 'z') || byte >= 0x80U;
        if (letter)
            words.push_back(c);
        else if (!words.empty() && words.back() != ' ')
            words.push_back(' ');
    }
    while (!words.empty() && words.back() == ' ')
        words.pop_back();
    return words;
}

bool begins_with(std::string_view words, std::string_view phrase) {
    return words.substr(0, phrase.size()) == phrase &&
           (words.size() == phrase.size() || words[phrase.size()] == ' ');
}

}  // namespace

bool names_no_tree(std::string_view text) {
    const std::string words = parted_words(text);
    return std::ranges::find(whole, words) != whole.end() ||
           std::ranges::any_of(beginnings, [&](std::string_view b) { return begins_with(words, b); });
}

KindColumns::KindColumns(const std::vector<std::string>& columns) : names_(columns) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (std::ranges::find(kind_columns, bare_word(columns[i])) != kind_columns.end())
            columns_.push_back(i);
    }
}

std::optional<KindColumns::Told> KindColumns::no_tree_in(const SourceRow& row) const {
    for (const std::size_t column : columns_) {
        const auto* const text = std::get_if<std::string_view>(&row.values[column]);
        if (text == nullptr || text->empty()) continue;
        const auto [entry, is_new] = known_.try_emplace(std::string(*text), false);
        if (is_new) entry->second = names_no_tree(*text);
        if (entry->second) return Told{column, entry->first};
    }
    return std::nullopt;
}

}  // namespace roostward::io
