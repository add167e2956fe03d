#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/plan/plan.hpp"

/// What somebody must decide before a tree can carry a box.
namespace roostward::report {

/// "Ask the surveyor: Which species is it?"
[[nodiscard]] std::string ask_the(std::string_view who, std::string_view what);

/// Everybody who must decide something, each once, in the order of the reasons: "owner, tree officer".
[[nodiscard]] std::string who_decides(const trees::Verdict& verdict);

/// "Ask the licensed bat person: Do animals live here? Ask the owner: May boxes hang on this tree?"
[[nodiscard]] std::string what_to_ask(const trees::Verdict& verdict);

/// The best trees worth settling, and by whom: "Worth settling first: T12 (owner) and 3 more."; empty where
/// there are none.
[[nodiscard]] std::string settling_in_short(const plan::Plan& plan);

/// All of them for plan.json.
[[nodiscard]] core::List settling_document(const plan::Plan& plan);

/// What the owner is asked and told, in one paragraph. Common practice, no source, but for the protection of
/// roosts: Bat Conservation Trust, news page, of the UK.
[[nodiscard]] std::string owners_paragraph(const plan::Plan& plan);
/// The same of some of the chosen trees.
[[nodiscard]] std::string owners_paragraph(const plan::Plan& plan, const std::vector<std::size_t>& chosen);

}  // namespace roostward::report
