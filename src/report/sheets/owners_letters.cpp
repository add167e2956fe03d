#include <algorithm>
#include <vector>

#include "html_text.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

struct Owner {
    std::string name;  ///< empty: not told
    std::vector<std::size_t> trees;
};

std::vector<Owner> owners_of(const plan::Plan& plan) {
    std::vector<Owner> owners;
    for (const std::size_t tree : plan.chosen) {
        const std::string& name = plan.trees.rows[tree].owner;
        auto owner = std::ranges::find_if(owners, [asked = core::folded(name)](const Owner& known) {
            return core::folded(known.name) == asked;
        });
        if (owner == owners.end()) owner = owners.insert(owner, {name, {}});
        owner->trees.push_back(tree);
    }
    return owners;
}

bool said_yes(const plan::Plan& plan, const Owner& owner) {
    return std::ranges::all_of(owner.trees, [&plan](std::size_t tree) {
        return plan.trees.rows[tree].permission == trees::Permission::given;
    });
}

std::string trees_of(const Sheets& sheets, const Owner& owner) {
    std::string items;
    for (const std::size_t tree : owner.trees) {
        const trees::Tree& record = sheets.plan.trees.rows[tree];
        items += element("li", element("b", name(record.id)) + " " + element("i", name(record.species)) +
                                   "<br>" + html_text(sheets.ways.to(tree)));
    }
    return element("ul", items);
}

std::string to_fill_in(std::string_view key) {
    return element("div", element("span", html_text(core::said(key))));
}

/// Blank, to be filled in, where it is not told or is not the same for all trees.
std::string year_five(const plan::Plan& plan, const Owner& owner) {
    const std::string& first = looked_after_by(plan, owner.trees.front());
    const bool same = std::ranges::all_of(
        owner.trees, [&](std::size_t tree) { return looked_after_by(plan, tree) == first; });
    if (first.empty() || !same) return to_fill_in("letter.year_five");
    return element("div", element("span", html_text(core::said("letter.year_five"))) + " " + name(first));
}

std::string answers(const std::string& in_year_five) {
    std::string lines;
    for (const char* answer : {"letter.yes", "letter.some", "letter.no", "letter.call"})
        lines +=
            element("div", element("span", "<span class=\"tick\"></span> " + html_text(core::said(answer))));
    return element("div class=\"to-fill-in\"",
                   lines + in_year_five + to_fill_in("letter.signed") + to_fill_in("letter.date"));
}

std::string letter_to(const Sheets& sheets, const Owner& owner) {
    const plan::Plan& plan = sheets.plan;
    const std::string to = owner.name.empty() ? html_text(core::said("letter.to_unknown"))
                                              : html_text(core::said("letter.to", {{"owner", owner.name}}));
    std::string text =
        sheet_head(plan, core::said("letter.title")) + element("h3", element("bdi", to)) +
        element("div class=\"to-fill-in\"", to_fill_in("letter.from") + to_fill_in("letter.date"));
    if (said_yes(plan, owner)) text += element("p", html_text(core::said("letter.said_yes")));
    text += element("p", html_text(owners_paragraph(plan, owner.trees))) +
            element("h4", html_text(core::said("letter.trees"))) + trees_of(sheets, owner) +
            element("h4", html_text(core::said("letter.why"))) +
            element("p", html_text(core::said("letter.why_is",
                                              {{"evenings", std::to_string(plan.survey.evenings.size())},
                                               {"caveat", caveat(plan)}}))) +
            element("h4", html_text(core::said("letter.answer"))) + answers(year_five(plan, owner)) +
            unchecked_note(plan);
    std::string small;
    for (const Caution& caution : cautions())
        if (caution.matter == "tree" || caution.matter == "honesty")
            small += (small.empty() ? "" : " ") + html_text(caution.text);
    return element("article class=\"paper letter\"", text + element("p class=\"small\"", small)) + "\n";
}

}  // namespace

std::string owners_letters(const Sheets& sheets) {
    std::string all;
    for (const Owner& owner : owners_of(sheets.plan))
        all += letter_to(sheets, owner);
    return all;
}

}  // namespace roostward::report
