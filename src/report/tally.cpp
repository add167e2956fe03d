#include "roostward/report/tally.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

std::vector<Counted> commonest_first(const std::map<std::string, std::size_t>& counts) {
    std::vector<Counted> tally;
    tally.reserve(counts.size());
    for (const auto& [name, count] : counts)
        tally.push_back({name, count});
    std::ranges::sort(tally, [](const Counted& a, const Counted& b) {
        return a.count != b.count ? a.count > b.count : a.name < b.name;
    });
    return tally;
}

}  // namespace

std::vector<Counted> states(const plan::Plan& plan) {
    using trees::State;
    std::vector<Counted> tally;
    for (const State state :
         {State::can_be_chosen, State::settle_first, State::not_watched, State::ruled_out})
        tally.push_back({std::string(trees::to_text(state)), trees_in(plan, state)});
    return tally;
}

std::vector<Counted> reasons(const plan::Plan& plan, trees::State state) {
    std::map<std::string, std::size_t> counts;
    for (const auto& candidate : plan.candidates)
        for (const auto& reason : candidate.verdict.reasons)
            if (reason.state == state) ++counts[reason.rule];
    return commonest_first(counts);
}

std::size_t trees_in(const plan::Plan& plan, trees::State state) {
    return static_cast<std::size_t>(std::ranges::count_if(
        plan.candidates, [state](const siting::Candidate& tree) { return tree.verdict.state == state; }));
}

std::vector<Counted> deciders(const plan::Plan& plan) {
    std::map<std::string, std::size_t> counts;
    for (const auto& candidate : plan.candidates) {
        if (candidate.verdict.state != trees::State::settle_first) continue;
        std::set<std::string> people;
        for (const auto& reason : candidate.verdict.reasons)
            if (!reason.who.empty()) people.insert(reason.who);
        for (const std::string& who : people)
            ++counts[who];
    }
    return commonest_first(counts);
}

std::size_t trees_not_watched(const plan::Plan& plan) {
    return static_cast<std::size_t>(std::ranges::count_if(
        plan.candidates, [](const siting::Candidate& candidate) { return !candidate.activity.watched; }));
}

std::string sentence_of(const core::Finding& finding) {
    if (finding.rows == 1) return finding.sentence;
    return core::said("finding.of_rows", {{"sentence", finding.sentence}, {"rows", finding.rows}});
}

std::vector<Counted> findings_by_kind(const core::Findings& findings) {
    std::map<std::string, std::size_t> counts;
    for (const auto& finding : findings)
        ++counts[finding.kind];
    return commonest_first(counts);
}

}  // namespace roostward::report
