#include "choice_search.hpp"

#include <algorithm>
#include <functional>
#include <numeric>
#include <utility>

namespace roostward::siting {

namespace {

/// Of equal worth the set that holds the best option that the other lacks.
bool replaces(const std::vector<std::size_t>& set, std::int64_t worth, const Picked& best) {
    return worth > best.worth || (worth == best.worth && set < best.options);
}

/// Marks that are all taken off in one step.
class Marks {
 public:
    explicit Marks(std::size_t count) : round_(count, 0) {}
    void clear() { ++now_; }
    void set(std::size_t i) { round_[i] = now_; }
    [[nodiscard]] bool has(std::size_t i) const { return round_[i] == now_; }

 private:
    std::vector<std::uint64_t> round_;
    std::uint64_t now_ = 1;
};

class Search {
 public:
    Search(const Guide& guide, std::vector<std::size_t> start, std::size_t most_looks)
        : on_(guide),
          looks_left_(most_looks),
          room_(guide.problem),
          order_(guide.problem.options.size()),
          shut_(order_.size(), 0),
          cell_taken_(guide.cells.count),
          in_relaxed_(order_.size()),
          blocked_(order_.size()) {
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        std::ranges::stable_sort(order_, std::ranges::greater{},
                                 [&](std::size_t i) { return on_.priced.left[i]; });
        if (!on_.problem.limits.empty()) group_taken_.resize(on_.problem.limits.front().room.size());
        best_.worth = on_.worth.sum(start);
        best_.options = std::move(start);
    }

    Picked run() {
        best_.bound = relax();
        while (true) {
            ++best_.nodes;
            const std::int64_t bound = relax();
            try_rounded();
            if (bound >= best_.worth && !relaxed_.empty()) {
                if (looks_left_ == 0) return std::move(best_);
                take(branching_option());
            } else if (!leave_out_last()) {
                best_.bound = best_.worth;
                best_.proven = true;
                return std::move(best_);
            }
        }
    }

 private:
    struct Decision {
        std::size_t option;
        bool taken;
    };

    [[nodiscard]] bool is_open(std::size_t option) const {
        return shut_[option] == 0 && room_.for_one(option);
    }

    void spend(std::size_t looks) { looks_left_ -= std::min(looks, looks_left_); }

    /// Whether its cell and its group have room in the relaxed set; takes it if so.
    bool relaxed_takes(std::size_t option) {
        if (cell_taken_.has(on_.cells.of[option])) return false;
        if (!on_.problem.limits.empty()) {
            const std::uint32_t group = on_.problem.limits.front().group[option];
            if (group_taken_[group] == room_.in_group(0, group)) return false;
            ++group_taken_[group];
        }
        cell_taken_.set(on_.cells.of[option]);
        return true;
    }

    /// The bound of this node. Leaves the set that has it in `relaxed_`, with what prices leave nothing of:
    /// it is empty only where nothing more fits.
    std::int64_t relax() {
        relaxed_.clear();
        cell_taken_.clear();
        std::ranges::fill(group_taken_, std::size_t{0});
        std::int64_t bound = on_.priced.taken_in + left_of_taken_;
        for (const std::size_t option : order_) {
            if (relaxed_.size() == room_.sites()) break;
            spend(1);
            if (!is_open(option) || !relaxed_takes(option)) continue;
            relaxed_.push_back(option);
            bound += std::max(on_.priced.left[option], std::int64_t{0});
        }
        return bound;
    }

    /// The relaxed set less what does not fit is a set too.
    void try_rounded() {
        std::vector<std::size_t> set = taken_;
        Room room = room_;
        blocked_.clear();
        for (const std::size_t option : relaxed_) {
            if (blocked_.has(option) || !room.for_one(option)) continue;
            room.take(option);
            set.push_back(option);
            spend(on_.conflicts.of(option).size());
            for (const std::uint32_t other : on_.conflicts.of(option))
                blocked_.set(other);
        }
        std::ranges::sort(set);
        const std::int64_t worth = on_.worth.sum(set);
        if (!replaces(set, worth, best_)) return;
        best_.worth = worth;
        best_.options = std::move(set);
    }

    /// One of the relaxed set that is too close to another of it, else the first.
    std::size_t branching_option() {
        in_relaxed_.clear();
        for (const std::size_t option : relaxed_)
            in_relaxed_.set(option);
        for (const std::size_t option : relaxed_)
            if (std::ranges::any_of(on_.conflicts.of(option),
                                    [&](std::uint32_t other) { return in_relaxed_.has(other); }))
                return option;
        return relaxed_.front();
    }

    void take(std::size_t option) {
        decisions_.push_back({option, true});
        taken_.push_back(option);
        left_of_taken_ += on_.priced.left[option];
        room_.take(option);
        ++shut_[option];
        for (const std::uint32_t other : on_.conflicts.of(option))
            ++shut_[other];
    }

    /// Back to the option that was taken last, which is left out from here on. False: all has been tried.
    bool leave_out_last() {
        while (!decisions_.empty() && !decisions_.back().taken) {
            --shut_[decisions_.back().option];
            decisions_.pop_back();
        }
        if (decisions_.empty()) return false;
        const std::size_t option = decisions_.back().option;
        decisions_.back().taken = false;
        taken_.pop_back();
        left_of_taken_ -= on_.priced.left[option];
        room_.give_back(option);
        for (const std::uint32_t other : on_.conflicts.of(option))
            --shut_[other];
        return true;
    }

    Guide on_;
    std::size_t looks_left_;
    Picked best_;
    Room room_;
    std::vector<std::size_t> order_;    ///< most left first
    std::vector<std::uint32_t> shut_;   ///< by how many decisions
    std::vector<std::size_t> relaxed_;  ///< the set of the bound
    std::vector<Decision> decisions_;
    std::vector<std::size_t> taken_;
    std::int64_t left_of_taken_ = 0;
    Marks cell_taken_, in_relaxed_, blocked_;
    std::vector<std::size_t> group_taken_;
};

/// The relaxed set of all options, and what becomes of its bound when an option is forced into it.
class Relaxed {
 public:
    explicit Relaxed(const Guide& guide)
        : on_(guide), of_cell_(guide.cells.count, nobody), weakest_of_group_(1, nobody), group_size_(1, 0) {
        const ChoiceProblem& problem = guide.problem;
        if (!problem.limits.empty()) {
            weakest_of_group_.assign(problem.limits.front().room.size(), nobody);
            group_size_.assign(weakest_of_group_.size(), 0);
        }
        std::vector<std::size_t> order(problem.options.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t i) { return left(i); });
        bound_ = guide.priced.taken_in;
        for (const std::size_t i : order) {
            if (size_ == problem.sites || left(i) <= 0) break;
            if (of_cell_[guide.cells.of[i]] != nobody || group_is_full(i)) continue;
            of_cell_[guide.cells.of[i]] = weakest_ = weakest_of_group_[group(i)] = i;
            ++group_size_[group(i)];
            ++size_;
            bound_ += left(i);
        }
    }

    [[nodiscard]] std::int64_t bound_with(std::size_t option) const {
        const std::size_t in_its_place = of_cell_[on_.cells.of[option]];
        if (in_its_place != nobody) return bound_ - left(in_its_place) + left(option);
        if (group_is_full(option)) return bound_ - left_of(weakest_of_group_[group(option)]) + left(option);
        if (size_ == on_.problem.sites) return bound_ - left_of(weakest_) + left(option);
        return bound_ + left(option);
    }

 private:
    static constexpr std::size_t nobody = static_cast<std::size_t>(-1);
    [[nodiscard]] std::int64_t left(std::size_t option) const { return on_.priced.left[option]; }
    [[nodiscard]] std::int64_t left_of(std::size_t option) const {
        return option == nobody ? 0 : left(option);
    }
    [[nodiscard]] std::size_t group(std::size_t option) const {
        return on_.problem.limits.empty() ? 0 : on_.problem.limits.front().group[option];
    }
    [[nodiscard]] bool group_is_full(std::size_t option) const {
        return !on_.problem.limits.empty() &&
               group_size_[group(option)] == on_.problem.limits.front().room[group(option)];
    }

    Guide on_;
    std::int64_t bound_ = 0;
    std::size_t size_ = 0, weakest_ = nobody;
    std::vector<std::size_t> of_cell_, weakest_of_group_, group_size_;
};

}  // namespace

Cells::Cells(const ChoiceProblem& problem, const Conflicts& conflicts) : of(problem.options.size()) {
    const auto group = [&](std::size_t i) {
        return problem.limits.empty() ? 0U : problem.limits.front().group[i];
    };
    std::vector<std::size_t> members, near(problem.options.size(), 0);
    for (std::size_t i = 0; i < problem.options.size(); ++i) {
        std::size_t home = count;
        for (const std::uint32_t other : conflicts.of(i)) {
            if (other >= i || group(other) != group(i)) continue;
            const std::uint32_t cell = of[other];
            // Close to all of its members, and the largest such cell.
            if (++near[cell] == members[cell] && (home == count || members[cell] > members[home]))
                home = cell;
        }
        for (const std::uint32_t other : conflicts.of(i))
            if (other < i) near[of[other]] = 0;
        if (home == count) {
            members.push_back(0);
            ++count;
        }
        ++members[home];
        of[i] = static_cast<std::uint32_t>(home);
    }
}

Priced unpriced(const Worth& worth) {
    return {worth.of, 0};
}

std::vector<std::size_t> greedy(const ChoiceProblem& problem) {
    Room room(problem);
    std::vector<std::size_t> set;
    for (std::size_t i = 0; i < problem.options.size() && room.sites() > 0; ++i) {
        const auto near = [&](std::size_t other) { return too_close(problem, i, other); };
        if (!room.for_one(i) || std::ranges::any_of(set, near)) continue;
        room.take(i);
        set.push_back(i);
    }
    return set;
}

std::vector<std::size_t> not_hopeless(const Guide& guide, std::int64_t worth) {
    const Relaxed relaxed(guide);
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < guide.problem.options.size(); ++i)
        if (relaxed.bound_with(i) >= worth) kept.push_back(i);
    return kept;
}

Picked search(const Guide& guide, std::vector<std::size_t> start, std::size_t most_looks) {
    return Search(guide, std::move(start), most_looks).run();
}

}  // namespace roostward::siting
