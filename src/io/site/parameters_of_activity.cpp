#include "site/parameter_tables.hpp"

namespace roostward::io {

namespace {

void keep(SiteFile&, const Document&) {}  // read before the parameters, recorded with them

}  // namespace

std::vector<ParameterSpec> site_specs() {
    return {
        {"site.name",
         TextKind{},
         "",
         {},
         "setting.site.name",
         [](SiteFile& site, const Document& value) { site.settings.site_name = text_in(value); }},
        {"site.timezone", TextKind{}, "", always(Document(), common_practice), "setting.site.timezone",
         [](SiteFile& site, const Document& value) {
             site.timezone = value.is_null() ? "" : text_in(value);
         }},
        {"site.animal", TextKind{}, "", {}, "setting.site.animal", keep},
        {"site.profiles", TextKind{}, "", always(Document(), common_practice), "setting.site.profiles", keep},
        {"site.animal_groups", TextKind{}, "", always("animals.toml", from_memory),
         "setting.site.animal_groups", keep},
        {"site.tree_words", TextKind{}, "", always("tree-words.toml", from_memory), "setting.site.tree_words",
         keep},
        {"site.words", TextKind{}, "", always(Document(), common_practice), "setting.site.words", keep},
        {"site.crs", TextKind{}, "", always("auto", common_practice), "setting.site.crs",
         [](SiteFile& site, const Document& value) { site.crs = text_in(value); }},
        {"site.hottest_month_c", NumberKind{{-20.0, 60.0}}, "°C", always(Document(), common_practice),
         "setting.site.hottest_month_c",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.climate.hottest_month = core::Celsius(number_in(value));
         }},
        {"site.looked_after_by", TextKind{}, "", always(Document(), common_practice),
         "setting.site.looked_after_by",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.looked_after_by = text_in(value);
         }},
        {"inputs.max_bad_share", NumberKind{{0.0, 1.0}}, "", always(0.1, common_practice),
         "setting.inputs.max_bad_share",
         [](SiteFile& site, const Document& value) { site.max_bad_share = number_in(value); }},
    };
}

std::vector<ParameterSpec> activity_specs() {
    return {
        {"activity.bandwidth_m", NumberKind{{1.0, 200.0}, {"by-evenings", "rule-of-thumb"}}, "m",
         always("by-evenings", common_practice), "setting.activity.bandwidth_m",
         [](SiteFile& site, const Document& value) {
             activity::Settings& settings = site.settings.activity;
             if (const auto h = number_or_word_in<core::Metres>(value))
                 settings.bandwidth = *h;
             else if (text_in(value) == "rule-of-thumb")
                 settings.bandwidth = activity::RuleOfThumb{};
             else
                 settings.bandwidth = activity::ByEvenings{};
         }},
        {"activity.seen_length_m", NumberKind{{1.0, 1000.0}, {"range"}}, "m",
         always("range", common_practice), "setting.activity.seen_length_m",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.seen_length = number_or_word_in<core::Metres>(value);
         }},
        {"activity.flight_length_m", NumberKind{{10.0, 100000.0}}, "m",
         always(survey::Settings{}.flight_length.value(), common_practice),
         "setting.activity.flight_length_m",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.flight_length = core::Metres(number_in(value));
         }},
        {"activity.evening_spread", NumberKind{{0.05, 5.0}}, "",
         always(activity::Settings{}.evening_spread, common_practice), "setting.activity.evening_spread",
         [](SiteFile& site, const Document& value) {
             site.settings.activity.evening_spread = number_in(value);
         }},
        {"activity.cell_m", NumberKind{{0.1, 50.0}}, "m", always(1.0, common_practice),
         "setting.activity.cell_m",
         [](SiteFile& site, const Document& value) {
             site.settings.activity.cell = core::Metres(number_in(value));
         }},
        {"activity.min_watch_hours", NumberKind{{0.0, 24.0, true}}, "h", always(0.25, common_practice),
         "setting.activity.min_watch_hours",
         [](SiteFile& site, const Document& value) {
             site.settings.activity.min_watch = core::Hours(number_in(value));
         }},
        {"activity.shrink_hours", NumberKind{{0.0, 24.0}, {"by-evenings"}}, "h",
         [](const SiteFile& site) {
             const activity::Settings& settings = site.settings.activity;
             if (std::holds_alternative<activity::RuleOfThumb>(settings.bandwidth))
                 return DefaultValue{settings.min_watch.value(), common_practice};
             return DefaultValue{"by-evenings", common_practice};
         },
         "setting.activity.shrink_hours",
         [](SiteFile& site, const Document& value) {
             activity::Settings& settings = site.settings.activity;
             if (const auto shrink = number_or_word_in<core::Hours>(value))
                 settings.shrink = *shrink;
             else
                 settings.shrink = activity::ByEvenings{};
         }},
        {"activity.start_before_sunset_min", WholeKind{0, 1440}, "min", always(15, from_memory),
         "setting.activity.start_before_sunset_min",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.before_sunset = std::chrono::minutes(whole_in(value));
         }},
        {"activity.end_after_sunset_min", WholeKind{0, 1440}, "min",
         by_profile(&siting::Profile::watch_end,
                    [](std::chrono::minutes end) { return Document(std::int64_t{end.count()}); }),
         "setting.activity.end_after_sunset_min",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.after_sunset = std::chrono::minutes(whole_in(value));
         }},
        {"activity.other_hours", WordKind{{"leave out", "keep"}}, "", always("leave out", from_memory),
         "setting.activity.other_hours",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.all = text_in(value) == "keep";
         }},
    };
}

std::vector<ParameterSpec> counting_specs() {
    const auto survey = [](SiteFile& site) -> survey::Settings& { return site.settings.survey; };
    return {
        {"activity.poor_weather", WordKind{{"leave out", "keep"}}, "", always("leave out", from_memory),
         "setting.activity.poor_weather",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.keep_poor_weather = text_in(value) == "keep";
         }},
        number_spec(
            "activity.coldest_c", {-60.0, 60.0}, "°C", from_memory,
            "setting.activity.coldest_c", [=](SiteFile & s) -> auto& { return survey(s).coldest; }),
        number_spec(
            "activity.windiest_ms", {0.0, 100.0}, "m/s", from_memory,
            "setting.activity.windiest_ms", [=](SiteFile & s) -> auto& { return survey(s).windiest; }),
        {"activity.counted_animals", ListKind{}, "", by_profile(&siting::Profile::counted_animals, list_of),
         "setting.activity.counted_animals",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.animals.counted = texts_in(value);
         }},
        {"activity.left_out_animals", ListKind{}, "", by_profile(&siting::Profile::left_out_animals, list_of),
         "setting.activity.left_out_animals",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.animals.left_out = texts_in(value);
         }},
        {"activity.other_animals", WordKind{{"leave out", "keep"}}, "", always("leave out", common_practice),
         "setting.activity.other_animals",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.animals.keep_others = text_in(value) == "keep";
         }},
        {"activity.written_twice", WordKind{{"by-writer", "count once", "keep"}}, "",
         always("by-writer", common_practice), "setting.activity.written_twice",
         [=](SiteFile& site, const Document& value) {
             survey(site).written_twice = text_in(value) == "keep" ? survey::WrittenTwice::keep
                                          : text_in(value) == "count once"
                                              ? survey::WrittenTwice::count_once
                                              : survey::WrittenTwice::two_writers;
         }},
        {"activity.feeding_once_min", WholeKind{0, 1440}, "min", always(5, common_practice),
         "setting.activity.feeding",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.feeding_once = std::chrono::minutes(whole_in(value));
         }},
    };
}

}  // namespace roostward::io
