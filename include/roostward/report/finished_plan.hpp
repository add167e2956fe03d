#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/core/point.hpp"

/// A plan read back from its folder.
namespace roostward::report {

struct FinishedPlan {
    std::string folder;
    core::Document plan;    ///< plan.json
    core::Document ranked;  ///< ranked_sites.geojson
    core::Document others;  ///< other_trees.geojson
};

/// One tree of it. Refers to the plan.
class FinishedTree {
 public:
    explicit FinishedTree(const core::Document& feature) : feature_(&feature) {}

    [[nodiscard]] const core::Document& at(std::string_view property) const {
        return feature_->at("properties").at(property);
    }
    [[nodiscard]] const core::Document& properties() const { return feature_->at("properties"); }
    [[nodiscard]] std::string_view id() const { return at("tree").text(); }
    /// "can be chosen", "settle first", "not watched" or "ruled out"
    [[nodiscard]] std::string_view state() const;
    [[nodiscard]] std::string state_in_words() const;
    /// The rules against it, as "trunk too thin".
    [[nodiscard]] std::vector<std::string_view> rules() const;
    /// "lamp, trunk too thin"; empty where there is none.
    [[nodiscard]] std::string rules_in_words() const;
    [[nodiscard]] core::GeographicPoint place() const;
    friend bool operator==(const FinishedTree&, const FinishedTree&) = default;

 private:
    const core::Document* feature_;
};

/// Of the ranked ones, then of all others; in the order of the files.
[[nodiscard]] std::vector<FinishedTree> trees_of(const FinishedPlan& plan);

/// The member of a list whose text under `key` is this; null where there is none.
[[nodiscard]] const core::Document& member_with(const core::Document& list, std::string_view key,
                                                std::string_view text);

/// "plan 1a2b3c4d", or that it has no number, as earlier versions gave none.
[[nodiscard]] std::string told_number(const FinishedPlan& plan);

/// Throws Error{usage} where the folder's plan is of a newer format than ours, a ranking only, or
/// none.
void require_our_format(const FinishedPlan& plan);

}  // namespace roostward::report
