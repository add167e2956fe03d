#include <fmt/format.h>

#include <vector>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "html_text.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

constexpr double map_width = 84.0, map_height = 70.0;  // mm

std::string percent(double share) {
    return core::said("evenings.percent", {{"share", fmt::format("{:.0f}", 100.0 * share)}});
}

std::string paragraph(const std::string& text) {
    return element("p", html_text(text));
}

std::string what_they_will_show(const EveningsPaper& paper) {
    const evenings::ToCome& to_come = paper.plan.to_come;
    std::string out = paragraph(core::said(
        "evenings.outlook", {{"trees", to_come.trees},
                             {"before", percent(to_come.share_before)},
                             {"after", percent(to_come.share_after.empty() ? to_come.share_before
                                                                           : to_come.share_after.back())}}));
    std::vector<Row> rows;
    for (std::size_t i = 0; i < to_come.share_after.size(); ++i)
        rows.push_back({html_text(date_in_words(to_come.evenings[i].evening.date)),
                        html_text(percent(to_come.share_after[i])),
                        html_text(core::said(to_come.evenings[i].provisional ? "evenings.provisional"
                                                                             : "evenings.settled"))});
    out += table(core::said("evenings.share_title"),
                 {{core::said("evenings.evening")},
                  {core::said("evenings.share"), true},
                  {core::said("evenings.state")}},
                 rows);
    if (to_come.unwatched_toward && to_come.unwatched_trees > 0)
        out += paragraph(core::said_for(
            to_come.unwatched_trees, "evenings.unwatched",
            {{"way", compass_words(
                         core::normalised(*to_come.unwatched_toward + paper.plan.meridian_convergence))}}));
    return out + paragraph(core::said("evenings.cannot_show"));
}

std::string sites_to_confirm(const EveningsPaper& paper) {
    std::string items;
    for (const evenings::SiteToConfirm& site : paper.plan.to_come.sites) {
        const std::string_view key = site.confirmed == evenings::Confirmed::confirmed ? "evenings.confirmed"
                                     : site.confirmed == evenings::Confirmed::not_confirmed
                                         ? "evenings.not_confirmed"
                                         : "evenings.not_tried";
        items += element("li", html_text(core::said(key, {{"tree", paper.plan.trees.rows[site.tree].id}})));
    }
    if (items.empty()) return {};
    return element("h2", html_text(core::said("evenings.sites"))) + element("ul", items);
}

std::string map_of(const EveningsPaper& paper, const evenings::EveningToCome& evening,
                   const core::Box& ground) {
    std::vector<DrawnRound> drawn;
    for (const auto& round : evening.rounds)
        drawn.push_back({round, paper.plan.to_come.teams.size() > 1 ? std::to_string(round.team + 1) : ""});
    const std::string date = date_in_words(evening.evening.date);
    return element("figure", sketch_map(paper.plan, ground, drawn,
                                        core::said("evenings.map", {{"date", date}}), map_width, map_height) +
                                 element("figcaption", html_text(date)));
}

std::string maps(const EveningsPaper& paper) {
    const core::Box ground = all_ground(paper.plan);
    std::string out;
    for (const auto& evening : paper.plan.to_come.evenings)
        out += map_of(paper, evening, ground);
    return element("div class=\"maps\"", out) + element("p class=\"note\"", html_text(map_key(paper.plan)));
}

void add_posts(const EveningsPaper& paper, const evenings::EveningToCome& evening, std::vector<Row>& rows) {
    for (const auto& round : evening.rounds)
        for (std::size_t i = 0; i < round.posts.size(); ++i) {
            const evenings::Post& post = round.posts[i];
            rows.push_back({html_text(post_name(paper.plan, round, i)),
                            name(paper.plan.to_come.teams[round.team].name),
                            html_text(paper.clock(post.start) + "–" + paper.clock(post.end)),
                            html_text(post_in_words(paper, post)), html_text(look_in_words(paper.plan, post)),
                            html_text(reason_in_words(paper.plan, post.why))});
        }
}

std::string evening_of(const EveningsPaper& paper, const evenings::EveningToCome& evening) {
    std::vector<Row> rows;
    add_posts(paper, evening, rows);
    return element("h3", html_text(date_in_words(evening.evening.date))) +
           paragraph(core::said("evenings.when",
                                {{"sunset", paper.clock(evening.sunset)},
                                 {"begin", paper.clock(evening.begin)},
                                 {"end", paper.clock(evening.end)},
                                 {"moon", fmt::format("{:.0f}", evening.moon_age.value() / 24.0)}})) +
           table(date_in_words(evening.evening.date),
                 {{core::said("evenings.post")},
                  {core::said("evenings.team")},
                  {core::said("evenings.time")},
                  {core::said("evenings.where")},
                  {core::said("evenings.look_title")},
                  {core::said("evenings.why")}},
                 rows);
}

std::string spare_evenings(const EveningsPaper& paper) {
    std::string items;
    for (const auto& spare : paper.plan.to_come.spare)
        items += element(
            "li", html_text(core::said("evenings.spare_at", {{"date", date_in_words(spare.evening.date)},
                                                             {"begin", paper.clock(spare.begin)},
                                                             {"end", paper.clock(spare.end)}})));
    if (items.empty()) return {};
    return element("h2", html_text(core::said("evenings.spare"))) + element("ul", items);
}

}  // namespace

std::string evenings_overview(const EveningsPaper& paper) {
    std::string out =
        element("h2", html_text(core::said("evenings.what_they_show"))) + what_they_will_show(paper);
    out += sites_to_confirm(paper);
    out += element("h2", html_text(core::said("evenings.who_stands_where"))) + maps(paper);
    for (const auto& evening : paper.plan.to_come.evenings)
        out += evening_of(paper, evening);
    out += spare_evenings(paper);
    out += element("h2", html_text(core::said("evenings.go_or_stay"))) +
           paragraph(core::said("card.go", {{"rule", go_rule(paper.plan)}})) +
           paragraph(core::said("card.if_it_turns")) + paragraph(core::said("evenings.under_18"));
    return out;
}

}  // namespace roostward::report
