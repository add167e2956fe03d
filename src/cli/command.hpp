#pragma once

#include <optional>
#include <string_view>

#include "roostward/cli/options.hpp"
#include "roostward/core/finding.hpp"
#include "roostward/io/output_folder.hpp"
#include "roostward/io/read_inputs.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/io/translation.hpp"
#include "roostward/siting/inputs.hpp"

/// What the commands have in common.
namespace roostward::cli {

/// Findings of each kind that the terminal shows.
inline constexpr std::size_t findings_shown = 3;

/// What is being done, by its key; on a terminal only.
void progress(const Options& options, std::string_view step);

/// `head` is the key of what stands above them, with their count.
void print_findings(const Options& options, const core::Findings& findings, std::string_view head);

struct SiteAndWords {
    std::optional<io::Translation> translation;
    core::Findings doubts;  ///< about the translation
    io::SiteFile site;
};
/// Says all that follows in the language of the site file; reads it.
[[nodiscard]] SiteAndWords read_site(const Options& options);

/// Reads the inputs; where they cannot be used, what was found until then is told before the error.
[[nodiscard]] siting::Inputs read_inputs(const Options& options, const SiteAndWords& from,
                                         core::Findings& findings, io::ReadFor what = io::ReadFor::plan);

[[nodiscard]] io::PeoplesFiles peoples_files(const Options& options);

/// A file that this run takes the place of would be another the next time. Throws Error{usage}.
void require_inputs_elsewhere(const Options& options, const siting::Inputs& inputs,
                              const io::OutputFolder& folder);

}  // namespace roostward::cli
