#pragma once

#include "roostward/core/finding.hpp"
#include "roostward/io/translation.hpp"
#include "roostward/report/finished_plan.hpp"

namespace roostward::cli {

/// From now on the words of the translation are said. Returns what in it is doubtful.
core::Findings speak(const io::Translation& translation);

/// The same for the language of a finished plan, where its words are still where they were; else English.
void speak_as(const report::FinishedPlan& plan);

}  // namespace roostward::cli
