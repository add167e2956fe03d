#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"
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

std::string post_name(const plan::EveningsPlan& plan, const evenings::Round& round, std::size_t post) {
    return (plan.to_come.teams.size() > 1 ? std::to_string(round.team + 1) : "") + post_letter(post);
}

std::vector<std::size_t> roads_crossed(const plan::EveningsPlan& plan, const evenings::Round& round) {
    const auto place = [&](std::size_t post) {
        return plan.to_come.places[round.posts[post].place].position;
    };
    std::vector<std::size_t> legs;
    for (std::size_t i = 1; i < round.posts.size(); ++i)
        if (!geo::crossings({place(i - 1), place(i)}, plan.surroundings.roads.shapes).empty())
            legs.push_back(i);
    return legs;
}

std::string map_key(const plan::EveningsPlan& plan) {
    std::string key = core::said("evenings.map_key");
    const auto add = [&key](bool given, std::string_view sign) {
        if (given) key += " " + core::said(sign);
    };
    add(!plan.surroundings.allowed_area.empty(), "evenings.map_key.area");
    add(!plan.paths.empty(), "evenings.map_key.paths");
    add(!plan.surroundings.water.shapes.empty(), "evenings.map_key.water");
    add(!plan.surroundings.roads.shapes.empty(), "evenings.map_key.roads");
    add(!plan.keep_out.empty(), "evenings.map_key.keep_out");
    return key;
}

}  // namespace roostward::report
