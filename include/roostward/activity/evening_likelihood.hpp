#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

struct EveningModel;

/// The Poisson log-likelihood of each evening's observations under the flight density of the others:
///
///     Σ_n [ Σ_{i∈n} c_i/ℓ_i ∫_{P_i} log λ_{−n} ds − Σ_{w∈n} ∫ λ_{−n} E_w/ℓ_w ],  λ_{−n} >= 1e-6 λ̄_{−n}
///
/// ℓ_w, the metres that one observation of a watch stands for, is the mean of its own observations weighted
/// by animals, else its range times what ℓ is to the range over all watches. A flight heard but not placed is
/// in λ but is no observation; the watch is expected to see so many fewer (ℓ_w over the share of its animals
/// that were placed, a thinned Poisson process). So is a tally: its line is the same on every evening, which
/// would call for h = 0. Accuracies share at most four kernels, and the smoothed effort takes the kernels of
/// all evenings. Flights whose coordinates were rounded are moved by up to half a step, always the same way.
class EveningLikelihood {
 public:
    /// `seed`: of the offsets that rounded coordinates are spread by.
    EveningLikelihood(const survey::Survey& survey, std::uint64_t seed);

    /// A clause, as "only one evening counts"; empty where there is a likelihood.
    [[nodiscard]] const std::string& why_not() const;

    /// One value a τ, without the terms that hold neither h nor τ. Summed on tiles of cells of h/2.5:
    /// differences between values keep to 1e-4 an observation, 2e-3 where even ground has edges. τ = 0 stands
    /// for 0.001 h. The same bits for any number of threads.
    [[nodiscard]] std::vector<double> at(core::Metres h, std::span<const core::Hours> shrinks,
                                         core::Threads threads) const;

 private:
    std::shared_ptr<const EveningModel> model_;
};

}  // namespace roostward::activity
