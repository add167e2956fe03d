#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <type_traits>
#include <utility>

#include "what_if_parts.hpp"

namespace roostward::siting {

namespace {

using core::Document;

/// What a number becomes one step down or up.
struct Step {
    double factor = 1.0, add = 0.0;
    [[nodiscard]] double from(double value) const { return factor * value + add; }
};
using Steps = std::array<Step, 2>;
constexpr Steps adding(double by) {
    return {Step{1.0, -by}, Step{1.0, by}};
}
constexpr Steps doubling{Step{0.5, 0.0}, Step{2.0, 0.0}};

/// Takes a number a step on; tells it before and after.
using Move = std::function<std::pair<double, double>(Varied&, Step)>;

template <class Access>
Move moves(Access access) {
    return [access](Varied& varied, Step step) {
        auto& limit = access(varied);
        using Quantity = std::remove_cvref_t<decltype(limit)>;
        const auto value = [&limit] {
            if constexpr (std::is_same_v<Quantity, double>)
                return limit;
            else
                return limit.value();
        };
        const double from = value();
        limit = Quantity(std::max(0.0, step.from(from)));
        return std::pair(from, value());
    };
}

/// A rule that goes by one number. Steps are such as people would weigh: common practice, no source.
struct Rule {
    std::string key;
    Steps steps;
    Move move;
    bool has_something_to_go_by = true;
};

std::vector<Rule> rules_of(const Evidenced& data, const trees::Surroundings& around) {
    using trees::TreeField;
    const auto told = [&](TreeField field) { return data.inventory.columns.has(field); };
    const auto limits = [](Varied& v) -> trees::Settings& { return v.limits.settings; };
    const bool canopy = around.canopy_height.has_value(), lamps = around.lamps.given();
    const bool roosts = !around.known_roosts.rows.empty() || !around.roosts.empty();
    const bool works = told(TreeField::planned_work) || told(TreeField::work_due);
    std::vector<Rule> rules{
        {"suitability.min_dbh_cm", adding(5), moves([=](Varied & v) -> auto& { return limits(v).min_dbh; }),
         told(TreeField::dbh)},
        {"suitability.min_height_m", adding(1),
         moves([=](Varied & v) -> auto& { return limits(v).min_height; }), told(TreeField::height)},
        {"suitability.gap_height_m", adding(1),
         moves([=](Varied & v) -> auto& { return limits(v).gaps.height; }), canopy},
        {"suitability.gap_area_m2", doubling, moves([=](Varied & v) -> auto& { return limits(v).gaps.area; }),
         canopy},
        {"suitability.roost_reach_m", adding(5),
         moves([=](Varied & v) -> auto& { return limits(v).roost_reach; }), roosts},
        {"suitability.keep_from_m", doubling,
         moves([=](Varied & v) -> auto& { return limits(v).keep_from.within; }), around.boxes.given()},
        {"suitability.keep_from_seen_m", doubling,
         moves([=](Varied & v) -> auto& { return limits(v).keep_from.seen_within; }),
         !around.neighbours_seen.empty()},
        {"suitability.lamp_doubtful_m", doubling,
         moves([=](Varied & v) -> auto& { return limits(v).light.lamp_doubtful; }), lamps},
        {"suitability.lux_doubtful", doubling,
         moves([=](Varied & v) -> auto& { return limits(v).light.lux_doubtful; }), lamps},
        {"suitability.road_m", adding(10), moves([=](Varied & v) -> auto& { return limits(v).roads.near; }),
         around.roads.given()},
        {"suitability.crossing_m", adding(10),
         moves([=](Varied & v) -> auto& { return limits(v).roads.crossing; }), !around.crossings.empty()},
        {"suitability.work_years", adding(2),
         moves([=](Varied & v) -> auto& { return limits(v).work_years; }), works},
        {"suitability.inspection_years", adding(1),
         moves([=](Varied & v) -> auto& { return limits(v).inspection_years; }), told(TreeField::hazard)},
        {"activity.min_watch_hours", doubling, moves([](Varied & v) -> auto& { return v.min_watch; }),
         !data.survey.even_effort()}};
    for (std::size_t layer = 0; layer < around.avoid.size(); ++layer)
        rules.push_back({fmt::format("{}.within_m", around.avoid[layer].key), adding(5),
                         moves([=](Varied & v) -> auto& { return v.limits.avoid_within[layer]; })});
    return rules;
}

Document words_of(const std::vector<trees::Condition>& conditions) {
    core::List words;
    for (const trees::Condition condition : conditions)
        words.emplace_back(trees::to_text(condition));
    return words;
}

/// The worst condition that is fit no longer, and the next worse as well; a dead tree never.
void vary_conditions(std::vector<Trial>& trials, const Varied& as_planned) {
    using trees::Condition;
    std::vector<Condition> fit = as_planned.limits.settings.conditions;
    std::ranges::sort(fit);
    const auto add = [&](const std::vector<Condition>& other) {
        Varied varied = as_planned;
        varied.limits.settings.conditions = other;
        trials.push_back(trial_of(Change::rule, "suitability.conditions", words_of(fit), words_of(other),
                                  std::move(varied)));
    };
    if (fit.empty()) return;
    if (fit.size() > 1) add({fit.begin(), fit.end() - 1});
    if (fit.back() >= Condition::poor) return;
    std::vector<Condition> more = fit;
    more.push_back(fit.back() == Condition::good ? Condition::fair : Condition::poor);
    add(more);
}

}  // namespace

std::vector<Trial> rule_trials(const Evidenced& data, const trees::Surroundings& around,
                               const Varied& as_planned) {
    std::vector<Trial> trials;
    if (data.inventory.columns.has(trees::TreeField::condition)) vary_conditions(trials, as_planned);
    for (const Rule& rule : rules_of(data, around)) {
        if (!rule.has_something_to_go_by) continue;
        for (const Step step : rule.steps) {
            Varied varied = as_planned;
            const auto [from, to] = rule.move(varied, step);
            if (to != from) trials.push_back(trial_of(Change::rule, rule.key, from, to, std::move(varied)));
        }
    }
    return trials;
}

}  // namespace roostward::siting
