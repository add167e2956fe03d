#pragma once

#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

/// What to see to before and while boxes are hung. Common practice, no source, where nothing else is said.
namespace roostward::report {

/// What the box itself must be like, for the boxes that the site file describes.
[[nodiscard]] std::vector<std::string> before_you_hang_it(const plan::Plan& plan);

/// Which kind of box suits the sun on a tree's first face, by season; empty where that is not known.
[[nodiscard]] std::string kind_of_box(const siting::Candidate& candidate);

/// "Put boxes up from September to February, …", by the hemisphere of the site.
[[nodiscard]] std::string when_to_put_up(const plan::Plan& plan);

/// What is done with boxes once they hang, and what is not.
[[nodiscard]] std::vector<std::string> afterwards();

/// What the climber looks at on every tree, and what a desk cannot know.
[[nodiscard]] std::vector<std::string> climber_confirms(const plan::Plan& plan);

/// "Hang at 4.5 m. Entrances face: site 1 SSE and ENE · site 2 …"
[[nodiscard]] std::string how_to_hang(const plan::Plan& plan);

}  // namespace roostward::report
