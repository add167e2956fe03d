#include <array>
#include <string>
#include <utility>

#include "layers/layers.hpp"
#include "places/place_reader.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/tree_words.hpp"
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
    TreeReader(const InputSource& source, const SiteClock& clock, const TreeWords& words, OpenLayer& layer,
               LayerFacts& facts)
        : fields_(layer.fields),
          place_(layer, source, facts),
          clock_(clock, layer, source, facts.report, {"inspected", "work_due"}),
          kinds_(layer.rows->columns(), words, told_by_fields()) {
        layer.further.assign(kinds_.columns().begin(), kinds_.columns().end());
    }

    [[nodiscard]] Tree operator()(const RowReader& row) const {
        Tree tree;
        const KindColumns::Row kind = kinds_.look_at(row.row(), condition_.column);
        if (kind.no_tree) {
            row.report().set_apart(kinds_.name_of(kind.no_tree->column), "no tree",
                                   std::string(kind.no_tree->words), core::said("finding.no_tree"));
            return tree;
        }
        tree.no_box = kind.no_box;
        if (kind.not_told && !tree.no_box)
            row.report().doubt(kinds_.name_of(kind.not_told->column), "kind of tree not told",
                               std::string(kind.not_told->words), core::said("finding.tree_not_told"));
        tree.row = row.report().row();
        tree.id = row.text(id_);
        tree.stem = place_.point(row);
        if (const auto dbh = row.number(dbh_, {0.0, thickest_trunk_cm, true}))
            tree.dbh = core::Centimetres(*dbh);
        if (const auto height = row.number(height_, {0.0, tallest_tree_m, true}))
            tree.height = core::Metres(*height);
        if (const auto crown = row.number(crown_, {0.0, widest_crown_m, true}))
            tree.crown_radius = core::Metres(*crown);
        tree.condition = condition(row, kind);
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
        note_columns(row, tree);
        return tree;
    }

    /// The fields that told something of any tree so far.
    [[nodiscard]] const trees::TreeColumns& columns() const { return columns_; }

 private:
    [[nodiscard]] std::vector<std::size_t> told_by_fields() const {
        std::vector<std::size_t> columns;
        for (const char* name : {"species", "condition"})
            if (const auto& column = fields_.at(name).column) columns.push_back(*column);
        return columns;
    }

    /// Dead by a word in any of the columns that tell what stands there, unless the site file maps the words
    /// of its own.
    [[nodiscard]] std::optional<Condition> condition(const RowReader& row,
                                                     const KindColumns::Row& kind) const {
        const bool mapped = kind.dead && condition_.column == kind.dead->column && !condition_.values.empty();
        if (kind.dead && !mapped) return Condition::dead;
        return row.word<Condition>(condition_, condition_words, "choices.condition");
    }

    /// A column that is blank, or 0 where 0 is impossible, in every row tells nothing; but where no work is
    /// planned, nothing is written.
    void note_columns(const RowReader& row, const Tree& tree) const {
        for (const auto& [name, field] : reported_fields) {
            if (columns_.has(field)) continue;
            const Field& column = fields_.at(name);
            const bool of_work = field == TreeField::planned_work || field == TreeField::work_due;
            if (of_work && column.given()) columns_.add(field);
            const std::string written = row.text(column);
            if (says_nothing(written)) continue;
            const bool may_be_zero = field != TreeField::dbh && field != TreeField::height;
            const auto number = may_be_zero ? std::nullopt : read_number(written);
            if (!number || number->value != 0.0) columns_.add(field);
        }
        if (tree.condition) columns_.add(TreeField::condition);
    }

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
    mutable trees::TreeColumns columns_;
};

}  // namespace

UnplacedTrees read_trees(const InputSource& source, const SiteClock& clock, const TreeWords& words) {
    UnplacedTrees trees{{facts_of_source(source), {}}, {}};
    for (const InputSource& file : each_file(source)) {
        OpenLayer layer(file, tree_fields(), trees.facts);
        const TreeReader reader(file, clock, words, layer, trees.facts);
        const std::size_t before = trees.rows.size();
        read_rows(layer, trees, reader);
        for (const auto& [name, field] : reported_fields) {
            if (reader.columns().has(field))
                trees.columns.add(field);
            else if (layer.fields.at(name).given() && trees.rows.size() > before)
                trees.facts.report.note_layer("blank column", name,
                                              core::said("finding.blank_column", {{"field", name}}));
        }
    }
    return trees;
}

const std::vector<FieldSpec>& fields_of_trees() {
    return tree_fields();
}

}  // namespace roostward::io
