#include <algorithm>

#include "roostward/canopy/shade.hpp"
#include "roostward/core/catalogue.hpp"
#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

constexpr Lux felt{0.01};  ///< a lamp that gives less on its own is left out of the sum

double rounded(Lux lux) {
    return trees::rounded(lux.value(), lux < Lux(1.0) ? 2 : 1);
}

}  // namespace

Lamps::Lamps(const std::vector<Lamp>& lamps, const std::optional<core::Raster>& canopy_height,
             const Settings& settings)
    : lamps_(&lamps), canopy_height_(&canopy_height), settings_(&settings) {
    std::vector<core::PlanePoint> places;
    for (const Lamp& lamp : lamps) {
        places.push_back(lamp.position);
        reach_ = std::max(reach_, reach_of(lamp, felt));
    }
    index_.emplace(places);
}

bool Lamps::shaded(const Lamp& lamp, const Tree& tree) const {
    if (!*canopy_height_) return false;
    const core::Metres entrance = settings_->entrance;
    return canopy::crowns_between(**canopy_height_, {lamp.position, lamp.height.value_or(entrance)},
                                  {tree.stem, entrance},
                                  crown_of(tree, *settings_)) >= settings_->light.shading;
}

Light Lamps::at(const Tree& tree) const {
    const LightLimits& limits = settings_->light;
    const core::Metres near = limits.lamp_doubtful + crown_of(tree, *settings_) + geo::edge_tolerance;
    Light light;
    double sum = 0.0;
    bool all_told = true;
    for (const std::size_t i : index_->within(tree.stem, std::max(near, reach_))) {
        const Lamp& lamp = (*lamps_)[i];
        const core::Metres away = as_measured(core::distance(tree.stem, lamp.position));
        light.lamp = std::min(light.lamp.value_or(away), away);
        const auto lux = light_from(lamp, away, settings_->entrance);
        all_told = all_told && lux.has_value();
        if (!lux || *lux < felt) continue;
        const bool behind_crowns = shaded(lamp, tree);
        light.shaded = light.shaded || behind_crowns;
        sum += lux->value() * (behind_crowns ? limits.through_crowns : 1.0);
    }
    if (all_told) light.lux = Lux(sum);
    return light;
}

std::optional<Reason> lit(const Light& light, const Tree& tree, const Context& context) {
    const LightLimits& limits = context.settings.light;
    const core::Metres crown = crown_of(tree, context.settings);
    const core::Metres entrance = context.settings.entrance;
    const auto from_crown = light.lamp
                                ? std::optional(as_measured(std::max(core::Metres(0.0), *light.lamp - crown)))
                                : std::nullopt;
    const auto too_bright = [&](Lux limit) { return light.lux && *light.lux >= limit; };
    const auto too_near = [&](core::Metres limit) { return from_crown && *from_crown <= limit; };
    const auto bright = [&](Lux limit) {
        return core::said(light.shaded ? "reason.lamp_light_shaded" : "reason.lamp_light",
                          {{"lux", rounded(*light.lux)},
                           {"metres", trees::rounded(entrance)},
                           {"percent", 100.0 * limits.through_crowns},
                           {"limit", rounded(limit)}});
    };
    const auto near = [&](core::Metres limit) {
        return core::said("reason.lamp",
                          {{"metres", trees::rounded(*from_crown)}, {"limit", trees::rounded(limit)}});
    };
    const auto after_dark = [](const std::string& sentence) {
        return sentence + " " + core::said("reason.after_dark");
    };
    if (too_near(limits.lamp_never))
        return ruled_out("lamp", {from_crown->value(), limits.lamp_never.value()}, near(limits.lamp_never));
    if (too_bright(limits.lux_never))
        return ruled_out("lamp light", {light.lux->value(), limits.lux_never.value()},
                         bright(limits.lux_never));
    if (too_near(limits.lamp_doubtful))
        return to_settle("lamp", who::surveyor, {from_crown->value(), limits.lamp_doubtful.value()},
                         after_dark(near(limits.lamp_doubtful)), core::said("ask.after_dark"));
    if (too_bright(limits.lux_doubtful))
        return to_settle("lamp light", who::surveyor, {light.lux->value(), limits.lux_doubtful.value()},
                         after_dark(bright(limits.lux_doubtful)), core::said("ask.after_dark"));
    return std::nullopt;
}

}  // namespace roostward::trees
