#pragma once

#include <cstddef>
#include <vector>

#include "roostward/evenings/choose_posts.hpp"
#include "rounds.hpp"
#include "watching.hpp"

namespace roostward::evenings {

/// All rounds, evening by evening and team by team, each the best on top of those before. Refers to what it
/// is given.
class Drafts {
 public:
    Drafts(const RoundMaker& maker, const Asked& asked, const std::vector<HeldPost>& held, Watching watching);

    /// Makes every round anew with all others as they are, where that is worth more.
    void sweep();
    [[nodiscard]] const std::vector<std::vector<Draft>>& all() const { return of_; }

 private:
    [[nodiscard]] Draft best(std::size_t evening, std::size_t team);
    [[nodiscard]] std::vector<HeldPost> held_but_on(std::size_t evening) const;
    void lay(std::size_t evening);
    void remake(std::size_t evening, std::size_t team);

    const RoundMaker& maker_;
    const Asked& asked_;
    const std::vector<HeldPost>& held_;
    Watching watching_;
    std::vector<std::vector<Draft>> of_;
};

}  // namespace roostward::evenings
