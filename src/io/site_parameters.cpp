#include "site_parameters.hpp"

#include <algorithm>
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
std::vector<siting::Parameter> fixed_parameters(const SiteFile& site) {
    const trees::Settings& trees = site.settings.suitability;
    const survey::Settings& survey = site.settings.survey;
    return {
        {"unknown_crown_radius_m", trees.unknown_crown_radius.value(), "m", "fixed", common_practice,
         "crown radius of a tree that has none, for distances to what must be avoided"},
        {"unknown_crown_in_gap_m", trees.unknown_crown_in_gap.value(), "m", "fixed", common_practice,
         "the same, for canopy near the stem of a tree in a gap"},
        {"roost_reach_m", trees.roost_reach.value(), "m", "fixed", common_practice,
         "animals seen to come out this near a tree may live in it"},
        {"light.lamp_never_m", trees.light.lamp_never.value(), "m", "fixed", azam,
         "a lamp this near (from the crown's edge) rules a tree out"},
        {"light.lamp_doubtful_m", trees.light.lamp_doubtful.value(), "m", "fixed", azam,
         "a lamp this near must be looked at after dark"},
        {"light.lux_never", trees.light.lux_never.value(), "lx", "fixed", common_practice,
         "this much lamp light on the entrance rules a tree out"},
        {"light.lux_doubtful", trees.light.lux_doubtful.value(), "lx", "fixed", azam,
         "this much must be looked at after dark"},
        {"work_years", trees.work_years, "years", "fixed", common_practice,
         "felling or reduction due within this must be settled first"},
        {"inspection_years", trees.inspection_years, "years", "fixed", common_practice,
         "a judgement of safety older than this no longer counts"},
        {"coldest_c", survey.coldest.value(), "°C", "fixed", from_memory, "colder evenings are poor weather"},
        {"windiest_ms", survey.windiest.value(), "m/s", "fixed", from_memory,
         "windier evenings are poor weather"},
    };
}

}  // namespace

const std::vector<ParameterSpec>& parameter_specs() {
    static const std::vector<ParameterSpec> specs = [] {
        std::vector<ParameterSpec> all = site_specs();
        for (auto&& part : {activity_specs(), suitability_specs(), choice_specs()})
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
    for (siting::Parameter& parameter : fixed_parameters(site))
        site.settings.parameters.push_back(std::move(parameter));
}

}  // namespace roostward::io
