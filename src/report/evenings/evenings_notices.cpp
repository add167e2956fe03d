#include <fmt/format.h>

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

/// The posts of all rounds that lie within reach of a shape, as "12 June 1A".
std::vector<std::string> posts_near(const EveningsPaper& paper, const geo::NearestShape& shapes) {
    std::vector<std::string> near;
    for (const auto& evening : paper.plan.to_come.evenings)
        for (const auto& round : evening.rounds)
            for (std::size_t i = 0; i < round.posts.size(); ++i) {
                const core::PlanePoint at = paper.plan.to_come.places[round.posts[i].place].position;
                if (shapes.nearest_within(at, near_the_way))
                    near.push_back(
                        core::said("hazards.post", {{"date", core::to_text(evening.evening)},
                                                    {"team", paper.plan.to_come.teams[round.team].name},
                                                    {"post", post_letter(i)}}));
            }
    return near;
}

void add_near(const EveningsPaper& paper, const std::vector<geo::Shape>& shapes, const std::string& what,
              std::vector<Hazard>& hazards) {
    constexpr std::size_t most_named = 6;
    std::vector<std::string> posts = posts_near(paper, geo::NearestShape(shapes));
    if (posts.empty()) return;
    const std::size_t more = posts.size() > most_named ? posts.size() - most_named : 0;
    posts.resize(posts.size() - more);
    std::string where = core::all_of(posts);
    if (more > 0) where += " " + core::said_for(more, "hazards.more");
    hazards.push_back({what, std::move(where)});
}

std::vector<Hazard> hazards_of(const EveningsPaper& paper) {
    const trees::Surroundings& around = paper.plan.surroundings;
    std::vector<Hazard> hazards;
    add_near(paper, around.water.shapes, core::said("hazards.water"), hazards);
    add_near(paper, around.roads.shapes, core::said("hazards.road"), hazards);
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
            element("p", element("b", words("card.leader")) + " " + leader + " " +
                             element("b", words("notice.phone")) + " " + std::string(blank)) +
            element("p", element("b", words("card.permission")) + " " + permission));
}

std::string hazards_to_check(const EveningsPaper& paper) {
    std::vector<Row> rows;
    for (const Hazard& hazard : hazards_of(paper))
        rows.push_back({html_text(hazard.what),
                        hazard.where.empty() ? words("hazards.everywhere") : html_text(hazard.where), "",
                        ""});
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
