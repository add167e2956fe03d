#include "roostward/report/open_matters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/report/catalogue.hpp"
#include "roostward/report/hanging_words.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

bool was_checked(const plan::Plan& plan, std::string_view matter) {
    return std::ranges::any_of(
        plan.checks, [matter](const trees::Check& check) { return check.matter == matter && check.checked; });
}

std::string owner_of(const trees::Tree& tree) {
    return tree.owner.empty() ? said("stop.owner_unknown") : in_a_line(tree.owner);
}

Matter owner_matter(const trees::Tree& tree) {
    const auto told = [&](std::string_view key, std::string_view who) {
        return Matter{said("stop.owner"), said(key, {{"owner", owner_of(tree)}}),
                      who.empty() ? std::string() : said(who)};
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

std::string hazard_word(trees::Hazard hazard) {
    constexpr std::array words{"improbable", "possible", "probable", "imminent"};
    return said(fmt::format("stop.hazard.{}", words.at(static_cast<std::size_t>(hazard))));
}

Matter inspection_matter(const trees::Tree& tree) {
    if (!tree.hazard || !tree.inspected)
        return {said("stop.inspection"), said("stop.not_inspected"), said("settler.arborist")};
    return {said("stop.inspection"),
            said("stop.inspected",
                 {{"hazard", hazard_word(*tree.hazard)}, {"date", core::to_text(*tree.inspected)}}),
            {}};
}

/// Every layer to keep away from is told with its distance: which of them is the power line, people know.
Matter lines_matter(const plan::Plan& plan, const siting::Candidate& candidate) {
    if (!was_checked(plan, "power lines"))
        return {said("stop.lines"), said("stop.lines_unchecked"), said("settler.network"), true};
    std::string text;
    for (std::size_t i = 0; i < candidate.avoid_distances.size(); ++i) {
        const trees::AvoidLayer& avoid = plan.surroundings.avoid[i];
        if (const auto& away = candidate.avoid_distances[i])
            text +=
                (text.empty() ? "" : " ") +
                said("stop.lines_far", {{"what", in_a_line(avoid.reason.empty() ? avoid.file : avoid.reason)},
                                        {"metres", fmt::format("{:.0f}", away->value())},
                                        {"wanted", fmt::format("{:g}", avoid.within.value())}});
    }
    return {said("stop.lines"), text.empty() ? said("stop.lines_none") : text, {}};
}

Matter holes_matter(const plan::Plan& plan) {
    if (!was_checked(plan, "hollows"))
        return {said("stop.holes"), said("stop.holes_unchecked"), said("settler.bats"), true};
    return {said("stop.holes"), said("stop.holes_none"), {}};
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
                                {said("stop.nests"), said("stop.nests_look"), {}},
                                holes_matter(plan),
                                {said("stop.season"), when_to_put_up(plan), {}}};
    for (const Settler& settler : settlers)
        if (!was_checked(plan, settler.matter))
            matters.push_back({said("stop.also"),
                               said("stop.also_unchecked", {{"matter", std::string(settler.matter)}}),
                               said(settler.who), true});
    for (const trees::Reason& reason : candidate.verdict.reasons)
        if (reason.state == trees::State::settle_first)
            matters.push_back({said("stop.also"), reason.sentence, reason.who});
    return matters;
}

}  // namespace roostward::report
