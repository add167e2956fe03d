#include "places/locating.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "places/landmarks.hpp"
#include "places/record_contents.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/content_order.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using survey::Watch;

/// Gives every row of a layer that lies elsewhere its place by `locate(record, where)`, which says why not.
template <class Record, class Locate>
void locate(UnplacedLayer<Record>& layer, const Locate& locate) {
    if (layer.elsewhere.empty()) return;
    for (Elsewhere<Record>& row : layer.elsewhere) {
        if (const std::optional<Lost> lost = locate(row.record, row.where)) {
            layer.facts.report.set_aside_row(row.record.row, lost->kind, lost->value, lost->sentence);
        } else {
            layer.rows.push_back(std::move(row.record));
        }
    }
    layer.elsewhere.clear();
    core::put_in_order(layer.rows);
}

/// Where a thing is that stands at what it is told by.
template <class SetPosition>
auto at(const Landmarks& landmarks, const SetPosition& set) {
    return [&landmarks, &set](auto& record, const Whereabouts& where) -> std::optional<Lost> {
        const Landmarks::Answer answer = landmarks.named(where);
        if (const auto* lost = std::get_if<Lost>(&answer)) return *lost;
        set(record, std::get<Landmark>(answer).position);
        return std::nullopt;
    };
}

class PassLocator {
 public:
    PassLocator(const Landmarks& landmarks, const GridNorth& north) : landmarks_(landmarks), north_(north) {}

    std::optional<Lost> operator()(Pass& pass, const Whereabouts& where) {
        const auto* from = std::get_if<FromStation>(&where);
        const Landmarks::Answer answer =
            from != nullptr ? landmarks_.station_of(pass) : landmarks_.named(where);
        if (const auto* lost = std::get_if<Lost>(&answer)) return *lost;
        const Landmark& mark = std::get<Landmark>(answer);
        if (from != nullptr)
            place_from(pass, mark, *from);
        else
            place_at(pass, mark);
        return std::nullopt;
    }

    void tell(LayerReport& report) const {
        if (by_eye_ > 0) {
            report.note_layer("accuracy was not told", core::said("value.by_distance", {{"count", by_eye_}}),
                              core::said("finding.accuracy_by_distance"));
        }
        if (by_tree_ > 0) {
            report.note_layer(
                "accuracy was not told", core::said("value.by_tree", {{"count", by_tree_}}),
                core::said("finding.accuracy_by_tree", {{"metres", near_tree_accuracy.value()}}));
        }
        if (coarse_ > 0) {
            report.doubt_layer(too_coarse, core::said("value.in_squares", {{"count", coarse_}}),
                               core::said("finding.coarse_squares"));
        }
    }

 private:
    void place_from(Pass& pass, const Landmark& station, const FromStation& from) {
        pass.position = core::moved(
            station.position, north_.grid_bearing(from.true_direction, station.position), from.distance);
        if (pass.accuracy.value() > 0.0 || from.distance.value() == 0.0) return;
        pass.accuracy = from.accuracy;
        ++by_eye_;
    }

    /// A told accuracy replaces that of a tree; a square stays as large as it is.
    void place_at(Pass& pass, const Landmark& mark) {
        pass.position = mark.position;
        if (mark.side.value() > 0.0) {
            pass.accuracy = accuracy_in_square(pass.accuracy, mark.side);
            pass.step = mark.side;
            coarse_ += mark.side >= coarse_side;
        } else if (pass.accuracy.value() <= 0.0) {
            pass.accuracy = near_tree_accuracy;
            ++by_tree_;
        }
    }

    const Landmarks& landmarks_;
    const GridNorth& north_;
    std::size_t by_eye_ = 0, by_tree_ = 0, coarse_ = 0;
};

bool anything_elsewhere(const UnplacedInputs& in) {
    const auto any = [](const auto& layer) { return layer && !layer->elsewhere.empty(); };
    return any(in.watches) || any(in.passes) || any(in.roosts) || any(in.boxes);
}

template <class Layer>
auto rows_of(const std::optional<Layer>& layer) {
    return layer ? std::span(layer->rows) : decltype(std::span(layer->rows))();
}

}  // namespace

void locate_elsewhere(UnplacedInputs& in, const GridNorth& north) {
    if (!anything_elsewhere(in)) return;
    Landmarks landmarks(rows_of(in.trees), rows_of(in.squares));
    const auto position_of = [](auto& record, core::PlanePoint where) { record.position = where; };
    const auto path_of = [](Watch& watch, core::PlanePoint where) { watch.path = {where}; };
    if (in.watches) {
        locate<Watch>(*in.watches, at(landmarks, path_of));
        landmarks.add_stations(in.watches->rows);
    }
    if (in.passes) {
        PassLocator locator(landmarks, north);
        locate(*in.passes, std::ref(locator));
        locator.tell(in.passes->facts.report);
    }
    if (in.roosts) locate(*in.roosts, at(landmarks, position_of));
    if (in.boxes) locate(*in.boxes, at(landmarks, position_of));
}

}  // namespace roostward::io
