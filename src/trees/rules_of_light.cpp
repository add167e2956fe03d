#include <fmt/format.h>

#include <algorithm>

#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

constexpr Lux felt{0.01};  ///< a lamp that gives less on its own is left out of the sum

std::string plain(Lux lux) {
    return trees::plain(lux.value(), lux < Lux(1.0) ? 2 : 1);
}

}  // namespace

Lamps::Lamps(const std::vector<Lamp>& lamps) : lamps_(&lamps) {
    std::vector<core::PlanePoint> places;
    for (const Lamp& lamp : lamps) {
        places.push_back(lamp.position);
        reach_ = std::max(reach_, reach_of(lamp, felt));
    }
    index_.emplace(places);
}

Light Lamps::at(core::PlanePoint stem, core::Metres entrance, core::Metres look) const {
    Light light;
    double sum = 0.0;
    bool all_told = true;
    for (const std::size_t i : index_->within(stem, std::max(look, reach_))) {
        const Lamp& lamp = (*lamps_)[i];
        const core::Metres away = as_measured(core::distance(stem, lamp.position));
        light.lamp = std::min(light.lamp.value_or(away), away);
        const auto lux = light_from(lamp, away, entrance);
        all_told = all_told && lux.has_value();
        sum += lux.value_or(Lux(0.0)).value();
    }
    if (all_told) light.lux = Lux(sum);
    return light;
}

std::optional<Reason> lit(const Light& light, const Tree& tree, const Context& context) {
    const LightLimits& limits = context.settings.light;
    const core::Metres crown = crown_of(tree, context.settings);
    const core::Metres entrance = context.settings.entrance;
    const std::string after_dark =
        " Visit after dark: if a lamp throws your shadow on the trunk, do not hang here.";
    const std::string after_dark_ask = "Does a lamp throw your shadow on the trunk after dark?";
    const auto from_crown = light.lamp
                                ? std::optional(as_measured(std::max(core::Metres(0.0), *light.lamp - crown)))
                                : std::nullopt;
    const auto too_bright = [&](Lux limit) { return light.lux && *light.lux >= limit; };
    const auto too_near = [&](core::Metres limit) { return from_crown && *from_crown <= limit; };
    const auto bright = [&](Lux limit) {
        return fmt::format(
            "Up to {} lx of lamp light fall on an entrance at {} m; less than {} lx are needed.",
            plain(*light.lux), trees::plain(entrance), plain(limit));
    };
    const auto near = [&](core::Metres limit) {
        return fmt::format("A lamp stands {} m from the crown's edge; more than {} m are needed.",
                           trees::plain(*from_crown), trees::plain(limit));
    };
    if (too_near(limits.lamp_never))
        return ruled_out("lamp", {from_crown->value(), limits.lamp_never.value()}, near(limits.lamp_never));
    if (too_bright(limits.lux_never))
        return ruled_out("lamp light", {light.lux->value(), limits.lux_never.value()},
                         bright(limits.lux_never));
    if (too_near(limits.lamp_doubtful))
        return to_settle("lamp", who::surveyor, {from_crown->value(), limits.lamp_doubtful.value()},
                         near(limits.lamp_doubtful) + after_dark, after_dark_ask);
    if (too_bright(limits.lux_doubtful))
        return to_settle("lamp light", who::surveyor, {light.lux->value(), limits.lux_doubtful.value()},
                         bright(limits.lux_doubtful) + after_dark, after_dark_ask);
    return std::nullopt;
}

}  // namespace roostward::trees
