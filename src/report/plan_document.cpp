#include "roostward/report/plan_document.hpp"

#include <map>

#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/bandwidth_words.hpp"
#include "roostward/report/certainty_words.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/line_words.hpp"
#include "roostward/report/reserve_words.hpp"
#include "roostward/report/score_words.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/what_if_words.hpp"
#include "roostward/report/words.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

using core::Document;
using core::List;
using core::Object;

Object crs_document(const plan::Plan& plan) {
    const geo::CrsFacts facts = geo::facts_of(plan.planning_crs);
    return {{"name", facts.name},
            {"authority", text(facts.authority)},
            {"definition", plan.planning_crs.definition}};
}

List checks_document(const std::vector<trees::Check>& checks) {
    List list;
    for (const auto& check : checks)
        list.emplace_back(Object{{"matter", check.matter}, {"checked", check.checked}, {"how", check.how}});
    return list;
}

List evenings_document(const plan::Plan& plan) {
    List list;
    for (std::size_t n = 0; n < plan.survey.evenings.size(); ++n) {
        double hours = 0.0, metres = 0.0;
        std::size_t flights = 0;
        for (std::size_t w = 0; w < plan.survey.watches.size(); ++w)
            if (plan.survey.watch_evening[w] == n) hours += plan.survey.watches[w].hours().value();
        for (const auto& flight : plan.survey.flights) {
            if (flight.evening != n) continue;
            ++flights;
            metres += flight.metres();
        }
        list.emplace_back(Object{{"evening", core::to_text(plan.survey.evenings[n])},
                                 {"watch_hours", plan.survey.even_effort() ? Document() : Document(hours)},
                                 {"flights", flights},
                                 {"metres_flown", metres}});
    }
    return list;
}

/// Null where only a ranking was asked for, for which nothing of this was worked out.
template <class Compose>
Document of_whole_plan(const plan::Plan& plan, const Compose& compose) {
    return plan.settings.ranking_only ? Document() : Document(compose());
}

List sites_document(const plan::Plan& plan) {
    List list;
    for (const std::size_t tree : plan.chosen) {
        const auto& candidate = plan.candidates[tree];
        List facings;
        for (const auto facing : candidate.facings.value().boxes)
            facings.emplace_back(facing.value());
        list.emplace_back(
            Object{{"site", candidate.site},
                   {"tree", plan.trees.rows[tree].id},
                   {"rank", candidate.rank},
                   {"score", candidate.score},
                   {"must", candidate.wish == siting::Wish::must},
                   {"enough_evidence", candidate.enough_evidence},
                   {"stays_chosen", candidate.stays_chosen},
                   {"stays_chosen_weights", stays_chosen_weights(plan, tree)},
                   {"stays", text(stays_chosen(plan, tree))},
                   {"group", group_of(candidate)},
                   {"flights_per_hour", candidate.flights.per_hour},
                   {"flights_per_hour_low", low_of(candidate.flights.range)},
                   {"flights_per_hour_high", high_of(candidate.flights.range)},
                   {"evenings_used", candidate.activity.evenings_used},
                   {"evenings_watched", candidate.activity.evenings_watched},
                   {"watch_hours", candidate.activity.watch_hours.value()},
                   {"mount_height_m", plan.mounting.height.value()},
                   {"facings_deg", std::move(facings)},
                   {"kind_of_box", text(kind_of_box(candidate))},
                   {"why", why(plan, tree)},
                   {"reserve", of_whole_plan(plan, [&] { return reserve_document(plan, list.size()); })}});
    }
    return list;
}

Object counted(const std::vector<Counted>& tally) {
    Object object;
    for (const auto& entry : tally)
        object.emplace_back(entry.name, entry.count);
    return object;
}

Object summary_document(const plan::Plan& plan) {
    List weak;
    for (auto& point : weak_points(plan))
        weak.emplace_back(std::move(point));
    return {{"trees", plan.candidates.size()},
            {"states", counted(states(plan))},
            {"ruled_out_by", counted(reasons(plan, trees::State::ruled_out))},
            {"settle_first_by", counted(reasons(plan, trees::State::settle_first))},
            {"too_little_evidence", trees_with_too_little(plan)},
            {"to_watch_a_tree", what_shows_a_tree(plan)},
            {"sites_asked_for", plan.settings.choice.sites},
            {"sites", sites_document(plan)},
            {"choice", choice_document(plan)},
            {"reserves", of_whole_plan(plan, [&] { return reserves_document(plan); })},
            {"worth_settling", settling_document(plan)},
            {"scores", scores_document(plan)},
            {"evenings", evenings_document(plan)},
            {"flight_lines", lines_document(plan)},
            {"certainty", certainty_document(plan)},
            {"what_if", of_whole_plan(plan, [&] { return what_if_document(plan); })},
            {"bandwidth_m", plan.bandwidth.h.value()},
            {"bandwidth_by", activity::to_text(plan.bandwidth.h_by)},
            {"shrink_hours", plan.bandwidth.shrink.value()},
            {"shrink_by", activity::to_text(plan.bandwidth.shrink_by)},
            {"by_evenings", bandwidth_document(plan.bandwidth)},
            {"mean_flight_density", 1e4 * plan.mean_rate},
            {"reference_flight_density", 1e4 * plan.reference_density},
            {"weak_points", std::move(weak)}};
}

Object screening_document(const plan::Plan& plan) {
    return {{"screening", true},
            {"trees", plan.candidates.size()},
            {"could_hold_box", trees_in(plan, trees::State::not_watched)},
            {"states", counted(states(plan))},
            {"ruled_out_by", counted(reasons(plan, trees::State::ruled_out))},
            {"settle_first_by", counted(reasons(plan, trees::State::settle_first))},
            {"settle_first_who", counted(deciders(plan))}};
}

List texts(const std::vector<std::string>& sentences) {
    return {sentences.begin(), sentences.end()};
}

Object hanging_document(const plan::Plan& plan) {
    return {{"when", when_to_put_up(plan)},
            {"before_you_hang_it", texts(before_you_hang_it(plan))},
            {"climber_confirms", texts(climber_confirms(plan))},
            {"afterwards", texts(afterwards())}};
}

List cautions_document() {
    List list;
    for (const auto& caution : cautions())
        list.emplace_back(Object{{"matter", caution.matter}, {"text", caution.text}});
    return list;
}

/// What a ranking leaves out.
Object ranking_only_document() {
    return {{"what", core::said("ranking_only.what")},
            {"not_made", List{core::said("ranking_only.what_ifs"), core::said("ranking_only.draws"),
                              core::said("ranking_only.groups"), core::said("ranking_only.reserves"),
                              core::said("ranking_only.canopy"), "report.html", "other_trees.geojson",
                              "flight_lines.geojson", "plan.gpkg", "boxes_to_hang.csv", "observers.csv",
                              "chosen_sites.gpx"}}};
}

}  // namespace

List parameters_document(const std::vector<siting::Parameter>& parameters) {
    List list;
    for (const auto& parameter : parameters)
        list.emplace_back(Object{{"key", parameter.key},
                                 {"value", parameter.value},
                                 {"unit", text(parameter.unit)},
                                 {"set_by", parameter.set_by},
                                 {"status", siting::to_text(parameter.provenance.status)},
                                 {"source", text(parameter.provenance.source)},
                                 {"meaning", parameter.meaning}});
    return list;
}

List inputs_document(const std::vector<siting::InputFile>& files) {
    List list;
    for (const auto& file : files) {
        List columns;
        for (const auto& column : file.columns)
            columns.emplace_back(column);
        list.emplace_back(
            Object{{"role", file.role},
                   {"file", file.file},
                   {"sha256", file.sha256},
                   {"crs", text(file.crs)},
                   {"operation", text(file.operation)},
                   {"accuracy_m", file.accuracy ? Document(file.accuracy->value()) : Document()},
                   {"columns", std::move(columns)}});
    }
    return list;
}

List counts_document(const std::vector<core::RowCount>& counts) {
    List list;
    for (const auto& count : counts)
        list.emplace_back(Object{{"layer", count.layer},
                                 {"file", count.file},
                                 {"read", count.read},
                                 {"used", count.used},
                                 {"set_aside", count.set_aside},
                                 {"apart", count.apart}});
    return list;
}

List files_document(const core::FolderIndex& folder, std::string_view index) {
    List list;
    for (const core::OutputFile& file : folder.files)
        list.emplace_back(Object{{"file", file.name}, {"sha256", file.sha256}});
    list.emplace_back(Object{{"file", index}, {"sha256", nullptr}});
    return list;
}

List kept_document(const core::FolderIndex& folder) {
    List list;
    for (const std::string& file : folder.kept)
        list.emplace_back(Object{{"file", file}});
    return list;
}

Document plan_document(const plan::Plan& plan, const RunFacts& facts) {
    Object document{
        {"format", core::plan_format},
        {"program", core::program_name},
        {"number", plan.number},
        {"version", facts.version},
        {"seed", plan.settings.activity.seed},
        {"made_at", core::to_text(facts.made_at)},
        {"repeat", facts.repeat},
        {"site", plan.settings.site_name},
        {"site_file", plan.settings.site_file},
        {"animal", Object{{"profile", plan.settings.profile.id}, {"name", plan.settings.profile.name}}},
        {"out_of_season", text(plan.out_of_season)},
        {"not_checked", text(nobody_checked(plan.checks))},
        {"checks", checks_document(plan.checks)},
        {"summary", plan.screening ? screening_document(plan) : summary_document(plan)},
        {"planning_crs", crs_document(plan)},
        {"parameters", parameters_document(plan.settings.parameters)},
        {"inputs", inputs_document(plan.files)},
        {"rows", counts_document(plan.counts)},
        {"findings", counted(findings_by_kind(plan.findings))},
        {"hanging", plan.screening ? Document() : Document(hanging_document(plan))},
        {"owner", plan.screening ? Document() : text(owners_paragraph(plan))},
        {"cautions", cautions_document()},
        {"files", files_document(facts.folder)},
        {"kept", kept_document(facts.folder)}};
    if (plan.settings.ranking_only) document.emplace_back("ranking_only", ranking_only_document());
    return document;
}

}  // namespace roostward::report
