#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
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

/// "quercus" and "Quercus robur", but not "Quercusoides".
bool starts_with_words(std::string_view species, std::string_view words) {
    const std::vector<std::string> wanted = core::plain_words(words), told = core::plain_words(species);
    return !wanted.empty() && told.size() >= wanted.size() &&
           std::equal(wanted.begin(), wanted.end(), told.begin());
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

core::Metres least_height(const Settings& settings) {
    return std::max(settings.min_height, settings.entrance + trunk_above_entrance);
}

std::optional<Reason> too_low(const Tree& tree, const Context& context) {
    const core::Metres needed = least_height(context.settings);
    if (!tree.height || *tree.height >= needed) return std::nullopt;
    return ruled_out("too low", {tree.height->value(), needed.value()},
                     core::said("reason.too_low",
                                {{"metres", rounded(tree.height->value(), 2)}, {"needed", rounded(needed)}}));
}

std::optional<Reason> height_not_told(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::height, tree.height)) return std::nullopt;
    const core::Metres needed = least_height(context.settings);
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

std::optional<Reason> kind_without_box(const Tree& tree, const Context& context) {
    if (!tree.no_box) return std::nullopt;
    const NoBoxKind& kind = *tree.no_box;
    const bool allowed = std::ranges::any_of(context.settings.allow, [&](const std::string& wanted) {
        return core::folded(wanted) == core::folded(kind.kind) || starts_with_words(kind.words, wanted) ||
               starts_with_words(tree.species, wanted);
    });
    if (allowed) return std::nullopt;
    return ruled_out("holds no box", {kind.words, nullptr},
                     core::said("reason.holds_no_box", {{"words", kind.words}, {"kind", kind.kind}}));
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
