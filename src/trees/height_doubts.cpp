#include "roostward/trees/height_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "roostward/canopy/at_stem.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::trees {

namespace {

constexpr double share_that_tells = 0.05;
constexpr double likely_metres = 3.0;
constexpr double likely_share = 0.3;
constexpr std::size_t rows_named = 3;

/// A tree whose height differs.
struct Odd {
    std::size_t tree = 0;  ///< index into the inventory
    double told = 0.0;
    double more = 0.0;  ///< metres in the canopy model above those told
};

struct Compared {
    std::size_t trees = 0;
    std::vector<Odd>
        odd;  ///< the `rows_named` largest differences first, then by index; the rest in no order
};

/// Of the trees whose height is told, what the canopy model says it is.
std::vector<std::optional<core::Metres>> crown_tops(const Inventory& inventory,
                                                    const core::Raster& canopy_height,
                                                    core::Metres unknown_crown, core::Threads threads) {
    std::vector<std::optional<core::Metres>> tops(inventory.rows.size());
    core::parallel_for(tops.size(), 512, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const Tree& tree = inventory.rows[i];
            if (tree.height)
                tops[i] =
                    canopy::crown_top(canopy_height, tree.stem, tree.crown_radius.value_or(unknown_crown));
        }
    });
    return tops;
}

Compared compare(const Inventory& inventory, const std::vector<std::optional<core::Metres>>& tops) {
    Compared compared;
    for (std::size_t i = 0; i < tops.size(); ++i) {
        if (!tops[i]) continue;
        const Tree& tree = inventory.rows[i];
        ++compared.trees;
        const double told = tree.height->value(), more = tops[i]->value() - told;
        if (std::fabs(more) > std::max(likely_metres, likely_share * told))
            compared.odd.push_back({i, told, more});
    }
    const auto named = static_cast<std::ptrdiff_t>(std::min(rows_named, compared.odd.size()));
    std::ranges::partial_sort(compared.odd, compared.odd.begin() + named, [](const Odd& a, const Odd& b) {
        const double one = std::fabs(a.more), other = std::fabs(b.more);
        return one != other ? one > other : a.tree < b.tree;
    });
    return compared;
}

double median_of(const std::vector<Odd>& odd) {
    std::vector<double> more;
    more.reserve(odd.size());
    for (const Odd& tree : odd)
        more.push_back(tree.more);
    const auto middle = more.begin() + static_cast<std::ptrdiff_t>((more.size() - 1) / 2);
    std::ranges::nth_element(more, middle);
    return *middle;
}

/// "row 7: 4 m told, 21.5 m in the model; …"
std::string worst_of(const std::vector<Odd>& odd, const Inventory& inventory) {
    std::string text;
    for (std::size_t i = 0; i < std::min(rows_named, odd.size()); ++i) {
        if (i > 0) text += "; ";
        text += core::said("finding.heights_of_row",
                           {{"row", inventory.row_name(inventory.rows[odd[i].tree].row)},
                            {"told", odd[i].told},
                            {"modelled", odd[i].told + odd[i].more}});
    }
    return text;
}

}  // namespace

core::Findings height_doubts(const Inventory& inventory, const std::optional<core::Raster>& canopy_height,
                             const Settings& settings, core::Threads threads) {
    if (!canopy_height) return {};
    const Compared compared =
        compare(inventory, crown_tops(inventory, *canopy_height, settings.unknown_crown_in_gap, threads));
    const auto odd = static_cast<double>(compared.odd.size());
    if (odd <= share_that_tells * static_cast<double>(compared.trees)) return {};
    core::Finding finding;
    finding.severity = core::Severity::doubtful;
    finding.place = {inventory.file, inventory.layer, {}, "height_m"};
    finding.kind = "heights differ from the canopy";
    finding.value =
        core::said("finding.heights_differ.value", {{"count", compared.odd.size()}, {"all", compared.trees}});
    finding.sentence = core::said("finding.heights_differ", {{"metres", median_of(compared.odd)},
                                                             {"most", worst_of(compared.odd, inventory)}});
    return {finding};
}

}  // namespace roostward::trees
