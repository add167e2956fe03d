#pragma once

#include <string>
#include <utility>

#include "roostward/report/finished_plan.hpp"

/// Small finished plans.
namespace roostward::report {

/// A tree some metres east of 2° W, 52° N.
inline core::Document tree_feature(double metres_east, core::Object properties) {
    constexpr double metres_a_degree = 68677.0;  // of longitude at 52° N
    return core::Object{
        {"properties", std::move(properties)},
        {"geometry", core::Object{{"coordinates", core::List{-2.0 + metres_east / metres_a_degree, 52.0}}}}};
}

inline core::Object ranked_tree(const std::string& tag, int rank, double score) {
    return {{"rank", rank},    {"tree", tag},    {"chosen", false},
            {"site", nullptr}, {"score", score}, {"why", "About 3 flights an hour."}};
}

inline core::Object chosen_tree(const std::string& tag, int rank, double score, int site) {
    return {{"rank", rank}, {"tree", tag},    {"chosen", true},
            {"site", site}, {"score", score}, {"why", "About 9 flights an hour."}};
}

inline core::Object ruled_out_tree(const std::string& tag, const std::string& rule) {
    return {
        {"tree", tag},
        {"state", "ruled out"},
        {"reasons",
         core::List{core::Object{
             {"rule", rule}, {"state", "ruled out"}, {"sentence", "It is too thin."}, {"who", nullptr}}}}};
}

inline core::Document score_of_tree(const std::string& tag, double flight, double dark) {
    const auto part = [](const char* measure, double value, double contribution) {
        return core::Object{{"measure", measure},
                            {"value", value},
                            {"unit", "u"},
                            {"utility", 0.5},
                            {"contribution", contribution}};
    };
    return core::Object{{"tree", tag},
                        {"parts", core::List{part("flight density", 1234, flight), part("dark", 0.5, dark)}}};
}

inline core::Document layer_of(core::List features) {
    return core::Object{{"features", std::move(features)}};
}

/// 0001 is site 1; 0002, 20 m to the east of it, ranks second; 0003 is ruled out.
inline FinishedPlan three_trees() {
    FinishedPlan plan;
    plan.folder = "results";
    plan.plan = core::Object{
        {"format", 1},
        {"program", "roostward"},
        {"version", "0.1.0"},
        {"seed", 1},
        {"not_checked", "Nobody has checked: roads."},
        {"summary",
         core::Object{{"scores", core::Object{{"trees", core::List{score_of_tree("0001", 0.6, -0.1),
                                                                   score_of_tree("0002", 0.3, -0.1)}}}},
                      {"evenings", core::List{core::Object{
                                       {"evening", "2026-06-09"}, {"flights", 12}, {"watch_hours", 1.5}}}}}},
        {"parameters", core::List{core::Object{{"key", "weights.dark"}, {"value", 1.0}},
                                  core::Object{{"key", "suitability.min_dbh_cm"}, {"value", 25}}}},
        {"inputs", core::List{core::Object{{"role", "trees"}, {"file", "trees.csv"}, {"sha256", "aa"}}}},
        {"rows", core::List{core::Object{{"layer", "trees"}, {"used", 3}}}}};
    plan.ranked = layer_of(
        {tree_feature(0, chosen_tree("0001", 1, 0.5, 1)), tree_feature(20, ranked_tree("0002", 2, 0.2))});
    plan.others = layer_of({tree_feature(25, ruled_out_tree("0003", "trunk too thin"))});
    return plan;
}

}  // namespace roostward::report
