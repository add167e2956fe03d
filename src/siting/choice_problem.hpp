#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/point.hpp"
#include "roostward/core/units.hpp"

namespace roostward::siting {

/// A tree that may be chosen. All sums over chosen trees are of whole numbers, so that they are exact.
struct Option {
    std::size_t tree = 0;
    std::int64_t score = 0;  ///< millionths
    std::size_t place = 0;   ///< among all contenders, best first, from 0
    core::PlanePoint stem;
    std::int64_t cost = 0;  ///< hundredths
};

/// Trees in groups, and how many of each group may still be chosen.
struct GroupLimit {
    std::vector<std::uint32_t> group;  ///< one an option
    std::vector<std::size_t> room;     ///< one a group
};

/// Up to `sites` of the options, no two closer than the spacing, within every limit and the budget, with the
/// largest sum of scores; of equal sums the one whose trees rank better together (the larger sum of
/// `contenders` − place), then the one that holds the best tree that the other lacks.
struct ChoiceProblem {
    std::vector<Option> options;  ///< by place
    std::size_t contenders = 0;   ///< larger than every place
    std::size_t sites = 0;
    core::Metres spacing;
    std::vector<GroupLimit> limits;
    std::optional<std::int64_t> budget;
};

/// Score and place of each option as one number, so that the largest sum of numbers is the set asked for.
struct Worth {
    std::int64_t per_millionth = 1;
    std::vector<std::int64_t> of;  ///< one an option
    explicit Worth(const ChoiceProblem& problem);
    [[nodiscard]] std::int64_t sum(std::span<const std::size_t> picked) const;
};

/// Which options are too close to each other to be chosen together, as sorted lists.
class Conflicts {
 public:
    /// Stops counting at `most_pairs`.
    Conflicts(const ChoiceProblem& problem, std::size_t most_pairs);
    [[nodiscard]] bool complete() const { return complete_; }
    [[nodiscard]] std::span<const std::uint32_t> of(std::size_t option) const {
        return std::span(other_).subspan(start_[option], start_[option + 1] - start_[option]);
    }
    [[nodiscard]] bool between(std::size_t one, std::size_t other) const;

 private:
    bool complete_ = true;
    std::vector<std::size_t> start_;
    std::vector<std::uint32_t> other_;
};

/// What a set that is being put together has left.
class Room {
 public:
    explicit Room(const ChoiceProblem& problem);
    [[nodiscard]] bool for_one(std::size_t option) const;
    [[nodiscard]] std::size_t sites() const { return sites_; }
    [[nodiscard]] std::int64_t money() const { return money_; }
    [[nodiscard]] std::size_t in_group(std::size_t limit, std::uint32_t group) const {
        return groups_[limit][group];
    }
    void take(std::size_t option);
    void give_back(std::size_t option);

 private:
    const ChoiceProblem* problem_;
    std::size_t sites_;
    std::vector<std::vector<std::size_t>> groups_;
    std::int64_t money_;
};

/// What no set can be worth more than: of each square whose options are all too close to each other the best,
/// and of these the best for every site.
[[nodiscard]] std::int64_t bound_by_squares(const ChoiceProblem& problem, const Worth& worth);

[[nodiscard]] bool too_close(const ChoiceProblem& problem, std::size_t one, std::size_t other);

/// Whether a set keeps every rule.
[[nodiscard]] bool keeps_the_rules(const ChoiceProblem& problem, std::span<const std::size_t> picked);

/// The problem on some of its options, ascending.
[[nodiscard]] ChoiceProblem among(const ChoiceProblem& problem, std::span<const std::size_t> options);

/// What is left to choose once some options are in the set: without them, without those too close to them and
/// without those for which there is no room left.
[[nodiscard]] ChoiceProblem beside(const ChoiceProblem& problem, std::span<const std::size_t> taken);

/// Leaves out options that the set asked for cannot hold. An option goes when better placed ones of the same
/// groups and no higher cost either stand in `sites` places two spacings apart (of which the others of a set
/// can block at most one each), or are more than (`sites` − 1) times the most that one tree blocks: the set
/// would be better with one of these in its place. Does not count where there are more than `most_pairs` of
/// options too close to each other.
[[nodiscard]] ChoiceProblem reduced(const ChoiceProblem& problem, std::size_t most_pairs);

}  // namespace roostward::siting
