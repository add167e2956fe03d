#include <fmt/format.h>

#include <array>
#include <vector>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "html_text.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/figures.hpp"

namespace roostward::report {

namespace {

constexpr double map_width = 84.0, map_height = 62.0;  // mm
constexpr std::string_view tick = "<span class=\"tick\"></span> ";
constexpr std::string_view blank = "<span class=\"blank\"></span>";

/// What a card is of.
struct Card {
    const EveningsPaper& paper;
    const evenings::EveningToCome& evening;
    const evenings::Round& round;

    [[nodiscard]] const plan::EveningsPlan& plan() const { return paper.plan; }
    [[nodiscard]] const evenings::Team& team() const { return plan().to_come.teams[round.team]; }
};

std::string words(std::string_view key) {
    return html_text(core::said(key));
}

/// A line to write on, after its label; with what is known already.
std::string to_fill_in(std::string_view key, const std::string& known = {}) {
    return element("p class=\"fill\"",
                   element("b", words(key)) + " " + (known.empty() ? std::string(blank) : html_text(known)));
}

std::string ticked(std::string_view key) {
    return " " + element("span class=\"ticked\"", std::string(tick) + words(key));
}

std::string head(const Card& card) {
    const evenings::EveningToCome& evening = card.evening;
    std::string out = element("h2", html_text(date_in_words(evening.evening.date)) + " · " +
                                        html_text(core::said("card.team", {{"team", card.team().name}})));
    out += element("p class=\"at\"",
                   name(card.plan().settings.site_name) + " · " +
                       html_text(core::said("card.hours", {{"sunset", card.paper.clock(evening.sunset)},
                                                           {"begin", card.paper.clock(evening.begin)},
                                                           {"end", card.paper.clock(evening.end)}})));
    if (evening.provisional) out += element("p class=\"provisional\"", words("card.provisional"));
    return element("header", out);
}

std::string post_row(const Card& card, std::size_t i, const geo::Transform& to_globe) {
    const evenings::Post& post = card.round.posts[i];
    const core::GeographicPoint place =
        geo::on_globe(to_globe(card.plan().to_come.places[post.place].position));
    return element(
        "li",
        element("b class=\"letter\"", post_letter(i)) +
            element(
                "div",
                element("p",
                        element("b class=\"time\"",
                                html_text(card.paper.clock(post.start) + "–" + card.paper.clock(post.end))) +
                            " " +
                            element("b class=\"toward\"",
                                    words("card.look") + " " + html_text(look_in_words(card.plan(), post)))) +
                    element("p", html_text(post_in_words(card.paper, post))) +
                    element(
                        "p class=\"small\"",
                        html_text(core::said("card.sees", {{"metres", post.farthest_seen.value()},
                                                           {"lat", place_in_degrees(place.latitude)},
                                                           {"lon", place_in_degrees(place.longitude)}})))));
}

std::string posts(const Card& card) {
    const geo::Transform to_globe(card.plan().planning_crs, geo::wgs84());
    std::string rows;
    for (std::size_t i = 0; i < card.round.posts.size(); ++i)
        rows += post_row(card, i, to_globe);
    if (rows.empty()) return element("p class=\"none\"", words("card.no_post"));
    return element("ol class=\"posts\"", rows);
}

std::string map_of(const Card& card) {
    const DrawnRound drawn{card.round, {}};
    return element("figure",
                   sketch_map(card.plan(), about_round(card.plan(), card.round), {&drawn, 1},
                              core::said("card.map", {{"team", card.team().name}}), map_width, map_height) +
                       element("figcaption", html_text(map_key(card.plan()))));
}

/// Whom to call stands first: nobody looks for it in the dark.
std::string whom_to_call(const Card& card) {
    return element("div class=\"call\"", to_fill_in("card.leader", card.plan().to_come.settings.leader) +
                                             to_fill_in("card.emergency"));
}

/// "1A and 1B" where the way between them crosses a road.
std::string crossings(const Card& card) {
    std::vector<std::string> legs;
    for (const std::size_t i : roads_crossed(card.plan(), card.round))
        legs.push_back(post_letter(i - 1) + "–" + post_letter(i));
    if (legs.empty()) return {};
    return element("p class=\"crossing\"",
                   html_text(core::said("card.crossing", {{"posts", core::all_of(legs)}})));
}

std::string go_or_stay(const Card& card) {
    return element("section class=\"go\"",
                   element("h3", html_text(core::said("card.go", {{"rule", go_rule(card.plan())}}))) +
                       element("p", words("card.decides") + " " + std::string(blank) + " " +
                                        words("card.decides_by") + " " + std::string(blank)) +
                       element("p", words("card.if_it_turns")));
}

/// A few minutes into the first post.
std::string example_for(const Card& card) {
    if (card.round.posts.empty()) return {};
    const core::Instant at = card.round.posts.front().start + std::chrono::minutes(9);
    return element("p class=\"example\"",
                   html_text(core::said("card.example", {{"time", card.paper.clock(at)},
                                                         {"post", post_name(card.plan(), card.round, 0)}})));
}

std::string what_to_write(const Card& card) {
    return element("section", element("h3", words("card.write")) + element("p", words("card.write_what")) +
                                  example_for(card) + element("p", words("card.nothing_is_a_result")));
}

std::string before_dusk(const Card& card) {
    const std::optional<std::chrono::minutes>& gate = card.plan().to_come.settings.gate_closes;
    std::string out = element("h3", words("card.before"));
    out += element("p", std::string(tick) + words("card.walked_by_day"));
    out += element("p", words("card.cannot_stand") + " " + std::string(blank));
    out += to_fill_in("card.permission", card.plan().to_come.settings.permission_from);
    out += to_fill_in("card.meet");
    out += to_fill_in("card.way_out");
    out += to_fill_in("card.gate", gate ? fmt::format("{:02}:{:02}", gate->count() / 60, gate->count() % 60)
                                        : std::string());
    return element("section", out);
}

std::string people(const Card& card) {
    std::string out = element("h3", words("card.people"));
    out +=
        element("p", html_text(core::said(
                         "card.size", {{"count", core::in_words(card.plan().to_come.settings.team_size)}})));
    out += to_fill_in("card.names");
    out += element("p", words("card.check_in") + ticked("card.check_in.start") +
                            ticked("card.check_in.half") + ticked("card.check_in.end"));
    return element("section", out);
}

std::string kit() {
    constexpr std::array things{"card.kit.torch",       "card.kit.white",    "card.kit.phones",
                                "card.kit.watch",       "card.kit.vest",     "card.kit.sheets",
                                "card.kit.thermometer", "card.kit.first_aid"};
    std::string rows;
    for (const char* thing : things)
        rows += element("li", words(thing) + " " + std::string(tick) + std::string(tick));
    return element("section", element("h3", words("card.kit")) + element("ul class=\"kit\"", rows));
}

std::string cautions_of_the_night() {
    std::string items;
    for (int i = 1; i <= 5; ++i)
        items += element("li", words(fmt::format("card.care.{}", i)));
    return element("section class=\"care\"", element("h3", words("card.care")) + element("ul", items));
}

std::string card_of(const Card& card) {
    constexpr std::size_t with_room = 2;
    return element(
        card.round.posts.size() > with_room ? "section class=\"card many\"" : "section class=\"card\"",
        head(card) + whom_to_call(card) + element("div class=\"round-of\"", map_of(card) + posts(card)) +
            crossings(card) + go_or_stay(card) +
            element("div class=\"below\"", what_to_write(card) + before_dusk(card) + people(card) + kit()) +
            cautions_of_the_night());
}

}  // namespace

std::string evening_cards(const EveningsPaper& paper) {
    std::string out;
    for (const auto& evening : paper.plan.to_come.evenings)
        for (const auto& round : evening.rounds)
            out += card_of({paper, evening, round});
    return out;
}

}  // namespace roostward::report
