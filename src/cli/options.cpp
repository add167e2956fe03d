#include "roostward/cli/options.hpp"

#include <CLI/CLI.hpp>
#include <array>
#include <sstream>
#include <utility>

#include "roostward/cli/version.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::cli {

namespace {

constexpr int wrong_usage = 2;

io::Override override_of(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0)
        throw CLI::ValidationError("--set", core::said("error.set", {{"text", text}}));
    return {text.substr(0, equals), text.substr(equals + 1)};
}

void add_common(CLI::App& command, Options& options, std::vector<std::string>& sets) {
    command.add_option("SITE.toml", options.site_file, core::said("help.site_file"))->required();
    command.add_option("--set", sets, core::said("help.set"))
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false);
    command.add_option("--threads", options.threads.count, core::said("help.threads"))->type_name("N");
    command.add_option("--seed", options.seed, core::said("help.seed"))->type_name("N");
    command.add_flag("--quiet", options.quiet, core::said("help.quiet"));
    command.add_flag("--json", options.json, core::said("help.json"));
}

void add_new(CLI::App& app, Options& options) {
    CLI::App* command = app.add_subcommand("new", core::said("help.new"));
    command->add_option("DIR", options.out, core::said("help.new_dir"))->required();
    command->add_option("--files", options.files, core::said("help.files"))->type_name("FILE");
    command->add_option("--words", options.words, core::said("help.words"))->type_name("FILE");
    command->add_option("--threads", options.threads.count, core::said("help.threads"))->type_name("N");
    command->add_flag("--quiet", options.quiet, core::said("help.quiet_new"));
}

void add_answers(CLI::App& app, Options& options) {
    const std::string json = core::said("help.json_answer");
    CLI::App* why = app.add_subcommand("why", core::said("help.why"));
    why->add_option("DIR", options.finished, core::said("help.finished"))->required();
    why->add_option("TREE", options.tree, core::said("help.tree"))->required();
    why->add_flag("--json", options.json, json);
    CLI::App* compare = app.add_subcommand("compare", core::said("help.compare"));
    compare->add_option("DIR_A", options.finished, core::said("help.earlier"))->required();
    compare->add_option("DIR_B", options.other, core::said("help.later"))->required();
    compare->add_flag("--json", options.json, json);
}

void add_evenings(CLI::App& app, Options& options, std::vector<std::string>& sets) {
    CLI::App* command = app.add_subcommand("evenings", core::said("help.evenings"));
    add_common(*command, options, sets);
    command->add_option("--start", options.start, core::said("help.start"))->type_name("DATE")->required();
    command->add_option("--count", options.count, core::said("help.count"))->type_name("N")->required();
    command->add_option("--teams", options.teams, core::said("help.teams"))->type_name("M")->required();
    command->add_option("--out", options.out, core::said("help.out"))->type_name("DIR")->required();
    command->add_flag("--anyway", options.anyway, core::said("help.anyway"));
    command->add_flag("--force", options.force, core::said("help.force"));
}

Command command_of(const CLI::App& app) {
    constexpr std::array<std::pair<const char*, Command>, 5> commands{{{"check", Command::check},
                                                                       {"new", Command::start_new},
                                                                       {"why", Command::why},
                                                                       {"compare", Command::compare},
                                                                       {"evenings", Command::evenings}}};
    for (const auto& [name, command] : commands)
        if (app.got_subcommand(name)) return command;
    return Command::plan;
}

}  // namespace

Parsed parse(int argc, char** argv) {
    CLI::App app{core::said("help.program"), "roostward"};
    app.set_version_flag("--version", std::string("roostward ") + version);
    app.require_subcommand(1);
    Options options;
    std::vector<std::string> sets;

    CLI::App* plan = app.add_subcommand("plan", core::said("help.plan"));
    add_common(*plan, options, sets);
    plan->add_option("--out", options.out, core::said("help.out"))->type_name("DIR")->required();
    CLI::Option* const public_copy =
        plan->add_flag("--public", options.public_copy, core::said("help.public"));
    plan->add_flag("--ranking-only", options.ranking_only, core::said("help.ranking_only"))
        ->excludes(public_copy);
    plan->add_flag("--force", options.force, core::said("help.force"));

    CLI::App* check = app.add_subcommand("check", core::said("help.check"));
    add_common(*check, options, sets);
    check->add_flag("--explain", options.explain, core::said("help.explain"));
    check->add_option("--fix-list", options.fix_list, core::said("help.fix_list"))->type_name("FILE.csv");
    check->add_flag("--force", options.force, core::said("help.force_fix_list"));

    add_evenings(app, options, sets);
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
