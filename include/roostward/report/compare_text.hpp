#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/report/finished_plan.hpp"

/// What moved from one plan to another, and why: the answer of `compare`.
namespace roostward::report {

/// A group of sentences under its title.
struct Changes {
    std::string_view title;  ///< a key of the catalogue
    std::vector<std::string> sentences;
};

struct Comparison {
    std::string before, after;     ///< the plans, by number
    std::vector<Changes> causes;   ///< data, evenings, weights, rules, other settings, the program
    std::vector<Changes> effects;  ///< sites, states, ranks; empty where nothing moved
    [[nodiscard]] bool moved() const { return !effects.empty(); }
};
/// Trees are the same where their tags are.
[[nodiscard]] Comparison compare(const FinishedPlan& before, const FinishedPlan& after);

[[nodiscard]] std::string compare_text(const Comparison& comparison);
[[nodiscard]] core::Document compare_document(const Comparison& comparison);

}  // namespace roostward::report
