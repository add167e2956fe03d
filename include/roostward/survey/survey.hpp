#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/survey/animal_words.hpp"
#include "roostward/survey/evening_hours.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::survey {

/// Which layer a flight was noted in.
enum class NotedIn { passes, tracks, tallies };
[[nodiscard]] std::string_view to_text(NotedIn layer);

/// Which of several notes of one flight count once.
enum class WrittenTwice {
    two_writers,  ///< those of different observers
    count_once,   ///< whoever wrote them
    keep          ///< none
};

/// How flights and watches are counted. Cut-offs of weather: from memory.
struct Settings {
    /// Metres of flight that one pass stands for, and how long a piece they are laid over. Empty: see
    /// metres_flown_in_view, laid over one range.
    std::optional<core::Metres> seen_length;
    /// How far animals fly on one way: common practice, no source.
    core::Metres flight_length{600.0};
    bool keep_poor_weather = false;
    core::Celsius coldest{10.0};          ///< colder evenings are poor weather
    core::MetresPerSecond windiest{5.0};  ///< windier evenings are poor weather
    HoursCounted hours;
    AnimalWords animals;
    std::map<NotedIn, AnimalAnswers> answers;  ///< what the site file says of words for animals
    AnimalAnswers roost_answers;               ///< the same for those of known roosts
    std::vector<std::string> keep_from;        ///< words for animals that are told where they were seen
    /// Feeding passes of one watch that lie no further apart count once: common practice. 0: each counts.
    std::chrono::minutes feeding_once{5};
    WrittenTwice written_twice = WrittenTwice::two_writers;
};

/// A piece of flight that counts. A point where it was not known which way the animal flew.
struct Flight {
    NotedIn noted_in = NotedIn::passes;
    std::uint32_t evening = 0;           ///< index into Survey::evenings
    std::optional<std::uint32_t> watch;  ///< index into Survey::watches
    std::optional<core::Instant> time;   ///< empty where it was not told, and for tallies
    geo::Line path;                      ///< one point, or two and more
    double count = 1.0;
    core::Metres length;  ///< metres flown that it stands for, for one animal; laid out over the path
    core::Metres accuracy;
    core::Metres step;                   ///< its coordinates were rounded to this; 0: not known to be
    std::optional<core::Metres> height;  ///< above ground, where it was told
    Behaviour behaviour = Behaviour::unknown;
    bool placed = true;  ///< false: heard somewhere in its watch's view

    /// Whether its place was seen. A tally lies on a line that somebody drew, the same on every evening.
    [[nodiscard]] bool place_was_seen() const { return placed && noted_in != NotedIn::tallies; }
    /// Metres flown that it stands for, of all its animals.
    [[nodiscard]] double metres() const { return count * length.value(); }
};

/// How a flight's metres lie on its path: metres flown for each metre of path, for one animal; in all, where
/// the path is a single place. 0 for a path that goes nowhere.
[[nodiscard]] double laid_on_path(const Flight& flight);

/// The evenings as they enter the flight density: what was seen, and who watched where for how long.
struct Survey {
    std::vector<core::Evening> evenings;  ///< ascending
    std::vector<Flight> flights;          ///< passes, tracks, tallies, each in the order of their content
    std::vector<Watch> watches;           ///< those that count
    std::vector<std::uint32_t> watch_evening;  ///< one a watch, index into evenings
    /// Without watches: the ground that counts as evenly watched for one hour an evening.
    std::vector<geo::Polygon> even_ground;
    [[nodiscard]] bool even_effort() const { return watches.empty(); }
};

/// Emergence or return seen: animals may live within reach of this place.
struct RoostSign {
    core::PlanePoint position;
    Behaviour behaviour = Behaviour::emerging;
    core::Evening evening;
};

/// An animal seen that the boxes must be kept from, as an owl.
struct NeighbourSeen {
    core::Place place;
    core::PlanePoint position;
    core::Evening evening;
    std::string animal;    ///< as written
    bool perched = false;  ///< it sat there
};

struct Matched {
    Survey survey;
    std::vector<RoostSign> roost_signs;
    core::Findings
        findings;  ///< rows set aside here (poor weather, outside any watch), one each, apart, and doubts
    std::vector<NeighbourSeen> neighbours;

    /// How many rows were set aside of a layer, or of one of its files.
    [[nodiscard]] std::size_t set_aside(std::string_view layer, std::string_view file = {}) const;
    /// How many were put apart.
    [[nodiscard]] std::size_t apart(std::string_view layer, std::string_view file = {}) const;
};

/// The same evenings with these watches alone (ascending indices), and the flights seen from them.
[[nodiscard]] Survey part_of(const Survey& survey, std::span<const std::uint32_t> watches);

/// What people wrote down. Refers to its layers.
struct Noted {
    const core::Records<Pass>& passes;
    const core::Records<Track>& tracks;
    const core::Records<Tally>& tallies;
    const core::Records<Watch>& watches;
    const core::Records<Route>& routes;
};

/// Matches passes and tracks to watches by name, else by time within three ranges (inclusive); makes each
/// pass a straight piece of flight centred on its position along its bearing (see Settings::seen_length).
/// Those without a watch stay out of the flight density, with a finding. Without any watch every evening
/// counts as one hour of even watching over the allowed area, else over the hull of the observations widened
/// by 50 m, and a pass stands for 30 m. An evening whose watches were all in poor weather is left out unless
/// `keep_poor_weather`. Hours that do not count (see Settings::hours and `sunset_of`) are cut off watches;
/// passes and tracks of such hours stay out. What was no animal that the boxes are for, and what nobody
/// knows, is apart, told once a kind.
///
/// Passes that lie where their watch stood, more than half of a station's, count as heard somewhere in view
/// unless their `place_of` is animal. Notes of one flight by several writers count once. Feeding passes of
/// one watch within `feeding_once` share one count.
///
/// A tally needs a watch. The share of it that flew along a route is laid over the route's part within three
/// ranges of the watch, as dense as the half-normal view: so many metres for each animal as the route has in
/// effective view, which makes the flight density even along it. Its place is as good as the drawing (10 m,
/// common practice, no source). What crossed a gate is laid the same way along the line straight through its
/// middle; the gate is a watch of its own there, with 1/√(2π) of its width for a range, and a watch that
/// did nothing but count at gates watched nothing else. The rest counts as seen somewhere in view. A tally
/// that reaches beyond the hours that its watch counts for counts in proportion.
[[nodiscard]] Matched match(const Noted& noted, const std::vector<geo::Polygon>& allowed_area,
                            const Settings& settings, const SunsetOf& sunset_of = {});

}  // namespace roostward::survey
