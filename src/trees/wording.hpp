#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "roostward/trees/suitability.hpp"

namespace roostward::trees {

/// The kinds of people who settle things.
namespace who {
inline constexpr std::string_view surveyor = "surveyor";
inline constexpr std::string_view arborist = "arborist";
inline constexpr std::string_view tree_officer = "tree officer";
inline constexpr std::string_view owner = "owner";
inline constexpr std::string_view bat_person = "licensed bat person";
}  // namespace who

/// Why a reason applies: what was measured and what is required, null where nothing was.
struct Grounds {
    core::Document measured;
    core::Document required;
};

[[nodiscard]] Reason ruled_out(std::string_view rule, Grounds grounds, std::string sentence);
/// `ask`: what to ask of those who decide, in their words.
[[nodiscard]] Reason to_settle(std::string_view rule, std::string_view by, Grounds grounds,
                               std::string sentence, std::string ask);

/// To so many decimals, as they would be written.
[[nodiscard]] double rounded(double value, int decimals);
[[nodiscard]] double rounded(core::Metres value);       ///< to 0.1 m
[[nodiscard]] double rounded(core::Centimetres value);  ///< to 0.01 cm
/// "3 years", "1 year".
[[nodiscard]] std::string in_years(double years);
[[nodiscard]] std::string capitalised(std::string_view text);

/// As written in outputs and held against limits: coordinates are kept to 0.1 mm, so no distance is finer.
[[nodiscard]] core::Metres as_measured(core::Metres distance);

}  // namespace roostward::trees
