#include "missing_values.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <span>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

using trees::Tree;
using trees::TreeField;

struct Wanted {
    TreeField field;
    const char* name;
    const char* what;  ///< a key of the catalogue
    bool (*told)(const Tree&);
};

constexpr std::array wanted{
    Wanted{TreeField::dbh, "dbh_cm", "missing.trunk", [](const Tree& t) { return t.dbh.has_value(); }},
    Wanted{TreeField::height, "height_m", "missing.height",
           [](const Tree& t) { return t.height.has_value(); }},
    Wanted{TreeField::condition, "condition", "missing.condition",
           [](const Tree& t) { return t.condition.has_value(); }},
    Wanted{TreeField::has_hollow, "has_hollow", "missing.hollows",
           [](const Tree& t) { return t.has_hollow.has_value(); }},
    Wanted{TreeField::protected_tree, "protected", "missing.protection",
           [](const Tree& t) { return t.protected_tree.has_value(); }},
    Wanted{TreeField::permission, "permission", "missing.permission",
           [](const Tree& t) { return t.permission.has_value(); }},
};

bool could_be_seen(core::PlanePoint place, const survey::Survey& survey) {
    return survey.even_effort() || std::ranges::any_of(survey.watches, [&](const survey::Watch& watch) {
               return std::ranges::any_of(watch.path, [&](core::PlanePoint stood) {
                   return core::distance(place, stood) <= 2.0 * watch.range;
               });
           });
}

}  // namespace

std::vector<MissingValue> missing_values(const plan::Checked& checked) {
    std::vector<std::size_t> judged;
    for (std::size_t i = 0; i < checked.trees.rows.size(); ++i)
        if (checked.screening || could_be_seen(checked.trees.rows[i].stem, checked.survey))
            judged.push_back(i);
    std::vector<MissingValue> all;
    for (const Wanted& value : wanted) {
        if (!checked.trees.columns.has(value.field)) continue;
        MissingValue missing{value.name, core::said(value.what), {}, judged.size()};
        std::ranges::copy_if(judged, std::back_inserter(missing.trees),
                             [&](std::size_t i) { return !value.told(checked.trees.rows[i]); });
        if (!missing.trees.empty()) all.push_back(std::move(missing));
    }
    return all;
}

std::vector<std::string> missing_columns(const trees::Inventory& inventory) {
    constexpr std::size_t always_wanted = 3;
    std::vector<std::string> missing;
    if (!inventory.given()) return missing;
    for (const Wanted& value : std::span(wanted).first(always_wanted))
        if (!inventory.columns.has(value.field)) missing.push_back(core::said(value.what));
    return missing;
}

}  // namespace roostward::report
