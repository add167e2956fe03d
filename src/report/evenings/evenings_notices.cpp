#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <optional>
#include <vector>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "html_text.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::report {

namespace {

constexpr core::Metres near_the_way{30.0};
constexpr std::string_view blank = "<span class=\"blank\"></span>";

std::string words(std::string_view key) {
    return html_text(core::said(key));
}

/// Something that may hurt people on their way.
struct Hazard {
    std::string what;
    std::string where;  ///< which posts; empty: everywhere
};

/// Of every round, an evening each: what `named` tells of its posts.
template <class Named>
std::string by_evening(const EveningsPaper& paper, const Named& named) {
    std::vector<std::string> evenings;
    for (const auto& evening : paper.plan.to_come.evenings) {
        std::vector<std::string> posts;
        for (const auto& round : evening.rounds)
            named(round, posts);
        if (posts.empty()) continue;
        evenings.push_back(
            core::said("hazards.evening", {{"date", date_in_words(evening.evening.date)},
                                           {"posts", fmt::format("{}", fmt::join(posts, ", "))}}));
    }
    return fmt::format("{}", fmt::join(evenings, "; "));
}

/// The posts that lie within reach of a shape.
void add_near(const EveningsPaper& paper, const std::vector<geo::Shape>& shapes, const std::string& what,
              std::vector<Hazard>& hazards) {
    const geo::NearestShape nearest(shapes);
    std::string where = by_evening(paper, [&](const evenings::Round& round, auto& posts) {
        for (std::size_t i = 0; i < round.posts.size(); ++i)
            if (nearest.nearest_within(paper.plan.to_come.places[round.posts[i].place].position,
                                       near_the_way))
                posts.push_back(post_name(paper.plan, round, i));
    });
    if (!where.empty()) hazards.push_back({what, std::move(where)});
}

void add_crossings(const EveningsPaper& paper, std::vector<Hazard>& hazards) {
    std::string where = by_evening(paper, [&](const evenings::Round& round, auto& posts) {
        for (const std::size_t i : roads_crossed(paper.plan, round))
            posts.push_back(post_name(paper.plan, round, i - 1) + "–" + post_name(paper.plan, round, i));
    });
    if (!where.empty()) hazards.push_back({core::said("hazards.crossing"), std::move(where)});
}

std::vector<Hazard> hazards_of(const EveningsPaper& paper) {
    const trees::Surroundings& around = paper.plan.surroundings;
    std::vector<Hazard> hazards;
    add_near(paper, around.water.shapes, core::said("hazards.water"), hazards);
    add_near(paper, around.roads.shapes, core::said("hazards.road"), hazards);
    add_crossings(paper, hazards);
    for (const auto& avoided : around.avoid)
        add_near(paper, avoided.shapes, avoided.reason, hazards);
    constexpr std::array everywhere{"hazards.dark", "hazards.branches", "hazards.people",
                                    "hazards.cold", "hazards.animals",  "hazards.way_home"};
    for (const char* key : everywhere)
        hazards.push_back({core::said(key), {}});
    return hazards;
}

}  // namespace

std::string notice_for_neighbours(const EveningsPaper& paper) {
    const evenings::ToCome& to_come = paper.plan.to_come;
    std::string items;
    for (const auto& evening : to_come.evenings)
        items += element(
            "li", html_text(core::said("notice.evening", {{"date", date_in_words(evening.evening.date)},
                                                          {"begin", paper.clock(evening.begin)},
                                                          {"end", paper.clock(evening.end)}})));
    for (const auto& spare : to_come.spare)
        items +=
            element("li", html_text(core::said("notice.spare", {{"date", date_in_words(spare.evening.date)},
                                                                {"begin", paper.clock(spare.begin)},
                                                                {"end", paper.clock(spare.end)}})));
    const std::string leader =
        to_come.settings.leader.empty() ? std::string(blank) : name(to_come.settings.leader);
    const std::string permission = to_come.settings.permission_from.empty()
                                       ? std::string(blank)
                                       : name(to_come.settings.permission_from);
    return element(
        "section class=\"notice\"",
        element("h2", html_text(core::said("notice.title", {{"site", paper.plan.settings.site_name}}))) +
            element("p", html_text(core::said("notice.who",
                                              {{"people", to_come.teams.size() * to_come.settings.team_size},
                                               {"teams", to_come.teams.size()}}))) +
            element("ul", items) + element("p", words("notice.what_they_do")) +
            element("p", element("b", words("card.leader")) + " " + leader) +
            element("p", element("b", words("card.permission")) + " " + permission));
}

std::string hazards_to_check(const EveningsPaper& paper) {
    std::vector<Row> rows;
    for (const Hazard& hazard : hazards_of(paper))
        rows.push_back({html_text(hazard.what),
                        hazard.where.empty() ? words("hazards.everywhere") : html_text(hazard.where), "",
                        ""});
    constexpr std::size_t rows_to_add = 2;
    rows.insert(rows.end(), rows_to_add, {"", "", "", ""});
    return element("section class=\"hazards\"",
                   element("h2", words("hazards.title")) +
                       element("p class=\"warn\"", words("hazards.not_yet")) +
                       table(core::said("hazards.title"),
                             {{core::said("hazards.what")},
                              {core::said("hazards.where")},
                              {core::said("hazards.control")},
                              {core::said("hazards.who")}},
                             rows) +
                       element("p", words("hazards.unknown")) +
                       element("p", words("hazards.signed") + " " + std::string(blank) + " " +
                                        words("hazards.date") + " " + std::string(blank)));
}

}  // namespace roostward::report
