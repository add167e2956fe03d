#include "planned_boxes.hpp"

namespace roostward::report {

std::vector<PlannedBox> planned_boxes(const plan::Plan& plan) {
    std::vector<PlannedBox> boxes;
    for (const std::size_t tree : plan.chosen)
        for (const core::Degrees facing : plan.candidates[tree].facings.value().boxes)
            boxes.push_back({boxes.size() + 1, tree, facing});
    return boxes;
}

std::vector<PlannedBox> planned_boxes(const plan::Plan& plan, std::size_t tree) {
    std::vector<PlannedBox> boxes = planned_boxes(plan);
    std::erase_if(boxes, [tree](const PlannedBox& box) { return box.tree != tree; });
    return boxes;
}

}  // namespace roostward::report
