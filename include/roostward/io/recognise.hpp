#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/point.hpp"
#include "roostward/io/site_file.hpp"

// What somebody else's files are, judged by their names, columns, geometry and values. Nothing is guessed in
// silence: what no name says carries a sentence of evidence, for a person to confirm.
namespace roostward::io {

/// A column taken for a field. `confirm` says what that was judged by; empty where the column's name says it.
struct FieldGuess {
    std::string field;
    FieldSource source;
    std::string confirm;
};

/// A layer and the input of the site file that it was taken for.
struct RecognisedLayer {
    InputSource source;              ///< role "avoid" for what a box must keep away from; without fields
    std::vector<FieldGuess> fields;  ///< in the order of the columns
    std::vector<std::string> left;   ///< columns that nobody can tell
    std::vector<std::string> notes;  ///< about columns that look like a field and are not read
    std::size_t rows = 0;            ///< looked at
    std::string confirm_role;
    std::string confirm_crs;  ///< with an empty source.crs: it is needed and not known
    std::string confirm_only;
    std::string confirm_date_order;
    /// The input with its fields, as the site file will give it.
    [[nodiscard]] InputSource mapped() const;
};

/// A file, or a layer of it, that is not used.
struct UnknownLayer {
    std::string file;
    std::string layer;
    std::string why;
};

struct Recognised {
    std::vector<RecognisedLayer> layers;
    std::vector<UnknownLayer> unknown;
    std::optional<core::GeographicPoint> place;  ///< the middle of what tells where it lies
    std::string timezone;                        ///< of the nearest place that names one; empty: not known
    std::string confirm_timezone;
};

/// What a site file in `folder` calls the file: a relative path, but where only the root is in common, for
/// such a path would break sooner than an absolute one.
[[nodiscard]] std::string path_from(const std::filesystem::path& folder, const std::string& file);

/// Looks at every layer of every file. Paths become relative to `folder`, where the site file will stand.
/// Throws Error{inputs} for a file that is missing, empty or cannot be read.
[[nodiscard]] Recognised recognise(const std::vector<std::string>& files,
                                   const std::filesystem::path& folder);

}  // namespace roostward::io
