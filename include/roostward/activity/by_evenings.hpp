#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/activity/settings.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// What the search found at one bandwidth.
struct EveningTrial {
    core::Metres h;
    core::Hours shrink;           ///< the best at this h
    double log_likelihood = 0.0;  ///< less that of the best trial: 0 there, negative elsewhere
};

/// An end of the range that was searched, where the search came to rest.
enum class Bound { none, low, high };

/// How h and τ were looked for by evenings.
struct EveningSearch {
    core::Metres h;
    core::Hours shrink;
    std::vector<EveningTrial> trials;  ///< ascending in h; empty where the search failed
    Bound h_bound = Bound::none;
    Bound shrink_bound = Bound::none;
    std::string why_not;  ///< a clause, as "only one evening counts"; empty where h and τ were found
    [[nodiscard]] bool found() const { return why_not.empty(); }
};

/// Searches h in [max(2 cells, q/2), 60 m], q the largest step of the flights' coordinates, and τ from
/// `min_watch`, at least 0.05 h, to 8 h, for the largest log-likelihood of each evening under the others
/// (EveningLikelihood), to about 2 % each. A number in the settings is kept, and only the other is searched.
[[nodiscard]] EveningSearch search_by_evenings(const survey::Survey& survey, const Settings& settings,
                                               core::Threads threads);

}  // namespace roostward::activity
