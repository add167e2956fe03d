#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/settings.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::evenings {

/// Some time.
struct Stretch {
    core::Instant begin, end;
};

/// Somewhere a team may stand, in the planning plane.
struct Place {
    core::PlanePoint position;
    std::string name;  ///< of the station; empty where none was given
};

/// What a post is for.
enum class Because {
    new_ground,  ///< good trees that nobody has watched
    again,       ///< watched, but on too few evenings to tell
    between,     ///< trees that would be chosen and trees that would not change places here
    confirm      ///< passes by a tree that would be chosen
};
struct Reason {
    Because because = Because::new_ground;
    std::size_t trees = 0;               ///< that could hold a box and are seen from there
    std::vector<std::size_t> concerned;  ///< trees of the inventory, the most concerned first; may be empty
};

/// A team stands here from start to end.
struct Post {
    std::size_t place = 0;  ///< index into ToCome::places
    core::Instant start, end;
    std::optional<survey::FieldOfView> view;  ///< grid bearing; empty: all round
    core::Metres farthest_seen;               ///< at that light
    Reason why;

    [[nodiscard]] core::Hours hours() const { return core::hours_between(start, end); }
};

/// A team's posts of one evening, in turn.
struct Round {
    std::size_t team = 0;  ///< index into ToCome::teams
    std::vector<Post> posts;
    core::Metres walk;  ///< from the first post to the last
};

struct EveningToCome {
    core::Evening evening;
    core::Instant sunset;
    core::Instant begin, end;   ///< the hours that count
    bool provisional = false;   ///< until the one before is known
    core::Hours moon_age;       ///< since new moon
    std::vector<Round> rounds;  ///< one a team
};

/// A kept evening, for bad weather.
struct SpareEvening {
    core::Evening evening;
    core::Instant sunset, begin, end;
};

/// Whether a tree that would be chosen now is watched on an evening to come.
enum class Confirmed { confirmed, not_confirmed, not_tried };
struct SiteToConfirm {
    std::size_t tree = 0;
    Confirmed confirmed = Confirmed::not_tried;
};

/// Evenings to come: where teams stand and when.
struct ToCome {
    Settings settings;
    std::vector<Team> teams;  ///< with everything told, named "team 1" … where they have no name
    std::vector<Place> places;
    std::vector<EveningToCome> evenings;
    std::vector<SpareEvening> spare;
    std::size_t trees = 0;            ///< that could hold a box, now or once something is settled
    double share_before = 0.0;        ///< of them watched for min_watch hours and more, so far
    std::vector<double> share_after;  ///< the same after each evening, if it is held
    std::optional<core::Degrees>
        unwatched_toward;             ///< grid bearing from the middle: the corner left unwatched
    std::size_t unwatched_trees = 0;  ///< that could hold a box and stay unwatched
    std::vector<SiteToConfirm> sites;
    core::Findings findings;
};

}  // namespace roostward::evenings
