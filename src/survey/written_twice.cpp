#include "written_twice.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string_view>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"

namespace roostward::survey {

namespace {

using namespace std::chrono_literals;

constexpr core::Metres close_by{15.0};
constexpr core::Degrees same_way{45.0};
constexpr std::chrono::seconds at_once{10}, apart_from{20}, apart_to{120};
/// Fewer pairs than this beyond what chance gives say nothing.
constexpr double least_excess = 3.0;

bool look_like_one(const Pass& a, const Pass& b) {
    if (core::squared_distance(a.position, b.position) > close_by.value() * close_by.value()) return false;
    return !a.bearing || !b.bearing || core::turn_between(*a.bearing, *b.bearing) <= same_way;
}

class Notes {
 public:
    Notes(std::vector<SeenPass>& passes, WrittenTwice how)
        : how_(how), passes_(passes), counts_(passes.size(), nullptr) {
        for (std::size_t i = 0; i < passes.size(); ++i)
            if (passes[i].placed && passes[i].pass->time) order_.push_back(i);
        std::ranges::stable_sort(
            order_, {}, [&](std::size_t i) { return std::pair(passes_[i].watch, *passes_[i].pass->time); });
        for (std::size_t first = 0; first < order_.size(); ++first) {
            const core::Instant time = *pass(first).time;
            to_the_minute_ += time == std::chrono::floor<std::chrono::minutes>(time);
            look_after(first);
        }
    }

    [[nodiscard]] std::size_t all() const { return order_.size(); }
    [[nodiscard]] std::size_t pairs() const { return pairs_; }
    /// Written to the minute, half as many lie in one minute as in two that follow each other.
    [[nodiscard]] double by_chance() const {
        const double share = 2 * to_the_minute_ > order_.size()
                                 ? 0.25
                                 : at_once / std::chrono::duration<double>(apart_to - apart_from);
        return share * static_cast<double>(pairs_apart_);
    }
    /// Three standard deviations of a Poisson count above what chance gives.
    [[nodiscard]] bool more_than_chance() const {
        return static_cast<double>(pairs_) >
               by_chance() + least_excess * std::sqrt(std::max(1.0, by_chance()));
    }
    /// The note that counts in place of one; null where it counts itself.
    [[nodiscard]] const Pass* counts_in_place_of(std::size_t i) const { return counts_[i]; }

 private:
    [[nodiscard]] const Pass& pass(std::size_t at) const { return *passes_[order_[at]].pass; }

    void look_after(std::size_t first) {
        std::vector<std::string> writers;
        for (std::size_t other = first + 1; other < order_.size(); ++other) {
            if (passes_[order_[other]].watch != passes_[order_[first]].watch) return;
            const auto between = *pass(other).time - *pass(first).time;
            if (between > apart_to) return;
            if ((between > at_once && between <= apart_from) || !look_like_one(pass(first), pass(other)))
                continue;
            if (between > at_once)
                ++pairs_apart_;
            else
                take_pair(first, other, writers);
        }
    }

    /// Each flight has one note a writer; where anybody's count, two in all.
    void take_pair(std::size_t first, std::size_t other, std::vector<std::string>& writers) {
        ++pairs_;
        if (how_ == WrittenTwice::keep || counts_[order_[first]] != nullptr ||
            counts_[order_[other]] != nullptr)
            return;
        if (writers.empty()) writers.push_back(core::folded(pass(first).observer));
        const std::string writer = core::folded(pass(other).observer);
        const bool another = !writer.empty() && !writers.front().empty() &&
                             std::ranges::find(writers, writer) == writers.end();
        if (!another && (how_ == WrittenTwice::two_writers || writers.size() > 1)) return;
        writers.push_back(writer);
        counts_[order_[other]] = &pass(first);
    }

    WrittenTwice how_;
    std::vector<SeenPass>& passes_;
    std::vector<std::size_t> order_;   ///< of passes with a place and a time: by watch, then by time
    std::vector<const Pass*> counts_;  ///< the earlier of a pair, for the later
    std::size_t pairs_ = 0, pairs_apart_ = 0, to_the_minute_ = 0;
};

void tell_pairs(const Notes& notes, std::size_t once, const core::Records<Pass>& layer,
                core::Findings& findings) {
    if (once == 0 && !notes.more_than_chance()) return;
    const double percent = 100.0 * static_cast<double>(notes.pairs()) / static_cast<double>(notes.all());
    findings.push_back(
        {once > 0 ? core::Severity::note : core::Severity::doubtful,
         {layer.file, layer.layer, {}, {}},
         "notes close together",
         core::said("survey.close_together.value", {{"pairs", notes.pairs()},
                                                    {"all", notes.all()},
                                                    {"percent", percent},
                                                    {"chance", notes.by_chance()}}),
         once > 0 ? core::said_for(once, "survey.counted_once") : core::said("survey.close_together")});
}

}  // namespace

void count_once(std::vector<SeenPass>& passes, WrittenTwice how, const core::Records<Pass>& layer,
                core::Findings& findings) {
    const Notes notes(passes, how);
    std::vector<SeenPass> kept;
    for (std::size_t i = 0; i < passes.size(); ++i) {
        const Pass* const other = notes.counts_in_place_of(i);
        if (other == nullptr) {
            kept.push_back(passes[i]);
            continue;
        }
        findings.push_back({core::Severity::set_aside, layer.place(passes[i].pass->row), "written twice",
                            core::said("name.row", {{"row", layer.row_name(other->row)}}),
                            core::said("survey.written_twice")});
    }
    tell_pairs(notes, passes.size() - kept.size(), layer, findings);
    passes = std::move(kept);
}

}  // namespace roostward::survey
