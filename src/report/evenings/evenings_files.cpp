#include "roostward/report/evenings_files.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <set>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "gpx_text.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/folder_index.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/text_block.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

using core::Document;

std::vector<std::string> row_of(const plan::EveningsPlan& plan, const LocalText& local,
                                const evenings::EveningToCome& evening, const evenings::Round& round,
                                std::size_t number) {
    const evenings::Post& post = round.posts[number];
    const PostInFigures figures = post_in_figures(plan, post);
    return {core::to_text(evening.evening),
            plan.to_come.teams[round.team].name,
            post_letter(number),
            to_the_minute(local, post.start),
            to_the_minute(local, post.end),
            figures.lon,
            figures.lat,
            figures.look_deg,
            figures.view_deg,
            figures.farthest_seen_m,
            plan.to_come.places[post.place].name,
            evening.provisional ? "yes" : "no",
            reason_in_words(plan, post.why)};
}

Document time_of_day(const std::optional<std::chrono::minutes>& time) {
    if (!time) return {};
    return fmt::format("{:02}:{:02}", time->count() / 60, time->count() % 60);
}

core::List teams_document(const std::vector<evenings::Team>& teams) {
    core::List list;
    for (const evenings::Team& team : teams)
        list.emplace_back(core::Object{{"name", team.name},
                                       {"seen_by", team.seen_by},
                                       {"farthest_seen_m", number(team.farthest_seen)},
                                       {"from", time_of_day(team.from)},
                                       {"until", time_of_day(team.until)}});
    return list;
}

core::Object settings_document(const evenings::ToCome& to_come) {
    const evenings::Settings& settings = to_come.settings;
    core::List days;
    for (const std::chrono::weekday day : settings.days)
        days.emplace_back(core::said(fmt::format("weekday.{}", day.c_encoding())));
    return {{"days", std::move(days)},
            {"every_days", settings.every.count()},
            {"posts", settings.posts ? Document(*settings.posts) : Document("best")},
            {"team_size", settings.team_size},
            {"seen_by", settings.seen_by},
            {"farthest_seen_m", number(settings.farthest_seen)},
            {"walk_m_per_min", settings.walk_m_per_min},
            {"spare", settings.spare},
            {"gate_closes", time_of_day(settings.gate_closes)},
            {"permission_from", text(settings.permission_from)},
            {"leader", text(settings.leader)},
            {"teams", teams_document(to_come.teams)}};
}

template <class Evening>
core::Object hours_document(const Evening& evening) {
    return {{"evening", core::to_text(evening.evening)},
            {"sunset", core::to_text(evening.sunset)},
            {"begin", core::to_text(evening.begin)},
            {"end", core::to_text(evening.end)}};
}

core::List evenings_list(const evenings::ToCome& to_come) {
    core::List list;
    for (const evenings::EveningToCome& evening : to_come.evenings) {
        core::Object one = hours_document(evening);
        one.emplace_back("provisional", evening.provisional);
        one.emplace_back("moon_age_days", std::round(evening.moon_age.value() / 2.4) / 10.0);
        list.emplace_back(std::move(one));
    }
    return list;
}

/// On how many evenings somebody stands at each place.
std::vector<std::size_t> evenings_at_places(const evenings::ToCome& to_come) {
    std::vector<std::size_t> evenings(to_come.places.size(), 0);
    for (const evenings::EveningToCome& evening : to_come.evenings) {
        std::set<std::size_t> taken;
        for (const evenings::Round& round : evening.rounds)
            for (const evenings::Post& post : round.posts)
                taken.insert(post.place);
        for (const std::size_t place : taken)
            ++evenings[place];
    }
    return evenings;
}

}  // namespace

std::string to_the_minute(const LocalText& local, core::Instant instant) {
    return local(std::chrono::floor<std::chrono::minutes>(instant));
}

PostInFigures post_in_figures(const plan::EveningsPlan& plan, const evenings::Post& post) {
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    const core::PlanePoint at = to_globe(plan.to_come.places[post.place].position);
    PostInFigures figures{fmt::format("{:.7f}", at.easting),
                          fmt::format("{:.7f}", at.northing),
                          {},
                          {},
                          fmt::format("{:.0f}", post.farthest_seen.value())};
    if (!post.view) return figures;
    figures.look_deg = std::to_string(whole_degrees(post.view->look + plan.meridian_convergence));
    figures.view_deg = fmt::format("{:.0f}", post.view->width.value());
    return figures;
}

geo::Table evenings_table(const plan::EveningsPlan& plan, const LocalText& local) {
    geo::Table table{{"evening", "team", "post", "start", "end", "lon", "lat", "look_deg", "view_deg",
                      "farthest_seen_m", "station", "provisional", "why"},
                     {}};
    for (const evenings::EveningToCome& evening : plan.to_come.evenings)
        for (const evenings::Round& round : evening.rounds)
            for (std::size_t i = 0; i < round.posts.size(); ++i)
                table.rows.push_back(row_of(plan, local, evening, round, i));
    return table;
}

core::Instant evenings_stamp(const plan::EveningsPlan& plan) {
    const core::Date latest = plan.surroundings.today;
    return std::chrono::sys_days(latest.ok() ? latest : plan.to_come.evenings.front().evening.date);
}

geo::Layer stations(const plan::EveningsPlan& plan) {
    return {"stations",
            geo::GeometryKind::point,
            plan.planning_crs,
            {{"number", geo::ColumnKind::whole},
             {"station", geo::ColumnKind::text},
             {"evenings", geo::ColumnKind::whole}},
            plan.to_come.places.size(),
            [&plan, evenings = evenings_at_places(plan.to_come)](std::size_t i) {
                const evenings::Place& place = plan.to_come.places[i];
                return geo::Feature{place.position, {i + 1, text(place.name), evenings[i]}};
            }};
}

std::string stations_gpx(const plan::EveningsPlan& plan, const GpxFacts& facts) {
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    std::string waypoints;
    for (std::size_t i = 0; i < plan.to_come.places.size(); ++i) {
        const evenings::Place& place = plan.to_come.places[i];
        const std::string name =
            place.name.empty() ? core::said("stations.number", {{"number", i + 1}}) : place.name;
        waypoints += gpx_waypoint(geo::on_globe(to_globe(place.position)), gpx_element("name", name));
    }
    return gpx_file(core::said("stations.title", {{"site", plan.settings.site_name}}),
                    core::said("card.care.2"), facts, waypoints);
}

core::Document evenings_document(const plan::EveningsPlan& plan, const RunFacts& facts) {
    const evenings::ToCome& to_come = plan.to_come;
    core::List after, spare;
    for (std::size_t i = 0; i < to_come.share_after.size(); ++i)
        after.emplace_back(core::Object{{"evening", core::to_text(to_come.evenings[i].evening)},
                                        {"share", to_come.share_after[i]},
                                        {"provisional", to_come.evenings[i].provisional}});
    for (const evenings::SpareEvening& evening : to_come.spare)
        spare.emplace_back(hours_document(evening));
    return core::Object{{"format", core::plan_format},
                        {"program", core::program_name},
                        {"version", facts.version},
                        {"seed", plan.settings.activity.seed},
                        {"made_at", core::to_text(facts.made_at)},
                        {"repeat", facts.repeat},
                        {"site", plan.settings.site_name},
                        {"site_file", plan.settings.site_file},
                        {"settings", settings_document(to_come)},
                        {"evenings", evenings_list(to_come)},
                        {"spare", std::move(spare)},
                        {"trees", to_come.trees},
                        {"share_before", to_come.share_before},
                        {"after", std::move(after)},
                        {"unwatched_trees", to_come.unwatched_trees},
                        {"parameters", parameters_document(plan.settings.parameters)},
                        {"inputs", inputs_document(plan.files)},
                        {"rows", counts_document(plan.counts)},
                        {"files", files_document(facts.folder, "evenings.json")},
                        {"kept", kept_document(facts.folder)}};
}

std::string evenings_text(const plan::EveningsPlan& plan, const LocalText& local, const std::string& folder) {
    const evenings::ToCome& to_come = plan.to_come;
    std::string text = fmt::format("{} · {}\n", plan.settings.site_name, core::said("evenings.title"));
    for (std::size_t i = 0; i < to_come.evenings.size(); ++i) {
        const evenings::EveningToCome& evening = to_come.evenings[i];
        std::size_t posts = 0;
        for (const auto& round : evening.rounds)
            posts += round.posts.size();
        text += wrapped(core::said("evenings.line", {{"date", date_in_words(evening.evening.date)},
                                                     {"begin", local(evening.begin).substr(11, 5)},
                                                     {"end", local(evening.end).substr(11, 5)},
                                                     {"posts", posts},
                                                     {"share", 100.0 * to_come.share_after[i]}}),
                        2);
    }
    for (const auto& spare : to_come.spare)
        text += wrapped(core::said("evenings.spare_line", {{"date", date_in_words(spare.evening.date)}}), 2);
    text += wrapped(core::said("evenings.trees_line",
                               {{"trees", to_come.trees}, {"before", 100.0 * to_come.share_before}}),
                    2);
    text += wrapped(core::said("card.go", {{"rule", go_rule(plan)}}), 2);
    text += wrapped(core::said("evenings.night"), 2);
    return text + wrapped(core::said("evenings.written", {{"folder", folder}}), 2);
}

}  // namespace roostward::report
