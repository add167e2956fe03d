#pragma once

#include <string>

#include "roostward/activity/bandwidth.hpp"
#include "roostward/core/document.hpp"

namespace roostward::report {

/// How far flights are spread, how strongly thinly watched places lean on the mean, and who decided it.
[[nodiscard]] std::string bandwidth_sentence(const activity::Bandwidth& bandwidth);

/// The search by evenings: every bandwidth tried, with the best shrink there and its support less the
/// largest. Null where there was no search.
[[nodiscard]] core::Document bandwidth_document(const activity::Bandwidth& bandwidth);

}  // namespace roostward::report
