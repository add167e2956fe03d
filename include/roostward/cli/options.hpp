#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/io/site_file.hpp"

namespace roostward::cli {

enum class Command { plan, check, start_new, why, compare, evenings };

struct Options {
    Command command = Command::plan;
    std::string site_file;
    std::string out;
    std::vector<std::string> files;  ///< for `new` to look at
    std::string words;               ///< for `new`: file of another language; empty for English
    std::string finished, other;     ///< folders of finished plans, for `why` and `compare`
    std::string tree;                ///< for `why`
    bool force = false;
    bool quiet = false;
    bool json = false;
    bool explain = false;
    bool public_copy = false;
    bool ranking_only = false;
    std::string fix_list;    ///< file for what should be mended; empty: none
    std::string start;       ///< for `evenings`: a date, ISO 8601
    std::int64_t count = 0;  ///< for `evenings`
    std::int64_t teams = 0;  ///< for `evenings`
    bool anyway = false;     ///< for `evenings`: out of season too
    core::Threads threads;
    std::uint64_t seed = 1;
    std::vector<io::Override> overrides;
};

/// What the command line asks for, or the text to print and the exit code where it asks for help, the
/// version, or something that does not exist.
struct Parsed {
    std::optional<Options> options;
    std::string text;
    int exit_code = 0;
};
[[nodiscard]] Parsed parse(int argc, char** argv);

}  // namespace roostward::cli
