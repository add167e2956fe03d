#include "compare_causes.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

using core::Document;

/// Members of a list by the text of one of their keys, in the order of the texts.
std::map<std::string_view, const Document*> by(std::string_view key, const Document& list) {
    std::map<std::string_view, const Document*> members;
    for (const Document& member : list.list())
        members.emplace(member.at(key).text(), &member);
    return members;
}

/// Of every name in one of both lists what `say` tells of its members, null where it is in one only.
template <class Say>
std::vector<std::string> sentences_about(std::string_view key, const Document& before, const Document& after,
                                         const Say& say) {
    static const Document nothing;
    auto old = by(key, before), fresh = by(key, after);
    for (const auto& [name, member] : old)
        fresh.emplace(name, &nothing);
    std::vector<std::string> sentences;
    for (const auto& [name, member] : fresh) {
        const auto was = old.find(name);
        std::string sentence = say(name, was == old.end() ? nothing : *was->second, *member);
        if (!sentence.empty()) sentences.push_back(std::move(sentence));
    }
    return sentences;
}

std::string about_input(std::string_view role, const Document& before, const Document& after) {
    if (before.at("sha256") == after.at("sha256") && !before.is_null() && !after.is_null()) return {};
    return core::said(
        before.is_null()  ? "compare.file_is_new"
        : after.is_null() ? "compare.file_is_gone"
                          : "compare.other_file",
        {{"role", role}, {"now", after.at("file").text()}, {"before", before.at("file").text()}});
}

std::string about_rows(std::string_view layer, const Document& before, const Document& after) {
    if (before.is_null() || after.is_null()) return {};
    const auto used = [](const Document& rows) { return rows.at("used").number().value_or(0.0); };
    if (used(before) == used(after)) return {};
    return core::said("compare.rows", {{"layer", layer}, {"now", used(after)}, {"before", used(before)}});
}

std::string about_evening(std::string_view evening, const Document& before, const Document& after) {
    if (before.is_null()) return core::said("compare.evening_is_new", {{"evening", evening}});
    if (after.is_null()) return core::said("compare.evening_is_gone", {{"evening", evening}});
    const auto seen = [](const Document& of) {
        return core::said("compare.seen", {{"flights", of.at("flights").number().value_or(0.0)},
                                           {"hours", of.at("watch_hours").number().value_or(0.0)}});
    };
    if (seen(before) == seen(after)) return {};
    return core::said("compare.evening",
                      {{"evening", evening}, {"now", seen(after)}, {"before", seen(before)}});
}

std::string about_setting(std::string_view key, const Document& before, const Document& after) {
    const Document &old = before.at("value"), &now = after.at("value");
    if (old == now) return {};
    const auto told = [](const Document& value) {
        return value.is_null() ? core::said("compare.nothing") : core::to_json(value);
    };
    return core::said("compare.setting", {{"key", key}, {"now", told(now)}, {"before", told(old)}});
}

/// Where settings whose key begins so are told.
struct Group {
    std::string_view title;
    std::string_view key;
};
constexpr std::string_view weights = "compare.weights", rules = "compare.rules",
                           others = "compare.other_settings";
constexpr std::array<Group, 3> groups{{{weights, "weights."}, {rules, "suitability."}, {rules, "avoid"}}};

std::string_view title_of(std::string_view key) {
    for (const Group& group : groups)
        if (key.starts_with(group.key)) return group.title;
    return others;
}

std::vector<Changes> about_settings(const Document& before, const Document& after) {
    std::vector<Changes> changes{{weights, {}}, {rules, {}}, {others, {}}};
    for (Changes& group : changes)
        group.sentences = sentences_about(
            "key", before, after, [&group](std::string_view key, const Document& was, const Document& is) {
                return title_of(key) == group.title ? about_setting(key, was, is) : std::string();
            });
    return changes;
}

Changes about_program(const Document& before, const Document& after) {
    Changes changes{"compare.program", {}};
    constexpr std::array<std::array<std::string_view, 2>, 2> facts{
        {{"version", "compare.version"}, {"seed", "compare.seed"}}};
    for (const auto& [what, sentence] : facts)
        if (before.at(what) != after.at(what))
            changes.sentences.push_back(core::said(sentence, {{"now", core::to_json(after.at(what))},
                                                              {"before", core::to_json(before.at(what))}}));
    return changes;
}

}  // namespace

std::vector<Changes> not_empty(std::vector<Changes> groups) {
    std::erase_if(groups, [](const Changes& group) { return group.sentences.empty(); });
    return groups;
}

std::vector<Changes> causes_of(const FinishedPlan& before, const FinishedPlan& after) {
    const Document &old = before.plan, &now = after.plan;
    std::vector<Changes> causes{
        {"compare.data", sentences_about("role", old.at("inputs"), now.at("inputs"), about_input)}};
    for (std::string& sentence : sentences_about("layer", old.at("rows"), now.at("rows"), about_rows))
        causes.front().sentences.push_back(std::move(sentence));
    causes.push_back({"compare.evenings", sentences_about("evening", old.at("summary").at("evenings"),
                                                          now.at("summary").at("evenings"), about_evening)});
    for (Changes& group : about_settings(old.at("parameters"), now.at("parameters")))
        causes.push_back(std::move(group));
    causes.push_back(about_program(old, now));
    return not_empty(std::move(causes));
}

}  // namespace roostward::report
