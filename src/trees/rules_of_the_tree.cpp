#include <fmt/format.h>

#include <algorithm>

#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

core::List names_of(const std::vector<Condition>& conditions) {
    core::List names;
    for (const Condition condition : conditions)
        names.emplace_back(to_text(condition));
    return names;
}

char lower(char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

/// Letters, figures, and every byte of a letter that is not ASCII.
bool belongs_to_a_word(char letter) {
    const char small = lower(letter);
    return (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9') ||
           static_cast<unsigned char>(letter) >= 0x80;
}

/// Whether the species starts with the words, whatever their case: "quercus" and "Quercus robur", but not
/// "Quercusoides".
bool starts_with_words(std::string_view species, std::string_view words) {
    if (words.empty() || species.size() < words.size()) return false;
    const bool alike = std::equal(words.begin(), words.end(), species.begin(),
                                  [](char a, char b) { return lower(a) == lower(b); });
    return alike && (species.size() == words.size() || !belongs_to_a_word(species[words.size()]));
}

}  // namespace

std::optional<Reason> trunk_too_thin(const Tree& tree, const Context& context) {
    const core::Centimetres needed = context.settings.min_dbh;
    if (!tree.dbh || *tree.dbh >= needed) return std::nullopt;
    return ruled_out(
        "trunk too thin", {tree.dbh->value(), needed.value()},
        fmt::format("Trunk {} cm; a box of this kind needs {} cm.", plain(*tree.dbh), plain(needed)));
}

std::optional<Reason> trunk_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::dbh, tree.dbh)) return std::nullopt;
    const core::Centimetres needed = context.settings.min_dbh;
    return to_settle("trunk not told", who::surveyor, {nullptr, needed.value()},
                     fmt::format("Trunk diameter not told. Measure it: {} cm are needed.", plain(needed)),
                     "How thick is the trunk at breast height?");
}

std::optional<Reason> too_low(const Tree& tree, const Context& context) {
    const core::Metres needed = context.settings.min_height;
    if (!tree.height || *tree.height >= needed) return std::nullopt;
    return ruled_out("too low", {tree.height->value(), needed.value()},
                     fmt::format("Tree {} m high; a box of this kind needs {} m.",
                                 plain(tree.height->value(), 2), plain(needed)));
}

std::optional<Reason> height_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::height, tree.height)) return std::nullopt;
    const core::Metres needed = context.settings.min_height;
    return to_settle("height not told", who::surveyor, {nullptr, needed.value()},
                     fmt::format("Height not told. Measure it: {} m are needed.", plain(needed)),
                     "How tall is the tree?");
}

std::optional<Reason> unfit_condition(const Tree& tree, const Context& context) {
    const std::vector<Condition>& fit = context.settings.conditions;
    if (!tree.condition || std::find(fit.begin(), fit.end(), *tree.condition) != fit.end())
        return std::nullopt;
    const std::string found = *tree.condition == Condition::dead
                                  ? std::string("Dead tree")
                                  : fmt::format("Tree in {} condition", to_text(*tree.condition));
    return ruled_out("unfit condition", {to_text(*tree.condition), names_of(fit)},
                     fmt::format("{}; a box needs {} condition.", found, context.conditions));
}

std::optional<Reason> condition_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::condition, tree.condition)) return std::nullopt;
    return to_settle("condition not told", who::surveyor, {nullptr, names_of(context.settings.conditions)},
                     fmt::format("Condition not told. Look at the tree: {} is needed.", context.conditions),
                     "How does the tree grow: good, fair, poor or dead?");
}

std::optional<Reason> avoided_species(const Tree& tree, const Context& context) {
    for (const std::string& avoided : context.settings.avoid_species)
        if (starts_with_words(tree.species, avoided))
            return ruled_out(
                "avoided species", {tree.species, nullptr},
                fmt::format("{}: a species to avoid for a box of this kind.", capitalised(tree.species)));
    return std::nullopt;
}

std::optional<Reason> species_not_told(const Tree& tree, const Context& context) {
    const bool matters = !context.settings.avoid_species.empty();
    if (!matters || !context.columns.has(TreeField::species) || !tree.species.empty()) return std::nullopt;
    return to_settle("species not told", who::surveyor, {},
                     "Species not told. Name it: some species are to be avoided for a box of this kind.",
                     "Which species is it?");
}

}  // namespace roostward::trees
