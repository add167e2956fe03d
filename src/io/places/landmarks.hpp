#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "layers/layers.hpp"
#include "places/whereabouts.hpp"

namespace roostward::io {

/// Of a pass told by a tree: common practice, no source.
inline constexpr core::Metres near_tree_accuracy{5.0};

/// From this side on (inclusive) a square holds too many trees to choose between them.
inline constexpr core::Metres coarse_side{100.0};
inline constexpr const char* too_coarse = "too coarse to choose between trees";

/// Standard deviation of each axis of a place that may be anywhere in a square, and is off by `accuracy`
/// besides.
[[nodiscard]] core::Metres accuracy_in_square(core::Metres accuracy, core::Metres side);

/// Something in the planning plane that notes refer to.
struct Landmark {
    core::PlanePoint position;
    std::string name;
    core::Metres side{};  ///< of a square; 0 for a point
};

/// Why a place was not found, as a finding tells it; `value` is the word that should have told it.
struct Lost {
    std::string kind;
    std::string value;
    std::string sentence;
};

/// Trees, squares and stations by their names.
class Landmarks {
 public:
    using Answer = std::variant<Landmark, Lost>;

    /// Both must outlive this.
    Landmarks(std::span<const trees::Tree> trees, std::span<const NamedGround> squares);
    void add_stations(std::span<const survey::Watch> watches);

    [[nodiscard]] Answer named(const Whereabouts& where) const;
    /// Where the watch of a pass stood: the one of its name at its time, else where all of that name stood;
    /// without a name the only one of its time.
    [[nodiscard]] Answer station_of(const survey::Pass& pass) const;

 private:
    using Names = std::map<std::string, Landmark, std::less<>>;
    /// `key` is the name as `known` has it; `what_to_do` is a key of the catalogue.
    [[nodiscard]] Lost unknown(const char* kind, const std::string& name, const std::string& key,
                               const Names& known, const char* what_to_do) const;
    [[nodiscard]] Answer tree(const std::string& name) const;
    [[nodiscard]] Answer square(const std::string& name) const;

    Names trees_, squares_;
    std::map<std::string, std::set<std::string>> ids_folded_;  ///< of trees: notes mind no capitals
    std::vector<const survey::Watch*> watches_;
    mutable std::map<std::string, std::string> nearest_;  ///< asked for so far
};

}  // namespace roostward::io
