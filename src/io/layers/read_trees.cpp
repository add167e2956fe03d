#include <array>
#include <string>
#include <utility>

#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/no_tree.hpp"
#include "words/row_clock.hpp"

namespace roostward::io {

namespace {

using trees::Condition;
using trees::Hazard;
using trees::Permission;
using trees::Tree;
using trees::TreeField;

const std::vector<FieldSpec>& tree_fields() {
    static const std::vector<FieldSpec> specs = with_place_fields({
        {"tree",
         {},
         Dimension::plain,
         {{"treeid"}, {"id"}, {"tag"}, {"treeno"}, {"treenumber"}, {"assetno"}, {"assetid"}, {"asset"}}},
        {"dbh_cm",
         "cm",
         Dimension::length,
         {{"dbh"},
          {"diametercm"},
          {"trunkdiametercm"},
          {"stemdiametercm"},
          {"dbhmm", "mm"},
          {"dbhin", "in"},
          {"dbhinches", "in"},
          {"diameterin", "in"},
          {"girthcm", "cm", true},
          {"girthm", "m", true},
          {"girthmm", "mm", true},
          {"circumferencecm", "cm", true}}},
        {"height_m",
         "m",
         Dimension::length,
         {{"height"}, {"treeheight"}, {"treeheightm"}, {"totalheight"}, {"heightft", "ft"}}},
        {"crown_radius_m", "m", Dimension::length, {{"crownradius"}, {"canopyradiusm"}}},
        {"condition", {}, Dimension::plain, {{"vigour"}, {"vigor"}, {"health"}, {"treecondition"}}},
        {"hazard", {}, Dimension::plain, {{"likelihoodoffailure"}, {"failure"}}},
        {"inspected",
         {},
         Dimension::plain,
         {{"inspectiondate"}, {"dateinspected"}, {"lastinspected"}, {"surveydate"}}},
        {"has_hollow", {}, Dimension::plain, {{"hollow"}, {"hollows"}, {"cavity"}}},
        {"protected", {}, Dimension::plain, {{"protectedtree"}, {"protectionorder"}}},
        {"owner", {}, Dimension::plain, {{"ownership"}, {"landowner"}}},
        {"permission", {}, Dimension::plain, {{"consent"}}},
        {"planned_work", {}, Dimension::plain, {{"work"}, {"plannedworks"}, {"works"}}},
        {"work_due", {}, Dimension::plain, {{"workdue"}, {"duedate"}, {"worksdue"}}},
        {"species",
         {},
         Dimension::plain,
         {{"speciesname"}, {"botanicalname"}, {"scientificname"}, {"commonname"}}},
        {"zone", {}, Dimension::plain, {{"compartment"}}},
        {"cost", {}, Dimension::plain, {}},
        {"looked_after_by", {}, Dimension::plain, {{"caretaker"}, {"aftercare"}, {"aftercareby"}}},
    });
    return specs;
}

constexpr std::array<std::pair<const char*, TreeField>, 16> reported_fields = {{
    {"dbh_cm", TreeField::dbh},
    {"height_m", TreeField::height},
    {"crown_radius_m", TreeField::crown_radius},
    {"condition", TreeField::condition},
    {"hazard", TreeField::hazard},
    {"inspected", TreeField::inspected},
    {"has_hollow", TreeField::has_hollow},
    {"protected", TreeField::protected_tree},
    {"permission", TreeField::permission},
    {"planned_work", TreeField::planned_work},
    {"work_due", TreeField::work_due},
    {"owner", TreeField::owner},
    {"species", TreeField::species},
    {"zone", TreeField::zone},
    {"cost", TreeField::cost},
    {"looked_after_by", TreeField::looked_after_by},
}};

constexpr std::array<Word<Condition>, 14> condition_words = {{
    {"good", Condition::good},
    {"verygood", Condition::good},
    {"excellent", Condition::good},
    {"healthy", Condition::good},
    {"fair", Condition::fair},
    {"moderate", Condition::fair},
    {"average", Condition::fair},
    {"poor", Condition::poor},
    {"verypoor", Condition::poor},
    {"bad", Condition::poor},
    {"declining", Condition::poor},
    {"dying", Condition::poor},
    {"dead", Condition::dead},
    {"standingdead", Condition::dead},
}};

/// As tree-risk forms word the likelihood of failure.
constexpr std::array<Word<Hazard>, 4> hazard_words = {{{"improbable", Hazard::improbable},
                                                       {"possible", Hazard::possible},
                                                       {"probable", Hazard::probable},
                                                       {"imminent", Hazard::imminent}}};

constexpr std::array<Word<Permission>, 11> permission_words = {{
    {"asked", Permission::asked},
    {"requested", Permission::asked},
    {"pending", Permission::asked},
    {"given", Permission::given},
    {"granted", Permission::given},
    {"yes", Permission::given},
    {"agreed", Permission::given},
    {"refused", Permission::refused},
    {"denied", Permission::refused},
    {"no", Permission::refused},
    {"declined", Permission::refused},
}};

constexpr double thickest_trunk_cm = 1500.0;
constexpr double tallest_tree_m = 130.0;
constexpr double widest_crown_m = 50.0;
constexpr double dearest = 1e9;

class TreeReader {
 public:
    TreeReader(const InputSource& source, const SiteClock& clock, OpenLayer& layer, LayerFacts& facts)
        : fields_(layer.fields),
          place_(layer, source, facts),
          clock_(clock, layer, source, facts.report, {"inspected", "work_due"}),
          kinds_(layer.rows->columns()) {
        layer.further.assign(kinds_.columns().begin(), kinds_.columns().end());
    }

    [[nodiscard]] Tree operator()(const RowReader& row) const {
        Tree tree;
        if (const auto told = kinds_.no_tree_in(row.row())) {
            row.report().set_apart(kinds_.name_of(told->column), "no tree", told->words,
                                   core::said("finding.no_tree"));
            return tree;
        }
        tree.row = row.report().row();
        tree.id = row.text(id_);
        tree.stem = place_.point(row);
        if (const auto dbh = row.number(dbh_, {0.0, thickest_trunk_cm, true}))
            tree.dbh = core::Centimetres(*dbh);
        if (const auto height = row.number(height_, {0.0, tallest_tree_m, true}))
            tree.height = core::Metres(*height);
        if (const auto crown = row.number(crown_, {0.0, widest_crown_m, true}))
            tree.crown_radius = core::Metres(*crown);
        tree.condition = row.word<Condition>(condition_, condition_words, "choices.condition");
        tree.hazard = row.word<Hazard>(hazard_, hazard_words, "choices.hazard");
        tree.permission = row.word<Permission>(permission_, permission_words, "choices.permission");
        tree.inspected = clock_.date(row, inspected_);
        tree.work_due = clock_.date(row, work_due_);
        tree.has_hollow = row.yes_no(has_hollow_);
        tree.protected_tree = row.yes_no(protected_);
        tree.planned_work = work(row);
        tree.owner = row.text(owner_);
        tree.species = row.text(species_);
        tree.zone = row.text(zone_);
        tree.looked_after_by = row.text(looked_after_by_);
        tree.cost = row.number(cost_, {0.0, dearest});
        return tree;
    }

 private:
    /// Empty where the inventory says that nothing is planned.
    [[nodiscard]] std::string work(const RowReader& row) const {
        std::string written = row.text(planned_work_);
        const bool nothing = says_nothing(written) || read_yes_no(written) == std::optional(false) ||
                             bare_word(written) == "nil";
        return nothing ? std::string() : written;
    }

    const FieldMap& fields_;
    PlaceReader place_;
    RowClock clock_;
    KindColumns kinds_;
    const Field& id_ = fields_.at("tree");
    const Field& dbh_ = fields_.at("dbh_cm");
    const Field& height_ = fields_.at("height_m");
    const Field& crown_ = fields_.at("crown_radius_m");
    const Field& condition_ = fields_.at("condition");
    const Field& hazard_ = fields_.at("hazard");
    const Field& permission_ = fields_.at("permission");
    const Field& inspected_ = fields_.at("inspected");
    const Field& work_due_ = fields_.at("work_due");
    const Field& has_hollow_ = fields_.at("has_hollow");
    const Field& protected_ = fields_.at("protected");
    const Field& planned_work_ = fields_.at("planned_work");
    const Field& owner_ = fields_.at("owner");
    const Field& species_ = fields_.at("species");
    const Field& zone_ = fields_.at("zone");
    const Field& looked_after_by_ = fields_.at("looked_after_by");
    const Field& cost_ = fields_.at("cost");
};

}  // namespace

UnplacedTrees read_trees(const InputSource& source, const SiteClock& clock) {
    UnplacedTrees trees{{facts_of_source(source), {}}, {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, tree_fields(), trees.facts);
        const TreeReader reader(file, clock, layer, trees.facts);
        read_rows(layer, trees, reader);
        for (const auto& [name, field] : reported_fields) {
            if (layer.fields.at(name).given()) trees.columns.add(field);
        }
    }
    return trees;
}

const std::vector<FieldSpec>& fields_of_trees() {
    return tree_fields();
}

}  // namespace roostward::io
