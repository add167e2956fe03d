#include <array>

#include "site/parameter_tables.hpp"

namespace roostward::io {

namespace {

/// In the order of siting::Shared.
constexpr std::array<std::string_view, 4> shared_words{"owner", "species", "zone", "condition"};

std::vector<siting::Quota> quotas_in(const Document& value) {
    std::vector<siting::Quota> quotas;
    for (const Document& item : std::get<core::List>(value.value())) {
        const auto& quota = std::get<core::Object>(item.value());
        const auto word = std::ranges::find(shared_words, text_in(quota[0].second)) - shared_words.begin();
        quotas.push_back({static_cast<siting::Shared>(word), whole_in(quota[1].second)});
    }
    return quotas;
}

}  // namespace

std::vector<ParameterSpec> box_specs() {
    return {
        {"box.made_of", TextKind{}, "", always(Document(), common_practice), "setting.box.made_of",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.box.made_of = text_in(value);
         }},
        {"box.wall", WordKind{{"thin", "insulated"}}, "", always("thin", common_practice), "setting.box.wall",
         [](SiteFile& site, const Document& value) {
             site.settings.box.wall = text_in(value) == "thin" ? siting::Wall::thin : siting::Wall::insulated;
         }},
        {"box.colour", WordKind{{"pale", "medium", "dark"}}, "", always(Document(), common_practice),
         "setting.box.colour",
         [](SiteFile& site, const Document& value) {
             if (value.is_null()) return;
             site.settings.box.colour = text_in(value) == "pale"     ? siting::Colour::pale
                                        : text_in(value) == "medium" ? siting::Colour::medium
                                                                     : siting::Colour::dark;
         }},
        {"box.slot_mm", NumberKind{{0.0, 1000.0, true}}, "mm", always(Document(), common_practice),
         "setting.box.slot_mm",
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
            "setting.weights.fitness_share", [=](SiteFile & s) -> auto& { return weights(s).fitness_share; }),
        number_spec(
            "weights.approach", weight, "", common_practice,
            "setting.weights.approach", [=](SiteFile & s) -> auto& { return weights(s).approach; }),
        number_spec(
            "weights.sun", weight, "", common_practice,
            "setting.weights.sun", [=](SiteFile & s) -> auto& { return weights(s).sun; }),
        number_spec(
            "weights.dark", weight, "", common_practice,
            "setting.weights.dark", [=](SiteFile & s) -> auto& { return weights(s).dark; }),
        number_spec(
            "weights.quiet", weight, "", common_practice,
            "setting.weights.quiet", [=](SiteFile & s) -> auto& { return weights(s).quiet; }),
    };
}

std::vector<ParameterSpec> choice_specs() {
    return {
        {"choose.sites", WholeKind{1, 100'000}, "", always(6, common_practice), "setting.choose.sites",
         [](SiteFile& site, const Document& value) { site.settings.choice.sites = whole_in(value); }},
        {"choose.boxes_per_site", WholeKind{1, 20}, "",
         always(2, {Status::published, "Bat Conservation Trust, page on bat boxes; Brisbane chapter 2011"}),
         "setting.choose.boxes_per_site",
         [](SiteFile& site, const Document& value) {
             site.settings.choice.boxes_per_site = whole_in(value);
         }},
        {"choose.spacing_m", NumberKind{{0.0, 10'000.0}}, "m", always(30.0, common_practice),
         "setting.choose.spacing_m",
         [](SiteFile& site, const Document& value) {
             site.settings.choice.spacing = core::Metres(number_in(value));
         }},
        {"choose.must", ListKind{}, "", always(core::List(), common_practice), "setting.choose.must",
         [](SiteFile& site, const Document& value) { site.settings.choice.must = texts_in(value); }},
        {"choose.never", ListKind{}, "", always(core::List(), common_practice), "setting.choose.never",
         [](SiteFile& site, const Document& value) { site.settings.choice.never = texts_in(value); }},
        {"choose.at_most", QuotaKind{{shared_words.begin(), shared_words.end()}}, "",
         always(core::List(), common_practice), "setting.choose.at_most",
         [](SiteFile& site, const Document& value) { site.settings.choice.at_most = quotas_in(value); }},
        {"choose.budget", NumberKind{{0.0, 1e12}}, "", always(Document(), common_practice),
         "setting.choose.budget",
         [](SiteFile& site, const Document& value) {
             if (!value.is_null()) site.settings.choice.budget = number_in(value);
         }},
    };
}

}  // namespace roostward::io
