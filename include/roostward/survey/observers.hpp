#pragma once

#include <string>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// Who is behind a letter: for the team only.
struct Observer {
    std::string letter;  ///< "A" … "Z", "AA" …
    std::string name;    ///< as the watches tell it
};

/// Replaces the names of observers in the watches by letters, in the order of the names, and returns who is
/// who.
[[nodiscard]] std::vector<Observer> letter_observers(Survey& survey);

}  // namespace roostward::survey
