#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/settings.hpp"
#include "roostward/io/tree_words.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::io {

/// How one of our fields is found in somebody else's column.
struct FieldSource {
    std::string column;
    std::string unit;                           ///< empty: the field's own
    bool girth = false;                         ///< the column holds a girth, to be divided by π
    std::map<std::string, std::string> values;  ///< their word → ours
};

/// A file as the site file names it, and resolved against the folder of the site file.
struct NamedFile {
    std::string file;
    std::string path;
};

/// One input of the site file.
struct InputSource {
    std::string role;  ///< "passes", "trees", "avoid[0]"
    std::string file;  ///< as written
    std::string path;  ///< resolved against the folder of the site file
    std::string layer;
    std::string only;        ///< attribute filter, as in SQL's WHERE
    std::string crs;         ///< of x, y columns, or of a file that does not say; empty: the file's own
    std::string date_order;  ///< "dmy" or "mdy"; empty: not told
    std::map<std::string, FieldSource> fields;
    std::vector<NamedFile> further;  ///< more files of the same layer, all in order of their names
    survey::AnimalAnswers counts;    ///< whether words for animals count
};

/// One source a file.
[[nodiscard]] std::vector<InputSource> each_file(const InputSource& source);

struct AvoidSource {
    InputSource source;  ///< its role counts as the site file does
    core::Metres within;
    std::string reason;
    trees::State then = trees::State::ruled_out;
    std::string who;
};

struct SiteFile {
    siting::Settings settings;
    std::string timezone;  ///< IANA name; empty: every time must carry its offset
    std::string crs;       ///< "auto" or a projected metric system
    double max_bad_share = 0.1;
    std::optional<InputSource> passes, tracks, tallies, watches, routes, trees, roosts, lamps, boxes, roads,
        water, allowed_area, squares;
    /// Of use to evenings to come alone, see leave_out_evenings.
    std::optional<InputSource> paths, stations, keep_out;
    std::optional<InputSource> canopy;            ///< height of the canopy above ground
    std::optional<InputSource> surface, terrain;  ///< in place of it, both: heights above sea
    std::optional<InputSource> basemap;           ///< picture behind the report's map
    std::vector<AvoidSource> avoid;
    evenings::Settings evenings;
    std::vector<siting::Parameter> evenings_parameters;
    core::Document
        reading_rules;  ///< what it says of how the inputs of a plan are to be read, without names of files
    std::vector<siting::InputFile>
        own_lists;                        ///< box profiles, groups of animals, words of trees, of one's own
    std::optional<TreeWords> tree_words;  ///< in place of those in the program
};

/// One `--set key.path=value`.
struct Override {
    std::string key;
    std::string value;  ///< TOML, or plain text where it is not TOML
};

/// Reads the site file (TOML 1.0), the box profile and the overrides. Throws Error{site_file} that names the
/// key, and for an unknown key the nearest known one.
[[nodiscard]] SiteFile read_site_file(const std::string& path, const std::vector<Override>& overrides);

/// Inputs that only evenings to come need: a plan neither reads them nor has another number for them.
void leave_out_evenings(SiteFile& site);

/// What it names as site.words; nothing where it names none. Throws Error{site_file} likewise.
[[nodiscard]] std::optional<std::string> words_named_in(const std::string& path,
                                                        const std::vector<Override>& overrides);

}  // namespace roostward::io
