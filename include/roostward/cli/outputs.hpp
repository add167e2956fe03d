#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/cli/options.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/picture.hpp"
#include "roostward/io/output_folder.hpp"
#include "roostward/io/times.hpp"
#include "roostward/plan/evenings_plan.hpp"
#include "roostward/plan/plan.hpp"
#include "roostward/report/plan_document.hpp"
#include "roostward/report/public_plan.hpp"

namespace roostward::cli {

/// What is told of a run of `plan`, but for its folder. `made_at` is the present, or SOURCE_DATE_EPOCH where
/// that is set. Throws Error{usage} where it is not a number.
[[nodiscard]] report::RunFacts facts_of_run(const Options& options);

/// The clock on the wall at the site, by its IANA name.
struct EveningsClock {
    std::string zone;
    const io::SiteClock& at_site;
};

/// Writes every output of `evenings` but evenings.json.
void write_evenings(const plan::EveningsPlan& plan, const EveningsClock& clock, io::OutputFolder& folder,
                    core::Threads threads);

/// Writes every output of `plan` but plan.json into the folder, which is not yet published. `basemap` is for
/// the report.
void write_outputs(const plan::Plan& plan, const report::RunFacts& facts, io::OutputFolder& folder,
                   const std::optional<core::Picture>& basemap, core::Threads threads);

/// The same of a screening.
void write_screening(const plan::Plan& plan, io::OutputFolder& folder, core::Threads threads);

/// The same of a copy for everybody: report.html.
void write_public_copy(const report::PublicPlan& plan, io::OutputFolder& folder);

}  // namespace roostward::cli
