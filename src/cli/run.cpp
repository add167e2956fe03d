#include "roostward/cli/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "command.hpp"
#include "roostward/cli/interrupts.hpp"
#include "roostward/cli/language.hpp"
#include "roostward/cli/new_park.hpp"
#include "roostward/cli/options.hpp"
#include "roostward/cli/outputs.hpp"
#include "roostward/cli/standard_streams.hpp"
#include "roostward/cli/version.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/basemap.hpp"
#include "roostward/io/plan_number.hpp"
#include "roostward/io/read_document.hpp"
#include "roostward/io/translation.hpp"
#include "roostward/io/writers.hpp"
#include "roostward/plan/plan.hpp"
#include "roostward/report/check_page.hpp"
#include "roostward/report/compare_text.hpp"
#include "roostward/report/fix_list.hpp"
#include "roostward/report/page.hpp"
#include "roostward/report/plan_document.hpp"
#include "roostward/report/public_plan.hpp"
#include "roostward/report/screening.hpp"
#include "roostward/report/terminal.hpp"
#include "roostward/report/why_text.hpp"
#include "run_evenings.hpp"

namespace roostward::cli {

namespace {

constexpr int done = 0;
constexpr int internal_fault = 1;
constexpr int nothing_to_choose = 4;
constexpr int something_moved = 5;

int exit_code_of(core::Fault fault) {
    switch (fault) {
        case core::Fault::usage:
        case core::Fault::site_file:
            return 2;
        case core::Fault::inputs:
            return 3;
        case core::Fault::outputs:
        case core::Fault::internal:
            return internal_fault;
    }
    return internal_fault;
}

/// Writes plan.json, as the last of all; returns it where it is to be printed.
std::string index_of(const Options& options, const plan::Plan& plan, report::RunFacts facts,
                     io::OutputFolder& folder) {
    facts.folder = folder.index();
    const core::Document document = report::plan_document(plan, facts);
    io::write_json(folder.path_of("plan.json"), document);
    return options.json ? core::to_json(document) + "\n" : "";
}

std::string screening(const Options& options, const plan::Plan& plan, report::RunFacts facts,
                      io::OutputFolder& folder) {
    write_screening(plan, folder, options.threads);
    const std::string index = index_of(options, plan, std::move(facts), folder);
    return options.json ? index : report::screening_text(plan, options.out);
}

/// Writes every output; returns what is printed.
std::string whole_plan(const Options& options, const io::SiteFile& site, const plan::Plan& plan,
                       report::RunFacts facts, io::OutputFolder& folder) {
    if (plan.screening) return screening(options, plan, std::move(facts), folder);
    std::optional<core::Picture> basemap;
    if (site.basemap && !plan.settings.ranking_only)
        basemap = io::read_basemap(*site.basemap, plan.planning_crs, report::mapped_ground(plan));
    write_outputs(plan, facts, folder, basemap, options.threads);
    const std::string index = index_of(options, plan, std::move(facts), folder);
    return options.json ? index : report::plan_text(plan, options.out);
}

/// The same of a copy for everybody: nothing that is written has seen more than the blurred plan.
std::string public_copy(const Options& options, const plan::Plan& plan, report::RunFacts facts,
                        io::OutputFolder& folder) {
    const report::PublicPlan blurred = report::blurred(plan);
    write_public_copy(blurred, folder);
    facts.folder = folder.index();
    const core::Document document = report::public_document(blurred, facts);
    io::write_json(folder.path_of("plan.json"), document);
    return options.json ? core::to_json(document) + "\n" : report::public_text(blurred, options.out);
}

/// Held until the process ends, which gives back all memory at once and not piece by piece.
const plan::Plan& kept(plan::Plan plan) {
    static plan::Plan& only = *new plan::Plan;
    only = std::move(plan);
    return only;
}

/// Something was chosen, or could hold a box once somebody has watched or decided.
bool is_of_use(const plan::Plan& plan) {
    if (!plan.screening) return !plan.chosen.empty();
    return std::ranges::any_of(plan.candidates, [](const siting::Candidate& tree) {
        return tree.verdict.state != trees::State::ruled_out;
    });
}

int run_plan(const Options& options) {
    SiteAndWords from = read_site(options);
    io::leave_out_evenings(from.site);
    siting::Settings& settings = from.site.settings;
    settings.activity.seed = options.seed;
    settings.ranking_only = options.ranking_only;
    io::OutputFolder folder(options.out, peoples_files(options), options.threads);
    const Interrupts::Cleanup cleanup([&folder] { folder.discard(); });
    core::Findings findings;
    siting::Inputs inputs = read_inputs(options, from, findings);
    require_inputs_elsewhere(options, inputs, folder);
    progress(options, "progress.planning");
    std::string number = io::plan_number(from.site, inputs.files, version);
    plan::Plan made = plan::make_plan(std::move(settings), std::move(inputs), options.threads);
    made.number = std::move(number);
    if (made.screening && options.public_copy)
        throw core::Error(core::Fault::usage, {}, core::said("screening.not_public"));
    const plan::Plan& plan = kept(std::move(made));
    progress(options, "progress.writing");
    const report::RunFacts facts = facts_of_run(options);
    const std::string answer = options.public_copy ? public_copy(options, plan, facts, folder)
                                                   : whole_plan(options, from.site, plan, facts, folder);
    const std::vector<std::string> notes = folder.publish();
    print_findings(options, plan.findings,
                   options.public_copy ? "findings.count" : "findings.count_and_file");
    for (const std::string& note : notes)
        print_note(note + "\n");
    print_answer(answer, core::said("note.plan_stands", {{"folder", options.out}}));
    return is_of_use(plan) ? done : nothing_to_choose;
}

void write_fix_list(const Options& options, const plan::Checked& checked) {
    if (options.fix_list.empty()) return;
    const std::filesystem::path kept = io::publish_csv(options.fix_list, report::fix_list(checked));
    if (!kept.empty())
        print_note(core::said("note.kept", {{"file", options.fix_list}, {"kept", kept.string()}}) + "\n");
}

/// Where the inputs cannot be used, the fix list says why all the same.
plan::Checked checked_inputs(const Options& options, const SiteAndWords& from) {
    plan::Checked checked;
    try {
        siting::Inputs inputs = read_inputs(options, from, checked.findings);
        checked = plan::check_inputs(from.site.settings, std::move(inputs), options.threads);
    } catch (const core::Error&) {
        write_fix_list(options, checked);
        throw;
    }
    return checked;
}

int run_new(const Options& options) {
    if (!options.words.empty()) {
        const core::Findings doubts = speak(io::read_translation(options.words, std::filesystem::path()));
        if (!options.quiet && !doubts.empty()) print_note(report::findings_text(doubts, findings_shown));
    }
    progress(options, "progress.looking");
    print_answer(start_new_park(options));
    return done;
}

int run_check(const Options& options) {
    const SiteAndWords from = read_site(options);
    std::vector<siting::Parameter> parameters = from.site.settings.parameters;
    const std::vector<siting::Parameter>& of_evenings = from.site.evenings_parameters;
    parameters.insert(parameters.end(), of_evenings.begin(), of_evenings.end());
    if (!options.fix_list.empty() && !options.force) io::require_free(options.fix_list);
    const plan::Checked checked = checked_inputs(options, from);
    write_fix_list(options, checked);
    if (options.json) {
        core::Object answer{{"rows", report::counts_document(checked.counts)}};
        if (options.explain) answer.emplace_back("parameters", report::parameters_document(parameters));
        print_answer(core::to_json(answer) + "\n");
        return done;
    }
    print_answer(report::check_page(checked));
    if (!options.fix_list.empty())
        print_answer("\n" + core::said("check.written", {{"file", options.fix_list}}) + "\n");
    if (options.explain) print_answer(report::parameters_text(parameters));
    return done;
}

report::FinishedPlan finished(const std::string& folder) {
    if (!std::filesystem::exists(folder + "/plan.json"))
        throw core::Error(core::Fault::usage, {folder, {}, {}, {}}, core::said("error.no_plan_json"));
    report::FinishedPlan plan{folder, io::read_document(folder + "/plan.json"), {}, {}};
    report::require_our_format(plan);
    speak_as(plan);
    plan.ranked = io::read_document(folder + "/ranked_sites.geojson");
    plan.others = io::read_document(folder + "/other_trees.geojson");
    return plan;
}

int run_why(const Options& options) {
    const report::FinishedPlan plan = finished(options.finished);
    print_answer(options.json ? core::to_json(report::why_document(plan, options.tree)) + "\n"
                              : report::why_text(plan, options.tree));
    return done;
}

int run_compare(const Options& options) {
    const report::Comparison comparison =
        report::compare(finished(options.finished), finished(options.other));
    print_answer(options.json ? core::to_json(report::compare_document(comparison)) + "\n"
                              : report::compare_text(comparison));
    return comparison.moved() ? something_moved : done;
}

int run_command(const Options& options) {
    switch (options.command) {
        case Command::check:
            return run_check(options);
        case Command::start_new:
            return run_new(options);
        case Command::evenings:
            run_evenings(options);
            return done;
        case Command::why:
            return run_why(options);
        case Command::compare:
            return run_compare(options);
        case Command::plan:
            break;
    }
    return run_plan(options);
}

}  // namespace

int run(int argc, char** argv) {
    hold_standard_streams();
    try {
        const Parsed parsed = parse(argc, argv);
        if (!parsed.options) {
            parsed.exit_code == done ? print_answer(parsed.text) : print_note(parsed.text);
            return parsed.exit_code;
        }
        const Interrupts interrupts;
        return run_command(*parsed.options);
    } catch (const core::Error& error) {
        print_note(fmt::format("roostward: {}\n", error.what()));
        return exit_code_of(error.fault());
    } catch (const std::exception& error) {
        print_note("roostward: " + core::said("error.internal", {{"what", error.what()}}) + "\n");
        return internal_fault;
    }
}

}  // namespace roostward::cli
