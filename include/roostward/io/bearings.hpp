#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "roostward/io/reading.hpp"

namespace roostward::io {

/// A true bearing in [0, 360): degrees, or one of the 16 points of the compass in letters or in full, in
/// English, German, French, Spanish, Italian, Portuguese, Dutch or a Scandinavian language ("NNE",
/// "north-east", "Südwest", "nord-ouest"); also as "towards NE", "NE-bound", "from SW" (turned round) and "SW
/// to NE". The letter O is east in some of these languages and west in others: that is a trouble, and so are
/// two ways at once ("SW-NE").
[[nodiscard]] Reading<double> read_bearing(std::string_view text);

/// A way told by something that has a name.
struct NamedWay {
    std::string name;  ///< as written
    bool from = false;
};

/// "towards the creek", "to the Long Avenue", "from the barn"; empty for any other text.
[[nodiscard]] std::optional<NamedWay> read_named_way(std::string_view text);

}  // namespace roostward::io
