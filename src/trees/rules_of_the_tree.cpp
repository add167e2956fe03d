#include <algorithm>

#include "roostward/core/catalogue.hpp"
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
        core::said("reason.trunk_too_thin", {{"cm", rounded(*tree.dbh)}, {"needed", rounded(needed)}}));
}

std::optional<Reason> trunk_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::dbh, tree.dbh)) return std::nullopt;
    const core::Centimetres needed = context.settings.min_dbh;
    return to_settle("trunk not told", who::surveyor, {nullptr, needed.value()},
                     core::said("reason.trunk_not_told", {{"needed", rounded(needed)}}),
                     core::said("ask.trunk_not_told"));
}

std::optional<Reason> too_low(const Tree& tree, const Context& context) {
    const core::Metres needed = context.settings.min_height;
    if (!tree.height || *tree.height >= needed) return std::nullopt;
    return ruled_out("too low", {tree.height->value(), needed.value()},
                     core::said("reason.too_low",
                                {{"metres", rounded(tree.height->value(), 2)}, {"needed", rounded(needed)}}));
}

std::optional<Reason> height_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::height, tree.height)) return std::nullopt;
    const core::Metres needed = context.settings.min_height;
    return to_settle("height not told", who::surveyor, {nullptr, needed.value()},
                     core::said("reason.height_not_told", {{"needed", rounded(needed)}}),
                     core::said("ask.height_not_told"));
}

std::optional<Reason> unfit_condition(const Tree& tree, const Context& context) {
    const std::vector<Condition>& fit = context.settings.conditions;
    if (!tree.condition || std::find(fit.begin(), fit.end(), *tree.condition) != fit.end())
        return std::nullopt;
    const std::string_view found = to_text(*tree.condition);
    return ruled_out(
        "unfit condition", {found, names_of(fit)},
        core::said(*tree.condition == Condition::dead ? "reason.dead_tree" : "reason.unfit_condition",
                   {{"condition", core::shown("condition", found)}, {"needed", context.conditions}}));
}

std::optional<Reason> condition_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::condition, tree.condition)) return std::nullopt;
    return to_settle("condition not told", who::surveyor, {nullptr, names_of(context.settings.conditions)},
                     core::said("reason.condition_not_told", {{"needed", context.conditions}}),
                     core::said("ask.condition_not_told"));
}

std::optional<Reason> avoided_species(const Tree& tree, const Context& context) {
    for (const std::string& avoided : context.settings.avoid_species)
        if (starts_with_words(tree.species, avoided))
            return ruled_out("avoided species", {tree.species, nullptr},
                             core::said("reason.avoided_species", {{"species", capitalised(tree.species)}}));
    return std::nullopt;
}

std::optional<Reason> species_not_told(const Tree& tree, const Context& context) {
    const bool matters = !context.settings.avoid_species.empty();
    if (!matters || !context.columns.has(TreeField::species) || !tree.species.empty()) return std::nullopt;
    return to_settle("species not told", who::surveyor, {}, core::said("reason.species_not_told"),
                     core::said("ask.species_not_told"));
}

}  // namespace roostward::trees
