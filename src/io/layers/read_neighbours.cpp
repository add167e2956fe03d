#include <array>

#include "layers/layers.hpp"
#include "places/tree_or_place.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/bearings.hpp"
#include "words/bounds.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using trees::BoxStatus;
using trees::HungBox;
using trees::KnownRoost;
using trees::Lamp;

template <class Quantity>
std::optional<Quantity> in_unit(std::optional<double> number) {
    return number ? std::optional(Quantity(*number)) : std::nullopt;
}

constexpr std::array<Word<BoxStatus>, 9> status_words = {{{"up", BoxStatus::up},
                                                          {"hanging", BoxStatus::up},
                                                          {"hung", BoxStatus::up},
                                                          {"fallen", BoxStatus::fallen},
                                                          {"moved", BoxStatus::moved},
                                                          {"removed", BoxStatus::removed},
                                                          {"takendown", BoxStatus::removed},
                                                          {"treefelled", BoxStatus::tree_felled},
                                                          {"felled", BoxStatus::tree_felled}}};

const std::vector<FieldSpec>& box_fields() {
    static const std::vector<FieldSpec> specs = with_place_fields(
        {{"box", {}, Dimension::plain, {{"boxid"}, {"boxno"}, {"boxnumber"}, {"number"}}},
         {"tree", {}, Dimension::plain, {{"treeid"}, {"treeno"}, {"treenumber"}, {"assetno"}}},
         {"design", {}, Dimension::plain, {{"type"}, {"kind"}, {"model"}}},
         {"hung", {}, Dimension::plain, {{"hungon"}, {"datehung"}, {"installed"}}},
         {"facing_deg", {}, Dimension::angle, {{"facing"}, {"aspect"}}},
         {"mount_height_m", "m", Dimension::length, {{"mountheight"}, {"height"}, {"heightm"}}},
         {"status", {}, Dimension::plain, {{"state"}}},
         {"animal", {}, Dimension::plain, {{"for"}, {"occupant"}}}});
    return specs;
}

class BoxReader {
 public:
    BoxReader(const InputSource& source, const SiteClock& clock, OpenLayer& layer, LayerFacts& facts)
        : fields_(layer.fields),
          place_(layer, source, facts, layer.fields.at("tree")),
          dates_(clock, layer, source, facts.report, {"hung"}) {}

    [[nodiscard]] MaybePlaced<HungBox> operator()(const RowReader& row) const {
        MaybePlaced<HungBox> made;
        HungBox& box = made.record;
        box.row = row.report().row();
        box.id = row.text(id_);
        box.tree = row.text(tree_);
        box.position = place_.take(row, made.elsewhere);
        box.design = row.text(design_);
        box.hung = dates_.date(row, hung_);
        box.facing = facing(row);
        box.mount_height = in_unit<core::Metres>(row.number(height_, bounds::box_height_m));
        box.status = status(row, box);
        box.animal = row.text(animal_);
        return made;
    }

 private:
    [[nodiscard]] std::optional<core::Degrees> facing(const RowReader& row) const {
        const std::string written = row.text(facing_);
        if (says_nothing(written)) return std::nullopt;
        const Reading<double> reading = read_bearing(written);
        if (const double* degrees = value_in(reading)) return core::Degrees(*degrees);
        row.report().doubt(facing_.name, trouble_in(reading).kind, written,
                           core::said(trouble_in(reading).key));
        return std::nullopt;
    }

    /// Where the layer could tell what became of a box and tells nothing, it was not hung yet.
    [[nodiscard]] BoxStatus status(const RowReader& row, const HungBox& box) const {
        const auto told = row.word<BoxStatus>(status_, status_words, "choices.box_status");
        if (told) return *told;
        const bool could_tell = status_.given() && hung_.given();
        return could_tell && !box.hung ? BoxStatus::not_hung : BoxStatus::up;
    }

    const FieldMap& fields_;
    TreeOrPlace place_;
    RowClock dates_;
    const Field& id_ = fields_.at("box");
    const Field& tree_ = fields_.at("tree");
    const Field& design_ = fields_.at("design");
    const Field& hung_ = fields_.at("hung");
    const Field& facing_ = fields_.at("facing_deg");
    const Field& height_ = fields_.at("mount_height_m");
    const Field& status_ = fields_.at("status");
    const Field& animal_ = fields_.at("animal");
};

}  // namespace

UnplacedLayer<KnownRoost> read_roosts(const InputSource& source, const SiteClock& clock) {
    static const std::vector<FieldSpec> specs = with_place_fields(
        {{"date", {}, Dimension::plain, {{"seen"}, {"found"}}},
         {"count", {}, Dimension::plain, {{"animals"}, {"number"}}},
         {"animal", {}, Dimension::plain, {{"species"}, {"taxon"}}},
         {"tree", {}, Dimension::plain, {{"treeid"}, {"treeno"}, {"treenumber"}, {"neartree"}}}});
    UnplacedLayer<KnownRoost> roosts{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, roosts.facts);
        const TreeOrPlace place(layer, file, roosts.facts, layer.fields.at("tree"));
        const RowClock dates(clock, layer, file, roosts.facts.report, {"date"});
        const Field &date = layer.fields.at("date"), &count = layer.fields.at("count"),
                    &animal = layer.fields.at("animal");
        read_placed_or_not(layer, roosts, [&](const RowReader& row) {
            MaybePlaced<KnownRoost> made;
            made.record = {row.report().row(),
                           {},
                           dates.date(row, date),
                           row.number(count, bounds::animals_in_a_roost),
                           row.text(animal)};
            made.record.position = place.take(row, made.elsewhere);
            return made;
        });
    }
    return roosts;
}

UnplacedLayer<Lamp> read_lamps(const InputSource& source) {
    static const std::vector<FieldSpec> specs =
        with_place_fields({{"lumens", {}, Dimension::plain, {{"lm"}, {"flux"}}},
                           {"lux_at_10m", {}, Dimension::plain, {{"luxat10m"}}},
                           {"height_m", "m", Dimension::length, {{"height"}, {"mountingheight"}}}});
    UnplacedLayer<Lamp> lamps{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, specs, lamps.facts);
        const PlaceReader place(layer, file, lamps.facts);
        const Field &lumens = layer.fields.at("lumens"), &lux = layer.fields.at("lux_at_10m"),
                    &height = layer.fields.at("height_m");
        read_rows(layer, lamps, [&](const RowReader& row) {
            return Lamp{row.report().row(), place.point(row),
                        in_unit<trees::Lumens>(row.number(lumens, bounds::lumens)),
                        in_unit<trees::Lux>(row.number(lux, bounds::lux)),
                        in_unit<core::Metres>(row.number(height, bounds::lamp_height_m))};
        });
    }
    return lamps;
}

UnplacedLayer<HungBox> read_boxes(const InputSource& source, const SiteClock& clock) {
    UnplacedLayer<HungBox> boxes{facts_of_source(source), {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, box_fields(), boxes.facts);
        const BoxReader reader(file, clock, layer, boxes.facts);
        read_placed_or_not(layer, boxes, reader);
    }
    return boxes;
}

const std::vector<FieldSpec>& fields_of_boxes() {
    return box_fields();
}

}  // namespace roostward::io
