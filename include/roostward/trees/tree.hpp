#pragma once

#include <bitset>
#include <memory>
#include <optional>
#include <string>

#include "roostward/core/finding.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"

namespace roostward::trees {

/// Vigour, not safety.
enum class Condition { good, fair, poor, dead };
/// Likelihood of failure, as tree-risk forms word it.
enum class Hazard { improbable, possible, probable, imminent };
enum class Permission { asked, given, refused };

/// A kind of plant that holds no box, as a palm.
struct NoBoxKind {
    std::string kind;   ///< "palm"
    std::string words;  ///< what the inventory says: "Phoenix canariensis"
};

/// One tree of the inventory. Empty means not told.
struct Tree {
    core::RowRef row;
    std::string id;
    core::PlanePoint stem;
    std::optional<core::Centimetres> dbh;
    std::optional<core::Metres> height;
    std::optional<core::Metres> crown_radius;
    std::optional<Condition> condition;
    std::optional<Hazard> hazard;
    std::optional<core::Date> inspected;
    std::optional<bool> has_hollow;
    std::optional<bool> protected_tree;
    std::optional<Permission> permission;
    std::optional<core::Date> work_due;
    std::string planned_work;  ///< empty: none planned
    std::string owner;
    std::string species;
    std::string zone;
    std::string looked_after_by;              ///< who sees to boxes on it in the years after
    std::optional<double> cost;               ///< of a site here, in the unit of the budget
    std::shared_ptr<const NoBoxKind> no_box;  ///< null: a kind that can hold one, or not known
};

enum class TreeField {
    dbh,
    height,
    crown_radius,
    condition,
    hazard,
    inspected,
    has_hollow,
    protected_tree,
    permission,
    planned_work,
    work_due,
    owner,
    species,
    zone,
    cost,
    looked_after_by,
    count
};

/// Which fields the inventory has a column for that tells something of any tree. A missing column is told as
/// "not checked"; a missing value in a column that is there makes its tree one to settle first.
class TreeColumns {
 public:
    void add(TreeField field) { bits_.set(static_cast<std::size_t>(field)); }
    [[nodiscard]] bool has(TreeField field) const { return bits_.test(static_cast<std::size_t>(field)); }

 private:
    std::bitset<static_cast<std::size_t>(TreeField::count)> bits_;
};

struct Inventory : core::Records<Tree> {
    TreeColumns columns;
};

}  // namespace roostward::trees
