#include "roostward/core/catalogue.hpp"
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
    return first ? core::Document(core::said("reason.since", {{"date", core::to_text(*first)}}))
                 : core::Document();
}

bool counts(const std::optional<core::Date>& inspected, const Context& context) {
    return inspected && context.first_inspection && *inspected >= *context.first_inspection;
}

/// "judged without a date", "judged on 2019-05-01, more than 3 years ago".
std::string when_judged(const std::optional<core::Date>& inspected, const Context& context) {
    if (!inspected) return core::said("reason.judged_without_date");
    return core::said("reason.judged_on", {{"date", core::to_text(*inspected)},
                                           {"years", in_years(context.settings.inspection_years)}});
}

/// "Planned work (fell) due 2028-11-01: a used box would stop it."
std::string what_is_planned(const Tree& tree) {
    const std::string work = tree.planned_work.empty()
                                 ? core::said("reason.work")
                                 : core::said("reason.work_of_kind", {{"kind", tree.planned_work}});
    if (!tree.work_due) return core::said("reason.work_no_date", {{"work", work}});
    return core::said("reason.work_due", {{"work", work}, {"date", core::to_text(*tree.work_due)}});
}

}  // namespace

std::optional<Reason> likely_to_fail(const Tree& tree, const Context&) {
    if (tree.hazard != Hazard::probable && tree.hazard != Hazard::imminent) return std::nullopt;
    const std::string_view hazard = to_text(*tree.hazard);
    return ruled_out("likely to fail", {hazard, "improbable"},
                     core::said("reason.likely_to_fail", {{"hazard", core::shown("hazard", hazard)}}));
}

std::optional<Reason> may_fail(const Tree& tree, const Context& context) {
    if (tree.hazard != Hazard::possible || counts(tree.inspected, context)) return std::nullopt;
    return to_settle("may fail", who::arborist, {text_of(tree.inspected), since(context.first_inspection)},
                     core::said("reason.may_fail", {{"judged", when_judged(tree.inspected, context)}}),
                     core::said("ask.may_fail"));
}

std::optional<Reason> judged_too_long_ago(const Tree& tree, const Context& context) {
    const bool dates_told = context.columns.has(TreeField::inspected);
    if (!dates_told || tree.hazard != Hazard::improbable || counts(tree.inspected, context))
        return std::nullopt;
    return to_settle("safety outdated", who::tree_officer,
                     {text_of(tree.inspected), since(context.first_inspection)},
                     core::said("reason.safety_outdated", {{"judged", when_judged(tree.inspected, context)}}),
                     core::said("ask.safety_outdated"));
}

std::optional<Reason> safety_not_judged(const Tree& tree, const Context& context) {
    if (!context.left_blank(TreeField::hazard, tree.hazard)) return std::nullopt;
    return to_settle("safety not judged", who::tree_officer, {nullptr, "improbable"},
                     core::said("reason.safety_not_judged"), core::said("ask.safety_not_judged"));
}

std::optional<Reason> work_planned(const Tree& tree, const Context& context) {
    if (tree.planned_work.empty() && !tree.work_due) return std::nullopt;
    const std::optional<core::Date>& last_day = context.last_day_of_works;
    if (tree.work_due && last_day && *tree.work_due > *last_day) return std::nullopt;
    const core::Document required =
        last_day ? core::Document(core::said("reason.after", {{"date", core::to_text(*last_day)}}))
                 : core::Document();
    return to_settle("planned work", who::tree_officer, {text_of(tree.work_due), required},
                     what_is_planned(tree), core::said("ask.planned_work"));
}

}  // namespace roostward::trees
