#include "run_evenings.hpp"

#include <algorithm>
#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "command.hpp"
#include "roostward/cli/interrupts.hpp"
#include "roostward/cli/outputs.hpp"
#include "roostward/cli/standard_streams.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/times.hpp"
#include "roostward/io/writers.hpp"
#include "roostward/plan/evenings_plan.hpp"
#include "roostward/report/evenings_files.hpp"
#include "roostward/report/terminal.hpp"

namespace roostward::cli {

namespace {

core::Date start_of(const Options& options) {
    const auto read = io::read_time(options.start, io::DateOrder::unknown);
    const io::WrittenTime* const time = io::value_in(read);
    if (time == nullptr || !time->date || time->time_of_day)
        throw core::Error(core::Fault::usage, {{}, {}, {}, "--start"},
                          core::said("error.evenings_start_date", {{"text", options.start}}));
    return *time->date;
}

evenings::Ask ask_of(const Options& options) {
    const auto positive = [](std::int64_t n) {
        return static_cast<std::size_t>(std::max<std::int64_t>(n, 0));
    };
    return {start_of(options), positive(options.count), positive(options.teams), options.anyway};
}

io::SiteClock clock_of(const Options& options, const io::SiteFile& site) {
    io::SiteClock clock(site.timezone);
    if (!clock.has_zone())
        throw core::Error(core::Fault::site_file, {options.site_file, {}, {}, "site.timezone"},
                          core::said("error.evenings_zone"));
    return clock;
}

plan::EveningsPlan planned(const Options& options, const evenings::Ask& ask, const io::SiteClock& clock,
                           SiteAndWords from, siting::Inputs inputs) {
    siting::Settings settings = std::move(from.site.settings);
    settings.activity.seed = options.seed;
    settings.parameters.insert(settings.parameters.end(), from.site.evenings_parameters.begin(),
                               from.site.evenings_parameters.end());
    const auto at = [&clock](core::Date date, std::chrono::minutes time) {
        return clock.instant_at(date, time);
    };
    return plan::plan_evenings(std::move(settings), std::move(inputs), {from.site.evenings, ask, at},
                               options.threads);
}

}  // namespace

void run_evenings(const Options& options) {
    const evenings::Ask ask = ask_of(options);
    SiteAndWords from = read_site(options);
    const io::SiteClock clock = clock_of(options, from.site);
    io::OutputFolder folder(options.out, peoples_files(options), options.threads, "evenings.json");
    const Interrupts::Cleanup cleanup([&folder] { folder.discard(); });
    core::Findings findings;
    siting::Inputs inputs = read_inputs(options, from, findings, io::ReadFor::evenings);
    require_inputs_elsewhere(options, inputs, folder);
    progress(options, "progress.planning");
    const std::string zone = from.site.timezone;
    const plan::EveningsPlan plan = planned(options, ask, clock, std::move(from), std::move(inputs));
    progress(options, "progress.writing");
    write_evenings(plan, {zone, clock}, folder, options.threads);
    report::RunFacts facts = facts_of_run(options);
    facts.folder = folder.index();
    const core::Document document = report::evenings_document(plan, facts);
    io::write_json(folder.path_of("evenings.json"), document);
    const std::vector<std::string> notes = folder.publish();
    print_findings(options, plan.to_come.findings, "findings.count");
    for (const std::string& note : notes)
        print_note(note + "\n");
    const auto local = [&clock](core::Instant instant) { return clock.local_text(instant); };
    print_answer(
        options.json ? core::to_json(document) + "\n" : report::evenings_text(plan, local, options.out),
        core::said("note.plan_stands", {{"folder", options.out}}));
}

}  // namespace roostward::cli
