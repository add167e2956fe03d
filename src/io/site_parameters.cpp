#include "site_parameters.hpp"

#include <algorithm>
#include <type_traits>
#include <utility>

#include <fmt/format.h>

#include "box_profiles_conditions.hpp"

namespace roostward::io {

namespace {

using core::Document;
using siting::Provenance;
using siting::Status;

const Provenance common_practice{Status::common_practice, ""};
const Provenance azam{Status::published, "Azam et al. 2018"};
const Provenance from_memory{Status::from_memory, ""};

auto always(Document value, Provenance provenance) {
    return [fallback = DefaultValue{std::move(value), std::move(provenance)}](const SiteFile&) {
        return fallback;
    };
}

/// The default is what the box profile says.
template <class Value, class ToDocument>
auto by_profile(siting::Sourced<Value> siting::Profile::*entry, ToDocument to_document) {
    return [entry, to_document](const SiteFile& site) {
        const siting::Sourced<Value>& sourced = site.settings.profile.*entry;
        return DefaultValue{to_document(sourced.value), sourced.provenance, "box profile"};
    };
}

double number_in(const Document& value) {
    return std::get<double>(value.value());
}
std::size_t whole_in(const Document& value) {
    return static_cast<std::size_t>(std::get<std::int64_t>(value.value()));
}
const std::string& text_in(const Document& value) {
    return std::get<std::string>(value.value());
}

/// The number, or nothing where a word stands in its place.
template <class Quantity>
std::optional<Quantity> number_or_word_in(const Document& value) {
    const double* number = std::get_if<double>(&value.value());
    return number != nullptr ? std::optional(Quantity(*number)) : std::nullopt;
}

std::vector<std::string> texts_in(const Document& value) {
    std::vector<std::string> texts;
    for (const Document& item : std::get<core::List>(value.value()))
        texts.push_back(text_in(item));
    return texts;
}

Document list_of(const std::vector<std::string>& texts) {
    return core::List(texts.begin(), texts.end());
}

Document words_of(const std::vector<trees::Condition>& conditions) {
    core::List words;
    for (const trees::Condition condition : conditions)
        words.emplace_back(trees::to_text(condition));
    return words;
}

constexpr auto number_of = [](auto quantity) { return Document(quantity.value()); };

void keep(SiteFile&, const Document&) {}  // read before the parameters, recorded with them

/// A number that stands in the settings with its default. `where` finds it there.
template <class Where>
ParameterSpec number_spec(std::string_view key, NumberRange range, std::string_view unit,
                          Provenance provenance, std::string_view meaning, Where where) {
    SiteFile unset;
    auto& entry = where(unset);
    using Entry = std::remove_cvref_t<decltype(entry)>;
    const auto put = [where](SiteFile& site, const Document& value) {
        where(site) = Entry(number_in(value));
    };
    if constexpr (std::is_same_v<Entry, double>)
        return {key, NumberKind{range}, unit, always(entry, std::move(provenance)), meaning, put};
    else
        return {key, NumberKind{range}, unit, always(entry.value(), std::move(provenance)), meaning, put};
}

std::vector<ParameterSpec> site_specs() {
    return {
        {"site.name",
         TextKind{},
         "",
         {},
         "what the place is called, as name = \"Alder Reach Park\"",
         [](SiteFile& site, const Document& value) { site.settings.site_name = text_in(value); }},
        {"site.timezone", TextKind{}, "", always(Document(), common_practice),
         "IANA time zone of times without an offset",
         [](SiteFile& site, const Document& value) {
             site.timezone = value.is_null() ? "" : text_in(value);
         }},
        {"site.animal", TextKind{}, "", {}, "the box profile, as animal = \"small-crevice-bat\"", keep},
        {"site.profiles", TextKind{}, "", always(Document(), common_practice),
         "a file of your own box profiles, in place of those in the program", keep},
        {"site.crs", TextKind{}, "", always("auto", common_practice),
         "planning system: auto is the UTM zone of the site, else any projected system in metres",
         [](SiteFile& site, const Document& value) { site.crs = text_in(value); }},
        {"site.hottest_month_c", NumberKind{{-20.0, 60.0}}, "°C", always(Document(), common_practice),
         "mean daily maximum of the hottest month; from 28 on boxes face the morning sun (common practice)",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.climate.hottest_month = core::Celsius(number_in(value));
         }},
        {"inputs.max_bad_share", NumberKind{{0.0, 1.0}}, "", always(0.1, common_practice),
         "largest share of a layer's rows that may be set aside",
         [](SiteFile& site, const Document& value) { site.max_bad_share = number_in(value); }},
    };
}

std::vector<ParameterSpec> activity_specs() {
    return {
        {"activity.bandwidth_m", NumberKind{{1.0, 200.0}, {"by-evenings", "rule-of-thumb"}}, "m",
         always("by-evenings", common_practice),
         "how far a flight's evidence spreads to either side; by-evenings: what foretells an evening best "
         "from "
         "the others; rule-of-thumb: Silverman 1986, held in 5 to 20 m",
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
         always("range", common_practice),
         "metres of flight that one pass stands for; range: 2.5 ranges of its watch, as a half-normal view "
         "has of a "
         "flight straight past, laid over a piece of one range",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.seen_length = number_or_word_in<core::Metres>(value);
         }},
        {"activity.cell_m", NumberKind{{0.1, 50.0}}, "m", always(1.0, common_practice),
         "cell size of the maps",
         [](SiteFile& site, const Document& value) {
             site.settings.activity.cell = core::Metres(number_in(value));
         }},
        {"activity.min_watch_hours", NumberKind{{0.0, 24.0, true}}, "h", always(0.25, common_practice),
         "hours of effective watching below which a place counts as not watched",
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
         "how strongly thinly watched places lean on the site's mean; 0: not at all; by-evenings as for "
         "bandwidth_m; default: min_watch_hours with the rule of thumb, else by-evenings",
         [](SiteFile& site, const Document& value) {
             activity::Settings& settings = site.settings.activity;
             if (const auto shrink = number_or_word_in<core::Hours>(value))
                 settings.shrink = *shrink;
             else
                 settings.shrink = activity::ByEvenings{};
         }},
        {"activity.start_before_sunset_min", WholeKind{0, 1440}, "min", always(15, from_memory),
         "hours of watching count from so long before sunset",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.before_sunset = std::chrono::minutes(whole_in(value));
         }},
        {"activity.end_after_sunset_min", WholeKind{0, 1440}, "min",
         by_profile(&siting::Profile::watch_end,
                    [](std::chrono::minutes end) { return Document(std::int64_t{end.count()}); }),
         "hours of watching count up to so long after sunset",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.after_sunset = std::chrono::minutes(whole_in(value));
         }},
        {"activity.other_hours", WordKind{{"leave out", "keep"}}, "", always("leave out", from_memory),
         "what to do with hours before and after those",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.hours.all = text_in(value) == "keep";
         }},
        {"activity.poor_weather", WordKind{{"leave out", "keep"}}, "", always("leave out", from_memory),
         "what to do with evenings below 10 °C, above 5 m/s or wet",
         [](SiteFile& site, const Document& value) {
             site.settings.survey.keep_poor_weather = text_in(value) == "keep";
         }},
    };
}

std::vector<ParameterSpec> suitability_specs() {
    return {
        {"suitability.min_dbh_cm", NumberKind{{0.0, 1000.0}}, "cm",
         by_profile(&siting::Profile::min_dbh, number_of), "thinner trunks are ruled out",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_dbh = core::Centimetres(number_in(value));
         }},
        {"suitability.min_height_m", NumberKind{{0.0, 150.0}}, "m",
         by_profile(&siting::Profile::min_height, number_of), "lower trees are ruled out",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_height = core::Metres(number_in(value));
         }},
        {"suitability.conditions", ListKind{{condition_words.begin(), condition_words.end()}}, "",
         by_profile(&siting::Profile::conditions, words_of), "vigour that a tree may have",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.conditions = conditions_from(texts_in(value));
         }},
        {"suitability.gap_height_m", NumberKind{{0.0, 50.0}}, "m",
         always(2.0, {Status::published, "Brokaw 1982, Biotropica 14"}), "canopy no higher than this is open",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.height = core::Metres(number_in(value));
         }},
        {"suitability.gap_area_m2", NumberKind{{0.0, 1e6}}, "m²", always(25.0, common_practice),
         "connected open ground of at least this is a canopy gap",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.area = core::SquareMetres(number_in(value));
         }},
        {"suitability.avoid_species", ListKind{}, "", by_profile(&siting::Profile::avoid_species, list_of),
         "species that do not suit a box",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.avoid_species = texts_in(value);
         }},
    };
}

/// What a tree's surroundings must be like.
std::vector<ParameterSpec> surroundings_specs() {
    constexpr NumberRange metres{0.0, 1000.0}, lux{0.0, 1e4, true}, years{0.0, 200.0};
    const auto trees = [](SiteFile& site) -> trees::Settings& { return site.settings.suitability; };
    return {
        number_spec(
            "suitability.unknown_crown_radius_m", {0.0, 50.0}, "m", common_practice,
            "crown radius of a tree that has none, for distances from the crown's edge",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_radius; }),
        number_spec(
            "suitability.unknown_crown_in_gap_m", {0.0, 50.0}, "m", common_practice,
            "the same, for canopy near the stem of a tree in a gap",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_in_gap; }),
        number_spec(
            "suitability.roost_reach_m", metres, "m", common_practice,
            "animals known to live, or seen to come out, this near a tree may live in it",
            [=](SiteFile & s) -> auto& { return trees(s).roost_reach; }),
        number_spec(
            "suitability.lamp_never_m", metres, "m", azam,
            "a lamp this near the crown's edge rules a tree out",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_never; }),
        number_spec(
            "suitability.lamp_doubtful_m", metres, "m", azam,
            "a lamp this near the crown's edge must be looked at after dark",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_doubtful; }),
        number_spec(
            "suitability.lux_never", lux, "lx", common_practice,
            "this much lamp light on the entrance rules a tree out",
            [=](SiteFile & s) -> auto& { return trees(s).light.lux_never; }),
        number_spec(
            "suitability.lux_doubtful", lux, "lx", azam,
            "this much lamp light on the entrance must be looked at after dark",
            [=](SiteFile & s) -> auto& { return trees(s).light.lux_doubtful; }),
        number_spec(
            "suitability.light_through_crowns", {0.0, 1.0}, "", from_memory,
            "share of a lamp's light that passes 2 m of crowns and more; 1: crowns shade nothing",
            [=](SiteFile & s) -> auto& { return trees(s).light.through_crowns; }),
        number_spec(
            "suitability.road_m", metres, "m", common_practice,
            "a carriageway this near the crown's edge must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).roads.near; }),
        number_spec(
            "suitability.crossing_m", metres, "m", common_practice,
            "a flight line that crosses a road this near the crown's edge must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).roads.crossing; }),
        number_spec(
            "suitability.road_in_view_m", metres, "m", common_practice, "no box faces a road this near",
            [](SiteFile & s) -> auto& { return s.settings.road_in_view; }),
        {"suitability.keep_from", ListKind{}, "",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return list_of(unfit.animals); }),
         "words for animals whose boxes and nests must not be near (field animal of boxes)",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.animals = texts_in(value);
         }},
        {"suitability.keep_from_m", NumberKind{metres}, "m",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return Document(unfit.within.value()); }),
         "such a box or nest this near must be settled first",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.within = core::Metres(number_in(value));
         }},
        number_spec(
            "suitability.work_years", years, "years", common_practice,
            "felling or reduction due within this must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).work_years; }),
        number_spec(
            "suitability.inspection_years", years, "years", common_practice,
            "a judgement of safety older than this no longer counts",
            [=](SiteFile & s) -> auto& { return trees(s).inspection_years; }),
        number_spec(
            "suitability.most_hot_sun_h", {0.0, 12.0}, "h", common_practice,
            "most direct sun after 14:00 solar time in the hottest month on a box that heats up",
            [](SiteFile & s) -> auto& { return s.settings.climate.most_hot_sun; }),
    };
}

std::vector<ParameterSpec> box_specs() {
    return {
        {"box.made_of", TextKind{}, "", always(Document(), common_practice), "what the boxes are made of",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.box.made_of = text_in(value);
         }},
        {"box.wall", WordKind{{"thin", "insulated"}}, "", always("thin", common_practice),
         "thin walls heat up in the sun; most boxes have them",
         [](SiteFile& site, const Document& value) {
             site.settings.box.wall = text_in(value) == "thin" ? siting::Wall::thin : siting::Wall::insulated;
         }},
        {"box.colour", WordKind{{"pale", "medium", "dark"}}, "", always(Document(), common_practice),
         "dark boxes heat up in the sun",
         [](SiteFile& site, const Document& value) {
             if (value.is_null()) return;
             site.settings.box.colour = text_in(value) == "pale"     ? siting::Colour::pale
                                        : text_in(value) == "medium" ? siting::Colour::medium
                                                                     : siting::Colour::dark;
         }},
        {"box.slot_mm", NumberKind{{0.0, 1000.0, true}}, "mm", always(Document(), common_practice),
         "width of the entrance",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.box.slot = core::Millimetres(number_in(value));
         }},
    };
}

std::vector<ParameterSpec> weight_specs() {
    constexpr NumberRange weight{0.0, 100.0};
    const auto weights = [](SiteFile& site) -> siting::Weights& { return site.settings.weights; };
    return {
        number_spec(
            "weights.fitness_share", {0.0, 1.0}, "", common_practice,
            "how much of a tree's score the place can take away; 0: only flight counts",
            [=](SiteFile & s) -> auto& { return weights(s).fitness_share; }),
        number_spec(
            "weights.approach", weight, "", common_practice,
            "weight of the free way in from the flight line; 0 leaves it out",
            [=](SiteFile & s) -> auto& { return weights(s).approach; }),
        number_spec(
            "weights.sun", weight, "", common_practice, "weight of the sun on the box; 0 leaves it out",
            [=](SiteFile & s) -> auto& { return weights(s).sun; }),
        number_spec(
            "weights.dark", weight, "", common_practice,
            "weight of the dark at the entrance; 0 leaves it out",
            [=](SiteFile & s) -> auto& { return weights(s).dark; }),
        number_spec(
            "weights.quiet", weight, "", common_practice, "weight of the distance to roads; 0 leaves it out",
            [=](SiteFile & s) -> auto& { return weights(s).quiet; }),
    };
}

std::vector<ParameterSpec> choice_specs() {
    return {
        {"choose.sites", WholeKind{1, 100'000}, "", always(6, common_practice), "how many trees to choose",
         [](SiteFile& site, const Document& value) { site.settings.choice.sites = whole_in(value); }},
        {"choose.boxes_per_site", WholeKind{1, 20}, "",
         always(2, {Status::published, "Bat Conservation Trust, page on bat boxes; Brisbane chapter 2011"}),
         "boxes on each tree, facing different ways",
         [](SiteFile& site, const Document& value) {
             site.settings.choice.boxes_per_site = whole_in(value);
         }},
        {"choose.spacing_m", NumberKind{{0.0, 10'000.0}}, "m", always(30.0, common_practice),
         "no two chosen trees are closer than this",
         [](SiteFile& site, const Document& value) {
             site.settings.choice.spacing = core::Metres(number_in(value));
         }},
    };
}

/// What an entry of this kind holds.
struct KindReader {
    const TomlEntry& entry;

    Document operator()(const TextKind&) const { return entry.text(); }
    Document operator()(const WordKind& kind) const { return entry.word(kind.allowed); }
    Document operator()(const WholeKind& kind) const { return entry.whole(kind.min, kind.max); }
    Document operator()(const NumberKind& kind) const {
        if (entry.is_text() && std::ranges::find(kind.or_words, entry.text()) != kind.or_words.end())
            return entry.text();
        return entry.number(kind.range,
                            kind.or_words.empty() ? "" : fmt::format(", or {}", listed(kind.or_words)));
    }
    Document operator()(const ListKind& kind) const {
        return list_of(kind.allowed.empty() ? entry.texts() : entry.words(kind.allowed));
    }
};

siting::Parameter read_parameter(const ParameterSpec& spec, const TomlEntry& entry, const SiteFile& site) {
    siting::Parameter parameter{std::string(spec.key),    {}, std::string(spec.unit), {}, {},
                                std::string(spec.meaning)};
    if (entry.given()) {
        parameter.value = std::visit(KindReader{entry}, spec.kind);
        parameter.set_by = entry.from_override() ? "--set" : "site file";
        parameter.provenance.source = "chosen for this site";
        return parameter;
    }
    if (!spec.default_of) entry.fail(fmt::format("the site file must say {}.", spec.meaning));
    DefaultValue fallback = spec.default_of(site);
    parameter.value = std::move(fallback.value);
    parameter.set_by = fallback.set_by;
    parameter.provenance = std::move(fallback.provenance);
    return parameter;
}

/// Rules of the trade that take part and are no entry of the site file.
/// The curves of the box profile, which only a profile of one's own changes.
std::vector<siting::Parameter> profile_curves(const SiteFile& site) {
    const siting::Utilities& utilities = site.settings.profile.utilities;
    std::vector<siting::Parameter> told;
    const auto tell = [&](const char* name, const char* unit, const char* meaning,
                          const std::optional<siting::Sourced<siting::Curve>>& curve) {
        if (!curve) return;
        core::List points;
        for (const auto& point : curve->value.points)
            points.emplace_back(core::List{point.measured, point.utility});
        told.push_back({fmt::format("profile.{}.utility.{}", site.settings.profile.id, name),
                        std::move(points), unit, "box profile", curve->provenance, meaning});
    };
    tell("approach_m", "m", "fitness by free way toward the flight line", utilities.approach);
    tell("sun_h", "h", "fitness by sun on the face in the warm half-year, cool climate", utilities.sun);
    tell("sun_hot_h", "h", "the same in a hot climate", utilities.sun_hot);
    tell("lamp_lux", "lx", "fitness by lamp light at the entrance", utilities.lux);
    tell("lamp_m", "m", "fitness by distance to the nearest lamp, where it has no numbers", utilities.lamp);
    tell("road_m", "m", "fitness by distance to the nearest road", utilities.road);
    return told;
}

std::vector<siting::Parameter> fixed_parameters(const SiteFile& site) {
    const survey::Settings& survey = site.settings.survey;
    return {
        {"coldest_c", survey.coldest.value(), "°C", "fixed", from_memory, "colder evenings are poor weather"},
        {"windiest_ms", survey.windiest.value(), "m/s", "fixed", from_memory,
         "windier evenings are poor weather"},
    };
}

}  // namespace

const std::vector<ParameterSpec>& parameter_specs() {
    static const std::vector<ParameterSpec> specs = [] {
        std::vector<ParameterSpec> all = site_specs();
        for (auto&& part : {box_specs(), activity_specs(), suitability_specs(), surroundings_specs(),
                            weight_specs(), choice_specs()})
            all.insert(all.end(), part.begin(), part.end());
        return all;
    }();
    return specs;
}

void read_parameters(const TomlEntry& root, SiteFile& site) {
    for (const ParameterSpec& spec : parameter_specs()) {
        siting::Parameter parameter = read_parameter(spec, root.at_path(spec.key), site);
        spec.apply(site, parameter.value);
        site.settings.parameters.push_back(std::move(parameter));
    }
    for (auto&& part : {profile_curves(site), fixed_parameters(site)})
        site.settings.parameters.insert(site.settings.parameters.end(), part.begin(), part.end());
}

}  // namespace roostward::io
