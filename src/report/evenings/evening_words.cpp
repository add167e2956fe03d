#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "evenings/evenings_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/figures.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t trees_named = 2;

std::string_view key_of_reason(evenings::Because because) {
    switch (because) {
        case evenings::Because::new_ground:
            return "evenings.why.new_ground";
        case evenings::Because::again:
            return "evenings.why.again";
        case evenings::Because::between:
            return "evenings.why.between";
        case evenings::Because::confirm:
            return "evenings.why.confirm";
    }
    return "evenings.why.new_ground";
}

}  // namespace

std::string date_in_words(core::Date date) {
    const std::chrono::weekday weekday{std::chrono::sys_days(date)};
    return core::said("evenings.date",
                      {{"weekday", core::said(fmt::format("weekday.{}", weekday.c_encoding()))},
                       {"day", static_cast<unsigned>(date.day())},
                       {"month", core::said(fmt::format("month.{}", static_cast<unsigned>(date.month())))},
                       {"year", static_cast<int>(date.year())}});
}

std::string go_rule(const plan::EveningsPlan& plan) {
    const survey::Settings& survey = plan.settings.survey;
    return core::said("evenings.go_if",
                      {{"coldest", survey.coldest.value()}, {"windiest", survey.windiest.value()}});
}

std::string post_in_words(const EveningsPaper& paper, const evenings::Post& post) {
    const evenings::Place& place = paper.plan.to_come.places[post.place];
    const std::string way = paper.ways.to(place.position);
    return place.name.empty() ? way
                              : core::said("evenings.at_station", {{"station", place.name}, {"way", way}});
}

std::string look_in_words(const plan::EveningsPlan& plan, const evenings::Post& post) {
    if (!post.view) return core::said("evenings.look_all_round");
    const core::Degrees look = core::normalised(post.view->look + plan.meridian_convergence);
    return core::said("evenings.look", {{"way", compass_words(look)},
                                        {"degrees", whole_degrees(look)},
                                        {"width", whole_degrees(post.view->width)}});
}

std::string reason_in_words(const plan::EveningsPlan& plan, const evenings::Reason& reason) {
    std::vector<std::string> named;
    for (std::size_t i = 0; i < std::min(trees_named, reason.concerned.size()); ++i)
        named.push_back(plan.trees.rows[reason.concerned[i]].id);
    const core::Filling names{"named", core::all_of(named)};
    const std::string_view key = key_of_reason(reason.because);
    return core::said_for(reason.trees, key, {names});
}

}  // namespace roostward::report
