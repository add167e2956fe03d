#pragma once

namespace roostward::activity {

/// By how many standard errors `on` events exceed what `off` events elsewhere let expect, where chance would
/// give `on` a mean of `ratio` times that of `off`: the likelihood ratio of Li & Ma 1983 (Astrophysical
/// Journal 272, eq. 17), which holds for few events too. Negative where there are fewer than expected.
[[nodiscard]] double contrast(double on, double off, double ratio);

}  // namespace roostward::activity
