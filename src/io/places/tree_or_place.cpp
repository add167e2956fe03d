#include "places/tree_or_place.hpp"

#include <string>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

TreeOrPlace::TreeOrPlace(const OpenLayer& layer, const InputSource& source, LayerFacts& facts,
                         const Field& tree)
    : tree_(tree) {
    facts.present().crs = geo::wgs84();
    if (PlaceReader::told(layer) || !tree.given()) place_.emplace(layer, source, facts);
}

core::PlanePoint TreeOrPlace::take(const RowReader& row, std::optional<Whereabouts>& elsewhere) const {
    std::string tree = row.text(tree_);
    if (!tree.empty() && (!place_ || place_->blank(row)))
        elsewhere = NearTree{std::move(tree)};
    else if (place_)
        return place_->point(row);
    else
        row.report().set_aside(tree_.name, "no place", "", core::said("finding.no_place"));
    return {};
}

}  // namespace roostward::io
