#include "roostward/cli/options.hpp"

#include <CLI/CLI.hpp>
#include <array>
#include <sstream>
#include <utility>

#include "roostward/cli/version.hpp"

namespace roostward::cli {

namespace {

constexpr int wrong_usage = 2;

io::Override override_of(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0)
        throw CLI::ValidationError("--set", "wants key.path=value, found \"" + text + "\"");
    return {text.substr(0, equals), text.substr(equals + 1)};
}

void add_common(CLI::App& command, Options& options, std::vector<std::string>& sets) {
    command.add_option("SITE.toml", options.site_file, "the site file")->required();
    command.add_option("--set", sets, "override one entry of the site file, as choose.sites=4")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false);
    command.add_option("--threads", options.threads.count, "threads to use; 0 takes all cores")
        ->type_name("N");
    command
        .add_option("--seed", options.seed, "seed of what is drawn at random; the same seed, the same answer")
        ->type_name("N");
    command.add_flag("--quiet", options.quiet, "no warnings and no progress on standard error");
    command.add_flag("--json", options.json, "one machine summary on standard output instead of text");
}

void add_new(CLI::App& app, Options& options) {
    CLI::App* command =
        app.add_subcommand("new", "writes a starter site file, blank record sheets and a page to read first");
    command->add_option("DIR", options.out, "folder for them: new or empty")->required();
    command
        ->add_option("--files", options.files,
                     "files that you have: what they are, their columns and units are judged, and the site "
                     "file filled in")
        ->type_name("FILE");
    command->add_option("--threads", options.threads.count, "threads to use; 0 takes all cores")
        ->type_name("N");
    command->add_flag("--quiet", options.quiet, "no progress on standard error");
}

void add_answers(CLI::App& app, Options& options) {
    constexpr const char* json = "one machine answer on standard output instead of text";
    CLI::App* why = app.add_subcommand("why", "says of one tree why it is chosen, or is not");
    why->add_option("DIR", options.finished, "folder of a finished plan")->required();
    why->add_option("TREE", options.tree, "the tree's tag")->required();
    why->add_flag("--json", options.json, json);
    CLI::App* compare = app.add_subcommand(
        "compare", "says what moved from one plan to another, and why; ends with 5 where something did");
    compare->add_option("DIR_A", options.finished, "folder of the earlier plan")->required();
    compare->add_option("DIR_B", options.other, "folder of the later plan")->required();
    compare->add_flag("--json", options.json, json);
}

Command command_of(const CLI::App& app) {
    constexpr std::array<std::pair<const char*, Command>, 4> commands{{{"check", Command::check},
                                                                       {"new", Command::start_new},
                                                                       {"why", Command::why},
                                                                       {"compare", Command::compare}}};
    for (const auto& [name, command] : commands)
        if (app.got_subcommand(name)) return command;
    return Command::plan;
}

}  // namespace

Parsed parse(int argc, char** argv) {
    CLI::App app{
        "Finds the trees where a bat or bird box hangs in the animals' own flight path,\n"
        "from evening watches and a tree inventory.",
        "roostward"};
    app.set_version_flag("--version", std::string("roostward ") + version);
    app.require_subcommand(1);
    Options options;
    std::vector<std::string> sets;

    CLI::App* plan =
        app.add_subcommand("plan", "ranks the trees, chooses the sites and writes a folder of results");
    add_common(*plan, options, sets);
    plan->add_option("--out", options.out, "folder for the results: new, empty, or an earlier run's")
        ->type_name("DIR")
        ->required();
    CLI::Option* const public_copy = plan->add_flag(
        "--public", options.public_copy,
        "a copy for everybody: squares of 100 m, without trees, people, roosts and other files");
    plan->add_flag("--ranking-only", options.ranking_only,
                   "a first look: the ranked trees, the two rasters, findings.csv and plan.json, without the "
                   "report, other trees, reserves and what-ifs")
        ->excludes(public_copy);
    plan->add_flag("--force", options.force, "write into a folder that holds other files; they are kept");

    CLI::App* check = app.add_subcommand("check", "reads and judges the inputs only");
    add_common(*check, options, sets);
    check->add_flag("--explain", options.explain, "also every setting with its value, status and source");
    check
        ->add_option("--fix-list", options.fix_list,
                     "writes what to mend in the inventory, a row each, for whoever keeps it")
        ->type_name("FILE.csv");

    add_new(app, options);
    add_answers(app, options);

    try {
        app.parse(argc, argv);
        for (const auto& set : sets)
            options.overrides.push_back(override_of(set));
    } catch (const CLI::ParseError& stop) {
        std::ostringstream out, err;
        const bool asked = app.exit(stop, out, err) == 0;
        return {std::nullopt, asked ? out.str() : err.str(), asked ? 0 : wrong_usage};
    }
    options.command = command_of(app);
    return {options, {}, 0};
}

}  // namespace roostward::cli
