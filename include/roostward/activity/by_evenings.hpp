#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/activity/settings.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// What people's positions can show at best: flights scatter some 4–5 m about their route and places are
/// noted to 4–5 m, a blur of about 6 m; a kernel as wide keeps what there is to see (common practice, no
/// source). Wanted where the evenings cannot tell.
inline constexpr core::Metres usual_h{6.0};

/// What the search found at one bandwidth.
struct EveningTrial {
    core::Metres h;
    core::Hours shrink;    ///< the best at this h
    double support = 0.0;  ///< less that of the best trial: 0 there, negative elsewhere
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

/// Searches h in [max(2 cells, q/2), 60 m], q the step of more than half of the flights' coordinates, and τ
/// from `min_watch`, at least 0.05 h, to 8 h, for the largest support, to about 2 % each: the log-likelihood
/// of each evening under the others (EveningLikelihood) over 5, less ½ (ln(h / 6 m) / ½)². The 5 is the
/// dispersion of a quasi-likelihood (Wedderburn 1974, Biometrika 61): passes come and stay away together, so
/// that a station's ten or so passes an evening vary about five times as much as single ones would. The rest
/// is a weak prior about `usual_h`: it decides where evenings say little, and fades as passes add up. A
/// number in the settings is kept, and only the other is searched.
[[nodiscard]] EveningSearch search_by_evenings(const survey::Survey& survey, const Settings& settings,
                                               core::Threads threads);

}  // namespace roostward::activity
