#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Trees farther than this from watched ground are on no map and in no table of the page.
inline constexpr core::Metres shown_within{200.0};

/// The trees of the page, in the order of the inventory.
class ShownTrees {
 public:
    explicit ShownTrees(const plan::Plan& plan);
    [[nodiscard]] const std::vector<std::size_t>& trees() const { return trees_; }
    /// Where a tree stands in `trees()`.
    [[nodiscard]] std::optional<std::size_t> place_of(std::size_t tree) const;

 private:
    std::vector<std::size_t> trees_;  ///< ascending
};

}  // namespace roostward::report
