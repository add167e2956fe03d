#include <array>
#include <chrono>

#include "site/evenings_teams.hpp"
#include "site/parameter_tables.hpp"

namespace roostward::io {

namespace {

/// From Sunday on, as std::chrono::weekday counts.
constexpr std::array<std::string_view, 7> weekdays{"sun", "mon", "tue", "wed", "thu", "fri", "sat"};

std::chrono::weekday weekday_of(const std::string& word) {
    return std::chrono::weekday(static_cast<unsigned>(std::ranges::find(weekdays, word) - weekdays.begin()));
}

}  // namespace

std::vector<ParameterSpec> evenings_specs() {
    return {
        {"evenings.days", ListKind{{weekdays.begin(), weekdays.end()}}, "",
         always(core::List(), common_practice), "setting.evenings.days",
         [](SiteFile& site, const Document& value) {
             for (const std::string& word : texts_in(value))
                 site.evenings.days.push_back(weekday_of(word));
         }},
        {"evenings.every_days", WholeKind{1, 366}, "days", always(7, common_practice),
         "setting.evenings.every_days",
         [](SiteFile& site, const Document& value) {
             site.evenings.every = std::chrono::days(whole_in(value));
         }},
        {"evenings.posts", WholeKind{1, 6, {"best"}}, "", always("best", common_practice),
         "setting.evenings.posts",
         [](SiteFile& site, const Document& value) {
             if (const auto posts = number_or_word_in<std::size_t, std::int64_t>(value))
                 site.evenings.posts = posts;
         }},
        {"evenings.team_size", WholeKind{2, 20}, "", always(2, common_practice), "setting.evenings.team_size",
         [](SiteFile& site, const Document& value) { site.evenings.team_size = whole_in(value); }},
        {"evenings.seen_by", WordKind{{ways_of_seeing.begin(), ways_of_seeing.end()}}, "",
         always(evenings::Settings{}.seen_by, common_practice), "setting.evenings.seen_by",
         [](SiteFile& site, const Document& value) { site.evenings.seen_by = text_in(value); }},
        {"evenings.farthest_seen_m", NumberKind{farthest_seen_m}, "m", always(Document(), common_practice),
         "setting.evenings.farthest_seen_m",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.evenings.farthest_seen = core::Metres(number_in(value));
         }},
        number_spec(
            "evenings.walk_m_per_min", {5.0, 150.0}, "m/min", common_practice,
            "setting.evenings.walk_m_per_min",
            [](SiteFile & s) -> auto& { return s.evenings.walk_m_per_min; }),
        {"evenings.spare", WholeKind{0, 20}, "", always(1, common_practice), "setting.evenings.spare",
         [](SiteFile& site, const Document& value) { site.evenings.spare = whole_in(value); }},
        {"evenings.gate_closes", TimeOfDayKind{}, "", always(Document(), common_practice),
         "setting.evenings.gate_closes",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.evenings.gate_closes = time_of_day_in(value);
         }},
        {"evenings.permission_from", TextKind{}, "", always(Document(), common_practice),
         "setting.evenings.permission_from",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.evenings.permission_from = text_in(value);
         }},
        {"evenings.leader", TextKind{}, "", always(Document(), common_practice), "setting.evenings.leader",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.evenings.leader = text_in(value);
         }},
    };
}

}  // namespace roostward::io
