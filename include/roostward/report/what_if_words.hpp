#pragma once

#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// What would be chosen if something were otherwise.
namespace roostward::report {

/// "3", "2 and 5"; empty where there are none.
[[nodiscard]] std::string numbers_in_words(const std::vector<std::size_t>& numbers);

/// "If dark counted twice: site 4 moves to T88."
[[nodiscard]] std::string sentence_of(const plan::Plan& plan, const siting::WhatIf& line);

/// The whole table: a sentence for each line that changes the choice, then one for all that do not.
[[nodiscard]] std::vector<std::string> what_if_sentences(const plan::Plan& plan);

/// The same, with what a few lines on a terminal have room for: of weights, rules and spacing how many change
/// nothing, and the one that changes most.
[[nodiscard]] std::vector<std::string> what_if_in_short(const plan::Plan& plan);

/// The table as plan.json lists it.
[[nodiscard]] core::Object what_if_document(const plan::Plan& plan);

}  // namespace roostward::report
