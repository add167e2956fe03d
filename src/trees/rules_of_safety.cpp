#include <fmt/format.h>

#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

std::string_view to_text(Hazard hazard) {
    switch (hazard) {
        case Hazard::improbable:
            return "improbable";
        case Hazard::possible:
            return "possible";
        case Hazard::probable:
            return "probable";
        case Hazard::imminent:
            return "imminent";
    }
    return {};
}

core::Document text_of(const std::optional<core::Date>& date) {
    return date ? core::Document(core::to_text(*date)) : core::Document();
}

/// What a judgement of safety is held against: "since 2023-06-12".
core::Document since(const std::optional<core::Date>& first) {
    return first ? core::Document("since " + core::to_text(*first)) : core::Document();
}

bool counts(const std::optional<core::Date>& inspected, const Context& context) {
    return inspected && context.first_inspection && *inspected >= *context.first_inspection;
}

/// "judged without a date", "judged on 2019-05-01, more than 3 years ago".
std::string when_judged(const std::optional<core::Date>& inspected, const Context& context) {
    if (!inspected) return "judged without a date";
    return fmt::format("judged on {}, more than {} ago", core::to_text(*inspected),
                       in_years(context.settings.inspection_years));
}

}  // namespace

std::optional<Reason> likely_to_fail(const Tree& tree, const Context&) {
    if (tree.hazard != Hazard::probable && tree.hazard != Hazard::imminent) return std::nullopt;
    return ruled_out(
        "likely to fail", {to_text(*tree.hazard), "improbable"},
        fmt::format("Failure of this tree is judged {}. Keep away from it.", to_text(*tree.hazard)));
}

std::optional<Reason> may_fail(const Tree& tree, const Context& context) {
    if (tree.hazard != Hazard::possible || counts(tree.inspected, context)) return std::nullopt;
    return to_settle(
        "may fail", who::arborist, {text_of(tree.inspected), since(context.first_inspection)},
        fmt::format("Failure of this tree is possible, {}. An arborist must sign it off, with a date.",
                    when_judged(tree.inspected, context)),
        "Is the tree safe to climb and to hang on? Sign it off, with a date.");
}

std::optional<Reason> judged_too_long_ago(const Tree& tree, const Context& context) {
    const bool dates_told = context.columns.has(TreeField::inspected);
    if (!dates_told || tree.hazard != Hazard::improbable || counts(tree.inspected, context))
        return std::nullopt;
    return to_settle(
        "safety outdated", who::tree_officer, {text_of(tree.inspected), since(context.first_inspection)},
        fmt::format("Safety was {}. Have it judged again.", when_judged(tree.inspected, context)),
        "Is the tree still safe? Judge it again, with a date.");
}

std::optional<Reason> safety_not_judged(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::hazard, tree.hazard)) return std::nullopt;
    return to_settle("safety not judged", who::tree_officer, {nullptr, "improbable"},
                     "Nobody has judged its safety. Condition says how it grows, not whether it is safe.",
                     "Is the tree safe to climb and to hang on? Judge it, with a date.");
}

std::optional<Reason> work_planned(const Tree& tree, const Context& context) {
    if (tree.planned_work.empty() && !tree.work_due) return std::nullopt;
    const std::optional<core::Date>& last_day = context.last_day_of_works;
    if (tree.work_due && last_day && *tree.work_due > *last_day) return std::nullopt;
    const std::string work = tree.planned_work.empty() ? "work" : fmt::format("work ({})", tree.planned_work);
    const std::string due = tree.work_due
                                ? fmt::format("Planned {} due {}", work, core::to_text(*tree.work_due))
                                : fmt::format("Planned {}, no date told", work);
    const core::Document required =
        last_day ? core::Document("after " + core::to_text(*last_day)) : core::Document();
    return to_settle("planned work", who::tree_officer, {text_of(tree.work_due), required},
                     due + ": a used box would stop it.",
                     "Will this work go ahead, and when? A used box would stop it.");
}

}  // namespace roostward::trees
