#include "roostward/report/open_matters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/site_words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

bool was_checked(const plan::Plan& plan, std::string_view matter) {
    return std::ranges::any_of(
        plan.checks, [matter](const trees::Check& check) { return check.matter == matter && check.checked; });
}

std::string owner_of(const trees::Tree& tree) {
    return tree.owner.empty() ? core::said("stop.owner_unknown") : in_a_line(tree.owner);
}

Matter owner_matter(const trees::Tree& tree) {
    const auto told = [&](std::string_view key, std::string_view who) {
        return Matter{core::said("stop.owner"), core::said(key, {{"owner", owner_of(tree)}}),
                      who.empty() ? std::string() : core::said(who)};
    };
    if (!tree.permission) return told("stop.owner_not_asked", "settler.owner");
    switch (*tree.permission) {
        case trees::Permission::given:
            return told("stop.owner_yes", {});
        case trees::Permission::asked:
            return told("stop.owner_waits", "settler.owner");
        case trees::Permission::refused:
            break;
    }
    return told("stop.owner_refused", "settler.owner");
}

Matter inspection_matter(const trees::Tree& tree) {
    if (!tree.hazard || !tree.inspected)
        return {core::said("stop.inspection"), core::said("stop.not_inspected"),
                core::said("settler.arborist")};
    return {core::said("stop.inspection"),
            core::said("stop.inspected",
                       {{"hazard", hazard_in_words(*tree.hazard)}, {"date", core::to_text(*tree.inspected)}}),
            {}};
}

/// Every layer to keep away from is told with its distance: which of them is the power line, people know.
Matter lines_matter(const plan::Plan& plan, const siting::Candidate& candidate) {
    if (!was_checked(plan, "power lines"))
        return {core::said("stop.lines"), core::said("stop.lines_unchecked"), core::said("settler.network"),
                true};
    std::string text;
    for (std::size_t i = 0; i < candidate.avoid_distances.size(); ++i) {
        const trees::AvoidLayer& avoid = plan.surroundings.avoid[i];
        if (const auto& away = candidate.avoid_distances[i])
            text += (text.empty() ? "" : " ") +
                    core::said("stop.lines_far",
                               {{"what", in_a_line(avoid.reason.empty() ? avoid.file : avoid.reason)},
                                {"metres", fmt::format("{:.0f}", away->value())},
                                {"wanted", avoid.within.value()}});
    }
    return {core::said("stop.lines"), text.empty() ? core::said("stop.lines_none") : text, {}};
}

Matter holes_matter(const plan::Plan& plan) {
    if (!was_checked(plan, "hollows"))
        return {core::said("stop.holes"), core::said("stop.holes_unchecked"), core::said("settler.bats"),
                true};
    return {core::said("stop.holes"), core::said("stop.holes_none"), {}};
}

/// Who settles each of the matters that have no line of their own.
struct Settler {
    std::string_view matter, who;
};
constexpr std::array settlers{Settler{"planned works", "settler.officer"},
                              Settler{"roads", "settler.officer"}, Settler{"lamps", "settler.surveyor"},
                              Settler{"protected trees", "settler.officer"},
                              Settler{"roosts", "settler.bats"}};

}  // namespace

std::vector<Matter> matters_of(const plan::Plan& plan, std::size_t tree) {
    const trees::Tree& record = plan.trees.rows[tree];
    const siting::Candidate& candidate = plan.candidates[tree];
    std::vector<Matter> matters{owner_matter(record),
                                inspection_matter(record),
                                lines_matter(plan, candidate),
                                {core::said("stop.nests"), core::said("stop.nests_look"), {}},
                                holes_matter(plan),
                                {core::said("stop.season"), when_to_put_up(plan), {}}};
    for (const Settler& settler : settlers)
        if (!was_checked(plan, settler.matter))
            matters.push_back(
                {core::said("stop.also"),
                 core::said("stop.also_unchecked", {{"matter", core::shown("matter", settler.matter)}}),
                 core::said(settler.who), true});
    for (const trees::Reason& reason : candidate.verdict.reasons)
        if (reason.state == trees::State::settle_first)
            matters.push_back({core::said("stop.also"), reason.sentence, core::shown("who", reason.who)});
    return matters;
}

}  // namespace roostward::report
