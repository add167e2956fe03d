#pragma once

#include <cstdint>
#include <optional>
#include <variant>

#include "roostward/core/units.hpp"

namespace roostward::activity {

/// Leave one evening out: what is most likely to foretell an evening from the others.
struct ByEvenings {
    friend bool operator==(ByEvenings, ByEvenings) = default;
};
/// Silverman 1986, held in 5–20 m.
struct RuleOfThumb {
    friend bool operator==(RuleOfThumb, RuleOfThumb) = default;
};

struct Settings {
    std::variant<ByEvenings, RuleOfThumb, core::Metres> bandwidth;
    std::variant<ByEvenings, core::Hours> shrink;
    core::Metres cell{1.0};
    std::uint64_t seed = 1;  ///< of everything that is drawn at random
    /// Coefficient of variation of a rate from one evening to the next, before the evenings tell: common
    /// practice, no source.
    double evening_spread = 0.75;
    core::Hours min_watch{0.25};  ///< effective watching below which a place counts as not watched
};

}  // namespace roostward::activity
