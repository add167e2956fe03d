#include "roostward/evenings/calendar.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/evenings/teams.hpp"
#include "roostward/sun/day.hpp"

namespace roostward::evenings {

namespace {

using std::chrono::days, std::chrono::hours, std::chrono::minutes, std::chrono::sys_days;

constexpr std::size_t most_evenings = 60, most_teams = 50;
constexpr int first_year = 1990, last_year = 2037;
constexpr minutes least_hours{30};
/// People stand and look this long before the first animal usually flies. Common practice, no source.
constexpr minutes before_first_flight{10};

[[noreturn]] void refuse(std::string_view option, std::string_view key,
                         std::initializer_list<core::Filling> fillings) {
    throw core::Error(core::Fault::usage, {{}, {}, {}, std::string(option)}, core::said(key, fillings));
}

[[noreturn]] void refuse_start() {
    refuse("--start", "error.evenings_start", {{"first", first_year}, {"last", last_year}});
}

void require_sense(const Ask& ask) {
    if (ask.count < 1 || ask.count > most_evenings)
        refuse("--count", "error.evenings_count", {{"count", ask.count}, {"most", most_evenings}});
    if (ask.teams < 1 || ask.teams > most_teams)
        refuse("--teams", "error.evenings_teams", {{"teams", ask.teams}, {"most", most_teams}});
    const int year = static_cast<int>(ask.start.year());
    if (!ask.start.ok() || year < first_year || year > last_year) refuse_start();
}

std::string name_of(std::chrono::month month) {
    return core::said("month." + std::to_string(static_cast<unsigned>(month)));
}

/// An evening with the hours that count.
SpareEvening evening_on(core::Date date, const Settings& settings, const SiteOfEvenings& site) {
    const sun::Nightfall night = sun::nightfall(site.clock(date, hours(18)), site.place);
    if (!night.sunset) refuse("--start", "error.evenings_no_sunset", {{"date", core::to_text(date)}});
    if (!night.civil_dusk) refuse("--start", "error.evenings_no_dusk", {{"date", core::to_text(date)}});
    const core::Instant sunset = std::chrono::round<minutes>(*night.sunset);
    SpareEvening evening{
        {date}, sunset, sunset - site.counted.before_sunset, sunset + site.counted.after_sunset};
    if (const auto& first = site.profile.first_flight)
        evening.begin = std::max(evening.begin, sunset + first->value - before_first_flight);
    if (settings.gate_closes)
        evening.end = std::min(evening.end, site.clock(date, in_evening(*settings.gate_closes)));
    return evening;
}

void require_hours(const SpareEvening& evening, const Ask& ask, const Settings& settings,
                   const LocalClock& clock) {
    if (evening.end - evening.begin < least_hours)
        refuse("evenings.gate_closes", "error.evenings_gate", {{"date", core::to_text(evening.evening)}});
    for (const Team& team : teams_of(settings, ask.teams)) {
        const Stretch own = hours_of(team, evening.evening, {evening.begin, evening.end}, clock);
        if (own.end - own.begin < least_hours)
            refuse("evenings.team", "error.evenings_team_hours",
                   {{"team", team.name}, {"date", core::to_text(evening.evening)}});
    }
}

bool have_time(const Settings& settings, core::Date date) {
    return settings.days.empty() ||
           std::ranges::find(settings.days, std::chrono::weekday(sys_days(date))) != settings.days.end();
}

void require_season(const siting::Season* season, core::Date date, std::size_t fit, std::size_t wanted) {
    if (season == nullptr || season->holds(date.month())) return;
    refuse("--start", fit == 0 ? "error.evenings_season" : "error.evenings_season_ends",
           {{"date", core::to_text(date)},
            {"from", name_of(season->from)},
            {"to", name_of(season->to)},
            {"fit", fit},
            {"wanted", wanted}});
}

/// So many dates on which people have time, in the season.
std::vector<core::Date> dates_from(core::Date start, const Settings& settings, const siting::Season* season,
                                   std::size_t wanted) {
    std::vector<core::Date> dates;
    for (sys_days day(start); dates.size() < wanted; day += days(1)) {
        const core::Date date(day);
        if (static_cast<int>(date.year()) > last_year) refuse_start();
        if (!have_time(settings, date)) continue;
        require_season(season, date, dates.size(), wanted);
        dates.push_back(date);
        day += settings.every - days(1);
    }
    return dates;
}

}  // namespace

Stretch hours_of(const Team& team, core::Evening evening, Stretch all, const LocalClock& clock) {
    const auto at = [&](minutes time) { return clock(evening.date, in_evening(time)); };
    return {team.from ? std::max(all.begin, at(*team.from)) : all.begin,
            team.until ? std::min(all.end, at(*team.until)) : all.end};
}

core::Hours moon_age(core::Instant instant) {
    constexpr double lunation_h = 24.0 * 29.530588861;
    // JDE 2451550.09766 is 14:20:38 of dynamical time, a minute before that in UTC.
    const core::Instant new_moon(sys_days(std::chrono::January / 6 / 2000) + hours(14) + minutes(19));
    const double since = core::hours_between(new_moon, instant).value();
    return core::Hours(since - lunation_h * std::floor(since / lunation_h));
}

Dates dates_of(const Ask& ask, const Settings& settings, const SiteOfEvenings& site) {
    require_sense(ask);
    const siting::Season* const season =
        ask.anyway ? nullptr : siting::active_season(site.profile, site.place.latitude);
    Dates all;
    for (const core::Date date : dates_from(ask.start, settings, season, ask.count + settings.spare)) {
        const SpareEvening evening = evening_on(date, settings, site);
        require_hours(evening, ask, settings, site.clock);
        if (all.evenings.size() == ask.count)
            all.spare.push_back(evening);
        else
            all.evenings.push_back({evening.evening,
                                    evening.sunset,
                                    evening.begin,
                                    evening.end,
                                    !all.evenings.empty(),
                                    moon_age(evening.sunset),
                                    {}});
    }
    return all;
}

}  // namespace roostward::evenings
