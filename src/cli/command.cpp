#include "command.hpp"

#include <unistd.h>

#include <filesystem>

#include "roostward/cli/language.hpp"
#include "roostward/cli/standard_streams.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/report/terminal.hpp"

namespace roostward::cli {

void progress(const Options& options, std::string_view step) {
    if (!options.quiet && isatty(STDERR_FILENO) == 1)
        print_note(core::said("progress", {{"step", core::said(step)}}) + "\n");
}

void print_findings(const Options& options, const core::Findings& findings, std::string_view head) {
    if (options.quiet || findings.empty()) return;
    print_note(core::said(head, {{"count", findings.size()}}) + "\n" +
               report::findings_text(findings, findings_shown) + "\n");
}

SiteAndWords read_site(const Options& options) {
    SiteAndWords read{io::read_translation(options.site_file, options.overrides), {}, {}};
    if (read.translation) read.doubts = speak(*read.translation);
    read.site = io::read_site_file(options.site_file, options.overrides);
    return read;
}

siting::Inputs read_inputs(const Options& options, const SiteAndWords& from, core::Findings& findings,
                           io::ReadFor what) {
    try {
        progress(options, "progress.reading");
        findings = from.doubts;
        siting::Inputs inputs = io::read_inputs(from.site, options.threads, findings, what);
        if (from.translation) inputs.files.push_back(from.translation->file);
        inputs.files.insert(inputs.files.end(), from.site.own_lists.begin(), from.site.own_lists.end());
        return inputs;
    } catch (const core::Error&) {
        if (!options.quiet) print_note(report::findings_text(findings, findings_shown));
        throw;
    }
}

io::PeoplesFiles peoples_files(const Options& options) {
    if (options.public_copy) return io::PeoplesFiles::refuse_kept_ones;
    return options.force ? io::PeoplesFiles::keep : io::PeoplesFiles::refuse;
}

void require_inputs_elsewhere(const Options& options, const siting::Inputs& inputs,
                              const io::OutputFolder& folder) {
    const std::filesystem::path beside = std::filesystem::path(options.site_file).parent_path();
    for (const siting::InputFile& file : inputs.files)
        if (folder.takes_the_place_of(beside / file.file))
            throw core::Error(core::Fault::usage, {file.file, file.role, {}, {}},
                              core::said("error.input_of_output", {{"folder", options.out}}));
}

}  // namespace roostward::cli
