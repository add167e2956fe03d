#include <algorithm>
#include <memory>
#include <utility>

#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/layers.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/words.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

using core::Document;
using geo::ColumnKind;

Document condition_of(const trees::Tree& tree) {
    return tree.condition ? Document(trees::to_text(*tree.condition)) : Document();
}

/// One by one: an initializer list would copy every text.
template <class... Values>
void append(std::vector<Document>& to, Values&&... values) {
    (to.emplace_back(std::forward<Values>(values)), ...);
}

const std::vector<geo::Column>& activity_columns() {
    static const std::vector<geo::Column> columns{
        {"flight_density", ColumnKind::number},       {"flight_density_low", ColumnKind::number},
        {"flight_density_high", ColumnKind::number},  {"flights_per_hour", ColumnKind::number},
        {"flights_per_hour_low", ColumnKind::number}, {"flights_per_hour_high", ColumnKind::number},
        {"watch_hours", ColumnKind::number},          {"evenings_used", ColumnKind::whole},
        {"evenings_watched", ColumnKind::whole}};
    return columns;
}

/// Low and high; null where there is no range.
void append_range(std::vector<Document>& values, const std::optional<activity::Range>& range,
                  double unit = 1.0) {
    append(values, range ? Document(unit * range->low) : Document(),
           range ? Document(unit * range->high) : Document());
}

/// Flight where nobody watched long enough is unknown.
void append_activity(std::vector<Document>& values, const siting::Candidate& candidate) {
    const activity::PointActivity& activity = candidate.activity;
    const bool known = activity.watched;
    append(values, known ? Document(per_hectare(activity.flight_density)) : Document());
    append_range(values, candidate.flight_range, per_hectare(1.0));
    append(values, known ? Document(candidate.flights.per_hour) : Document());
    append_range(values, candidate.flights.range);
    append(values, activity.watch_hours.value(), activity.evenings_used, activity.evenings_watched);
}

const std::vector<geo::Column>& line_columns() {
    static const std::vector<geo::Column> columns{{"flight_line", ColumnKind::text},
                                                  {"flight_line_offset_m", ColumnKind::number}};
    return columns;
}

void append_line(std::vector<Document>& values, const plan::Plan& plan, const siting::Candidate& candidate) {
    const auto& nearest = candidate.flight_line;
    append(values, nearest ? Document(plan.flight_lines[nearest->line].id) : Document(),
           nearest ? Document(nearest->offset.value()) : Document());
}

const std::vector<geo::Column>& way_in_columns() {
    static const std::vector<geo::Column> columns{
        {"approach_clear_m", ColumnKind::number}, {"drop_clear_m", ColumnKind::number},
        {"sun_hours_warm", ColumnKind::number},   {"sun_hours_cold", ColumnKind::number},
        {"lamp_lux", ColumnKind::number},         {"lamp_distance_m", ColumnKind::number},
        {"water_distance_m", ColumnKind::number}, {"road_distance_m", ColumnKind::number},
        {"box_distance_m", ColumnKind::number}};
    return columns;
}

void append_way_in(std::vector<Document>& values, const siting::Candidate& candidate) {
    const auto& sun = candidate.sun;
    append(values, number(candidate.approach_clear), number(candidate.drop_clear),
           sun ? Document(sun->summer_half.value()) : Document(),
           sun ? Document(sun->winter_half.value()) : Document());
    const trees::Light light = candidate.verdict.light.value_or(trees::Light{});
    append(values, number(light.lux), number(light.lamp), number(candidate.water_distance),
           number(candidate.road_distance), number(candidate.box_distance));
}

const std::vector<geo::Column>& canopy_columns() {
    static const std::vector<geo::Column> columns{{"canopy_height_m", ColumnKind::number},
                                                  {"canopy_crown_edge_m", ColumnKind::number},
                                                  {"canopy_cover_20m", ColumnKind::number}};
    return columns;
}

void append_canopy(std::vector<Document>& values, const canopy::AtStem& canopy) {
    append(values, number(canopy.height), number(canopy.crown_edge), Document(canopy.cover));
}

/// Metres toward the 16 compass points, north first, then clockwise; null where there is no canopy model.
Document open_of(const siting::Candidate& candidate) {
    if (candidate.open.empty()) return {};
    core::List metres;
    for (const auto& free : candidate.open)
        metres.push_back(number(free));
    return metres;
}

core::List keep_away_of(const plan::Plan& plan, const siting::Candidate& candidate) {
    core::List list;
    for (std::size_t i = 0; i < candidate.avoid_distances.size(); ++i) {
        const trees::AvoidLayer& avoid = plan.surroundings.avoid[i];
        list.emplace_back(core::Object{{"from", avoid.reason.empty() ? avoid.file : avoid.reason},
                                       {"crown_edge_m", number(candidate.avoid_distances[i])},
                                       {"more_than_m", avoid.within.value()}});
    }
    return list;
}

const std::vector<geo::Column>& tree_columns() {
    static const std::vector<geo::Column> columns{{"species", ColumnKind::text},
                                                  {"dbh_cm", ColumnKind::number},
                                                  {"height_m", ColumnKind::number},
                                                  {"condition", ColumnKind::text}};
    return columns;
}

void append_tree(std::vector<Document>& values, const trees::Tree& tree) {
    append(values, text(tree.species), number(tree.dbh), number(tree.height), condition_of(tree));
}

void append(std::vector<geo::Column>& columns, const std::vector<geo::Column>& more) {
    columns.insert(columns.end(), more.begin(), more.end());
}

Document fitness_of(const siting::Candidate& candidate) {
    return candidate.fitness ? Document(candidate.fitness->middle) : Document();
}

geo::Feature ranked_site(const plan::Plan& plan, std::size_t tree) {
    const auto& candidate = plan.candidates[tree];
    const auto& record = plan.trees.rows[tree];
    const std::vector<core::Degrees>& facings = candidate.facings.value().boxes;
    std::vector<Document> values;
    values.reserve(38);
    append(values, candidate.rank, record.id, candidate.site.has_value(), candidate.site, candidate.score);
    append_range(values, candidate.score_range);
    append(values, candidate.evidence, fitness_of(candidate), candidate.enough_evidence,
           candidate.stays_chosen);
    append_activity(values, candidate);
    append_line(values, plan, candidate);
    append_way_in(values, candidate);
    append(values, keep_away_of(plan, candidate), open_of(candidate));
    append_canopy(values, candidate.canopy);
    append(values, plan.mounting.height.value(), facings.front().value(),
           siting::compass_point(facings.front()),
           facings.size() > 1 ? Document(facings[1].value()) : Document());
    append_tree(values, record);
    append(values, why(plan, tree), stays_chosen_weights(plan, tree), group_of(candidate));
    return {record.stem, std::move(values)};
}

core::List reasons_of(const trees::Verdict& verdict) {
    core::List list;
    list.reserve(verdict.reasons.size());
    for (const auto& reason : verdict.reasons) {
        core::Object members;
        members.reserve(7);
        members.emplace_back("rule", reason.rule);
        members.emplace_back("state", trees::to_text(reason.state));
        members.emplace_back("measured", reason.measured);
        members.emplace_back("required", reason.required);
        members.emplace_back("who", text(reason.who));
        members.emplace_back("sentence", reason.sentence);
        members.emplace_back("ask", text(reason.ask));
        list.emplace_back(std::move(members));
    }
    return list;
}

/// Null where something must be settled first.
Document could_hold_box(const trees::Verdict& verdict) {
    if (verdict.state == trees::State::settle_first) return {};
    return verdict.state != trees::State::ruled_out;
}

geo::Feature other_tree(const plan::Plan& plan, std::size_t tree, bool worth_settling) {
    const auto& candidate = plan.candidates[tree];
    const auto& record = plan.trees.rows[tree];
    const bool to_settle = candidate.verdict.state == trees::State::settle_first;
    std::vector<Document> values;
    values.reserve(42);
    append(values, record.id, trees::to_text(candidate.verdict.state), text(who_decides(candidate.verdict)),
           text(what_to_ask(candidate.verdict)), worth_settling, candidate.would_rank,
           to_settle ? Document(candidate.score) : Document());
    append_range(values, candidate.score_range);
    append(values, to_settle ? Document(candidate.evidence) : Document(), fitness_of(candidate));
    append_activity(values, candidate);
    append_line(values, plan, candidate);
    append_way_in(values, candidate);
    append_canopy(values, candidate.canopy);
    append_tree(values, record);
    append(values, plan.screening ? Document() : text(evidence_lacking(plan, tree)),
           reasons_of(candidate.verdict));
    if (plan.screening) append(values, could_hold_box(candidate.verdict));
    return {record.stem, std::move(values)};
}

}  // namespace

geo::Layer ranked_sites(const plan::Plan& plan) {
    std::vector<geo::Column> columns{
        {"rank", ColumnKind::whole},         {"tree", ColumnKind::text},
        {"chosen", ColumnKind::truth},       {"site", ColumnKind::whole},
        {"score", ColumnKind::number},       {"score_low", ColumnKind::number},
        {"score_high", ColumnKind::number},  {"evidence", ColumnKind::number},
        {"fitness", ColumnKind::number},     {"enough_evidence", ColumnKind::truth},
        {"stays_chosen", ColumnKind::number}};
    append(columns, activity_columns());
    append(columns, line_columns());
    append(columns, way_in_columns());
    append(columns, {{"keep_away", ColumnKind::nested}, {"open_m", ColumnKind::nested}});
    append(columns, canopy_columns());
    append(columns, {{"mount_height_m", ColumnKind::number},
                     {"facing_deg", ColumnKind::number},
                     {"facing", ColumnKind::text},
                     {"second_facing_deg", ColumnKind::number}});
    append(columns, tree_columns());
    append(columns, {{"why", ColumnKind::text},
                     {"stays_chosen_weights", ColumnKind::number},
                     {"group", ColumnKind::text}});
    return {"ranked_sites",     geo::GeometryKind::point,
            plan.planning_crs,  std::move(columns),
            plan.ranked.size(), [&plan](std::size_t i) { return ranked_site(plan, plan.ranked[i]); }};
}

geo::Layer other_trees(const plan::Plan& plan) {
    std::vector<geo::Column> columns{{"tree", ColumnKind::text},
                                     {"state", ColumnKind::text},
                                     {"who", ColumnKind::text},
                                     {"ask", ColumnKind::text},
                                     {"worth_settling", ColumnKind::truth},
                                     {"would_rank", ColumnKind::whole},
                                     {"score", ColumnKind::number},
                                     {"score_low", ColumnKind::number},
                                     {"score_high", ColumnKind::number},
                                     {"evidence", ColumnKind::number},
                                     {"fitness", ColumnKind::number}};
    append(columns, activity_columns());
    append(columns, line_columns());
    append(columns, way_in_columns());
    append(columns, canopy_columns());
    append(columns, tree_columns());
    append(columns, {{"evidence_lacking", ColumnKind::text}, {"reasons", ColumnKind::nested}});
    if (plan.screening) columns.push_back({"could_hold_box", ColumnKind::truth});
    struct Other {
        std::size_t tree = 0;
        bool worth_settling = false;
    };
    auto others = std::make_shared<std::vector<Other>>();
    for (std::size_t i = 0; i < plan.candidates.size(); ++i)
        if (!plan.candidates[i].can_be_chosen()) others->push_back({i, false});
    for (const std::size_t tree : plan.worth_settling)
        std::ranges::lower_bound(*others, tree, {}, &Other::tree)->worth_settling = true;
    return {"other_trees",
            geo::GeometryKind::point,
            plan.planning_crs,
            std::move(columns),
            others->size(),
            [&plan, others](std::size_t i) {
                return other_tree(plan, (*others)[i].tree, (*others)[i].worth_settling);
            }};
}

}  // namespace roostward::report
