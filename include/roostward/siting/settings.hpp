#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/activity/settings.hpp"
#include "roostward/core/document.hpp"
#include "roostward/siting/box.hpp"
#include "roostward/siting/profile.hpp"
#include "roostward/survey/survey.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::siting {

/// What trees can have in common, so that a quota can count them.
enum class Shared { owner, species, zone, condition };

/// At most so many chosen trees with the same owner, of the same species …
struct Quota {
    Shared by = Shared::owner;
    std::size_t count = 1;
};

struct ChoiceSettings {
    std::size_t sites = 6;
    std::size_t boxes_per_site = 2;
    core::Metres spacing{30.0};
    std::vector<std::string> must, never;  ///< identifiers of trees
    std::vector<Quota> at_most;            ///< each by something else
    std::optional<double> budget;          ///< for all sites together, in the unit of the trees' cost
};

/// How much the fitness of a place counts against the evidence of flight there, and the weights of its
/// parts; 0 leaves one out.
struct Weights {
    double fitness_share = 0.4;
    double approach = 2.0, sun = 1.0, dark = 1.0, quiet = 1.0;
};

/// One setting as it was used, for `check --explain` and plan.json.
struct Parameter {
    std::string key;  ///< "activity.min_watch_hours"
    core::Document value;
    std::string unit;
    std::string set_by;  ///< "default", "box profile", "site file", "--set"
    Provenance provenance;
    std::string meaning;  ///< one short sentence
};

/// Everything the site file decides, ready for the analysis.
struct Settings {
    std::string site_name;
    std::string site_file;        ///< as given on the command line
    std::string looked_after_by;  ///< who sees to the boxes in the years after, where a tree does not tell
    Profile profile;
    survey::Settings survey;
    activity::Settings activity;
    trees::Settings suitability;
    Weights weights;
    Box box;
    Climate climate;
    core::Metres road_in_view{50.0};  ///< no box faces a road this near
    ChoiceSettings choice;
    bool ranking_only = false;  ///< leaves out draws of the weights, reserves and what-ifs
    std::vector<Parameter> parameters;
};

}  // namespace roostward::siting
