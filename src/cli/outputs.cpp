#include "roostward/cli/outputs.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cstdlib>
#include <functional>
#include <string_view>

#include "roostward/cli/version.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"
#include "roostward/report/chosen_gpx.hpp"
#include "roostward/report/evenings_files.hpp"
#include "roostward/report/evenings_page.hpp"
#include "roostward/report/layers.hpp"
#include "roostward/report/page.hpp"
#include "roostward/report/plan_document.hpp"
#include "roostward/report/screening.hpp"
#include "roostward/report/tables.hpp"

namespace roostward::cli {

namespace {

std::optional<core::Instant> source_date_epoch() {
    const char* const text = std::getenv("SOURCE_DATE_EPOCH");
    if (text == nullptr) return std::nullopt;
    long long seconds = 0;
    const std::string_view digits(text);
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), seconds);
    if (fault != std::errc{} || end != digits.data() + digits.size())
        throw core::Error(core::Fault::usage, {}, core::said("error.source_date_epoch"));
    return core::Instant(std::chrono::seconds(seconds));
}

/// For formats that insist on a time stamp: SOURCE_DATE_EPOCH, else the latest date in the inputs.
core::Instant stamp_of(const plan::Plan& plan) {
    return source_date_epoch().value_or(core::Instant(std::chrono::sys_days(plan.surroundings.today)));
}

core::Instant made_at() {
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    return source_date_epoch().value_or(core::Instant(now));
}

/// As a shell reads it.
std::string quoted(const std::string& word) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./=,:";
    if (!word.empty() && word.find_first_not_of(plain) == std::string::npos) return word;
    std::string text = "'";
    for (const char c : word)
        text += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return text + "'";
}

std::string repeat_of(const Options& options) {
    const bool evenings = options.command == Command::evenings;
    std::string command = fmt::format("roostward {} {} --out DIR --seed {}", evenings ? "evenings" : "plan",
                                      quoted(options.site_file), options.seed);
    if (evenings)
        command += fmt::format(" --start {} --count {} --teams {}", quoted(options.start), options.count,
                               options.teams);
    if (options.anyway) command += " --anyway";
    if (options.ranking_only) command += " --ranking-only";
    for (const auto& [key, value] : options.overrides)
        command.append(" --set ").append(quoted(fmt::format("{}={}", key, value)));
    return command;
}

}  // namespace

report::RunFacts facts_of_run(const Options& options) {
    return {version, repeat_of(options), made_at(), {}};
}

void write_evenings(const plan::EveningsPlan& plan, const EveningsClock& clock, io::OutputFolder& folder,
                    core::Threads threads) {
    const auto file = [&folder](const std::string& name) { return folder.path_of(name); };
    const auto local = [&clock](core::Instant instant) { return clock.at_site.local_text(instant); };
    const auto wall = [&local](core::Instant instant) { return local(instant).substr(11, 5); };
    const std::vector<evenings::EveningToCome>& to_come = plan.to_come.evenings;
    const core::Instant last =
        plan.to_come.spare.empty() ? to_come.back().end : plan.to_come.spare.back().end;
    const report::SiteZone zone{clock.zone, local, clock.at_site.offsets(to_come.front().begin, last)};
    const core::Instant stamp = source_date_epoch().value_or(report::evenings_stamp(plan));
    io::write_csv(file("evenings.csv"), report::evenings_table(plan, local));
    io::write_text(file("evenings.ics"), report::evenings_ics(plan, zone, stamp));
    io::write_geojson(file("stations.geojson"), report::stations(plan), threads);
    io::write_text(file("stations.gpx"), report::stations_gpx(plan, {version, stamp}));
    io::write_text(file("evenings.html"), report::evenings_page(plan, wall));
    for (const report::PlannedSheet& planned : report::planned_sheets(plan, local)) {
        io::write_csv(file(planned.sheet.name + ".csv"), planned.table);
        io::write_xlsx(file(planned.sheet.name + ".xlsx"), report::workbook(planned.sheet, planned.table));
    }
}

void write_public_copy(const report::PublicPlan& plan, io::OutputFolder& folder) {
    io::write_text(folder.path_of("report.html"), report::public_page(plan));
}

void write_screening(const plan::Plan& plan, io::OutputFolder& folder, core::Threads threads) {
    const auto file = [&folder](const char* name) { return folder.path_of(name); };
    io::write_geojson(file("ranked_sites.geojson"), report::ranked_sites(plan), threads);
    io::write_geojson(file("other_trees.geojson"), report::other_trees(plan), threads);
    io::write_geopackage(file("plan.gpkg"), report::all_layers(plan), stamp_of(plan));
    io::write_csv(file("findings.csv"), report::findings_table(plan.findings));
    io::write_text(file("report.html"), report::screening_page(plan));
}

void write_outputs(const plan::Plan& plan, const report::RunFacts& facts, io::OutputFolder& folder,
                   const std::optional<core::Picture>& basemap, core::Threads threads) {
    const auto file = [&folder](const char* name) { return folder.path_of(name); };
    const io::Overviews overviews =
        plan.settings.ranking_only ? io::Overviews::none : io::Overviews::down_to_one_block;
    using Job = std::function<void()>;
    // Those that take longest come first.
    const std::vector<Job> ranking{
        [&] {
            io::write_raster(file("watch_hours.tif"), plan.surfaces.watch_hours, plan.planning_crs,
                             core::said("raster.watch_hours"), overviews);
        },
        [&] {
            io::write_raster(file("flight_density.tif"), plan.surfaces.flight_density, plan.planning_crs,
                             core::said("raster.flight_density"), overviews);
        },
        [&] { io::write_geojson(file("ranked_sites.geojson"), report::ranked_sites(plan), threads); },
        [&] { io::write_csv(file("findings.csv"), report::findings_table(plan.findings)); }};
    const std::vector<Job> rest{
        [&] { io::write_geopackage(file("plan.gpkg"), report::all_layers(plan), stamp_of(plan)); },
        [&] { io::write_geojson(file("other_trees.geojson"), report::other_trees(plan), threads); },
        [&] { io::write_text(file("report.html"), report::page(plan, facts, basemap)); },
        [&] {
            io::write_geojson(file("flight_lines.geojson"), report::flight_lines(plan), threads);
            io::write_csv(file("boxes_to_hang.csv"), report::boxes_to_hang(plan));
            io::write_csv(file("observers.csv"), report::observers(plan));
            io::write_text(file("chosen_sites.gpx"), report::chosen_gpx(plan, {version, stamp_of(plan)}));
        }};
    std::vector<Job> jobs;
    if (!plan.settings.ranking_only) jobs = rest;
    jobs.insert(jobs.end(), ranking.begin(), ranking.end());
    core::parallel_for(jobs.size(), 1, threads, [&jobs](std::size_t i, std::size_t) { jobs[i](); });
}

}  // namespace roostward::cli
