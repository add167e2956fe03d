#pragma once

#include <optional>
#include <string>

#include "roostward/core/parallel.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/io/recognise.hpp"

namespace roostward::io {

/// The inputs that are still to be filled in, in sheets beside the site file.
struct BlankSheets {
    bool passes = false, watches = false, trees = false;
};
/// Those that nothing of what was recognised takes the place of.
[[nodiscard]] BlankSheets blank_sheets_for(const Recognised& recognised);

struct SiteDraft {
    std::string name;
    std::string words{};  ///< the file of another language, as the site file calls it; empty for English
    bool with_squares = false;  ///< squares.geojson stands beside it
};
/// A commented site file. Every guess has a line `# CONFIRM: …` above it.
[[nodiscard]] std::string site_file_text(const SiteDraft& draft, const Recognised& recognised);

/// What a map of the park shows, in one plane.
struct ParkPlaces {
    struct Tree {
        std::string tag;
        core::PlanePoint stem;
    };
    geo::Crs plane;
    std::vector<Tree> trees;
    std::vector<geo::Polygon> allowed_area;
    std::vector<core::PlanePoint> watches;
};
/// Trees, allowed area and watches as the recognised fields read them. Throws Error{inputs} where a file
/// cannot be read so; empty where there is neither a tree nor an allowed area.
[[nodiscard]] std::optional<ParkPlaces> park_places(const Recognised& recognised, core::Threads threads);

}  // namespace roostward::io
