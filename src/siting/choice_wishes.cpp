#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/core/folding.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {

namespace {

struct Shares {
    Shared by;
    std::string_view name;
    trees::TreeField field;
    std::string (*of)(const trees::Tree&);
};
constexpr std::array shares{
    Shares{Shared::owner, "owner", trees::TreeField::owner,
           [](const trees::Tree& tree) { return tree.owner; }},
    Shares{Shared::species, "species", trees::TreeField::species,
           [](const trees::Tree& tree) { return tree.species; }},
    Shares{Shared::zone, "zone", trees::TreeField::zone, [](const trees::Tree& tree) { return tree.zone; }},
    Shares{Shared::condition, "condition", trees::TreeField::condition, [](const trees::Tree& tree) {
               return tree.condition ? std::string(trees::to_text(*tree.condition)) : std::string();
           }}};

const Shares& what_shares(Shared shared) {
    return *std::ranges::find(shares, shared, &Shares::by);
}

/// Finds fault with what the site file asks for.
class Wishes {
 public:
    Wishes(std::vector<Candidate>& candidates, const trees::Inventory& inventory, const Settings& settings)
        : candidates_(candidates), inventory_(inventory), settings_(settings) {}

    core::Findings heed() {
        mark("choose.never", settings_.choice.never, Wish::never);
        for (const std::size_t tree : mark("choose.must", settings_.choice.must, Wish::must))
            musts_.push_back(tree);
        for (const std::size_t tree : musts_)
            require_able(tree);
        core::Findings findings;
        about_quotas(findings);
        about_costs(findings);
        require_room();
        require_spacing();
        return findings;
    }

 private:
    [[noreturn]] void refuse(core::Fault fault, const std::string& key, const std::string& sentence) const {
        throw core::Error(fault, {settings_.site_file, {}, {}, key}, sentence);
    }
    [[nodiscard]] const std::string& id(std::size_t tree) const { return inventory_.rows[tree].id; }

    std::vector<std::size_t> mark(const std::string& key, const std::vector<std::string>& ids, Wish wish) {
        std::vector<std::size_t> trees;
        std::map<std::string, std::vector<std::size_t>> by_name;
        if (!ids.empty())
            for (std::size_t i = 0; i < inventory_.rows.size(); ++i)
                by_name[core::folded(id(i))].push_back(i);
        for (const std::string& name : ids) {
            const auto found = by_name.find(core::folded(name));
            if (found == by_name.end())
                refuse(core::Fault::site_file, key,
                       core::said("error.must.unknown", {{"file", inventory_.file}, {"tree", name}}));
            const std::vector<std::size_t>& named = found->second;
            if (named.size() > 1)
                refuse(core::Fault::site_file, key,
                       core::said("error.must.several",
                                  {{"count", named.size()},
                                   {"file", inventory_.file},
                                   {"tree", name},
                                   {"first", inventory_.row_name(inventory_.rows[named[0]].row)},
                                   {"second", inventory_.row_name(inventory_.rows[named[1]].row)}}));
            Wish& told = candidates_[named[0]].wish;
            if (told != Wish::none && told != wish)
                refuse(core::Fault::site_file, key, core::said("error.must.and_never", {{"tree", name}}));
            if (told == Wish::none) trees.push_back(named[0]);
            told = wish;
        }
        return trees;
    }

    /// Ruled out, to be settled or never watched: a wish changes none of these.
    void require_able(std::size_t tree) const {
        const Candidate& candidate = candidates_[tree];
        if (candidate.can_be_chosen()) return;
        const trees::Reason& reason =
            *std::ranges::max_element(candidate.verdict.reasons, {}, &trees::Reason::state);
        const std::string_view what_to_do =
            candidate.verdict.state == trees::State::settle_first  ? "error.must.settle_first"
            : candidate.verdict.state == trees::State::not_watched ? "error.must.watch_first"
                                                                   : "error.must.correct";
        refuse(core::Fault::inputs, "choose.must",
               core::said("error.must.not_able",
                          {{"tree", id(tree)},
                           {"file", inventory_.file},
                           {"row", inventory_.row_name(inventory_.rows[tree].row)},
                           {"state", core::shown("state", trees::to_text(candidate.verdict.state))},
                           {"why", reason.sentence},
                           {"to_do", core::said(what_to_do)}}));
    }

    void about_quotas(core::Findings& findings) const {
        for (const Quota& quota : settings_.choice.at_most) {
            const Shares& share = what_shares(quota.by);
            if (!inventory_.columns.has(share.field))
                refuse(
                    core::Fault::inputs, "choose.at_most",
                    core::said("error.quota.no_column", {{"file", inventory_.file}, {"field", share.name}}));
            tell_of_blanks(
                findings, std::string(share.name),
                [&](const trees::Tree& tree) { return share.of(tree).empty(); },
                core::said("finding.quota_blanks", {{"field", share.name}}));
        }
    }

    void about_costs(core::Findings& findings) const {
        if (!settings_.choice.budget) return;
        if (!inventory_.columns.has(trees::TreeField::cost))
            refuse(core::Fault::inputs, "choose.budget",
                   core::said("error.budget.no_column", {{"file", inventory_.file}}));
        for (const std::size_t must : musts_)
            if (!inventory_.rows[must].cost)
                refuse(core::Fault::inputs, "choose.must",
                       core::said("error.must.no_cost",
                                  {{"tree", id(must)},
                                   {"file", inventory_.file},
                                   {"row", inventory_.row_name(inventory_.rows[must].row)}}));
        tell_of_blanks(
            findings, "cost", [](const trees::Tree& tree) { return !tree.cost; },
            core::said("finding.no_cost"));
    }

    /// Of the trees that could be chosen.
    template <class Blank>
    void tell_of_blanks(core::Findings& findings, const std::string& field, Blank blank,
                        const std::string& sentence) const {
        std::optional<core::RowRef> first;
        std::size_t rows = 0;
        for (std::size_t i = 0; i < inventory_.rows.size(); ++i) {
            if (!candidates_[i].can_be_chosen() || !blank(inventory_.rows[i])) continue;
            if (!first) first = inventory_.rows[i].row;
            ++rows;
        }
        if (first)
            findings.push_back({core::Severity::doubtful,
                                inventory_.place(*first, field),
                                "no " + field,
                                {},
                                sentence,
                                rows});
    }

    void require_room() const {
        const ChoiceSettings& choice = settings_.choice;
        if (musts_.size() > choice.sites)
            refuse(core::Fault::site_file, "choose.must",
                   core::said("error.must.too_many", {{"count", musts_.size()}, {"sites", choice.sites}}));
        for (const Quota& quota : choice.at_most) {
            std::map<std::string, std::size_t> count;
            for (const std::size_t must : musts_) {
                const std::string group = group_of(inventory_.rows[must], quota.by);
                if (++count[group] > quota.count)
                    refuse(
                        core::Fault::site_file, "choose.must",
                        core::said("error.must.quota", {{"tree", id(must)},
                                                        {"count", quota.count},
                                                        {"field", core::shown("shared", to_text(quota.by))},
                                                        {"group", group}}));
            }
        }
        double cost = 0.0;
        for (const std::size_t must : musts_)
            cost += inventory_.rows[must].cost.value_or(0.0);
        if (choice.budget && cost > *choice.budget)
            refuse(core::Fault::site_file, "choose.must",
                   core::said("error.must.too_dear", {{"cost", cost}, {"budget", *choice.budget}}));
    }

    void require_spacing() const {
        for (std::size_t a = 0; a < musts_.size(); ++a)
            for (std::size_t b = 0; b < a; ++b) {
                const core::Metres away =
                    core::distance(inventory_.rows[musts_[a]].stem, inventory_.rows[musts_[b]].stem);
                if (away < settings_.choice.spacing)
                    refuse(
                        core::Fault::site_file, "choose.must",
                        core::said("error.must.too_near", {{"one", id(musts_[b])},
                                                           {"other", id(musts_[a])},
                                                           {"metres", away.value()},
                                                           {"spacing", settings_.choice.spacing.value()}}));
            }
    }

    std::vector<Candidate>& candidates_;
    const trees::Inventory& inventory_;
    const Settings& settings_;
    std::vector<std::size_t> musts_;
};

}  // namespace

std::string_view to_text(Shared shared) {
    return what_shares(shared).name;
}

std::string group_of(const trees::Tree& tree, Shared shared) {
    return core::folded(what_shares(shared).of(tree));
}

core::Findings heed_wishes(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                           const Settings& settings) {
    return Wishes(candidates, inventory, settings).heed();
}

bool may_join(const Candidate& candidate, const trees::Tree& tree, const ChoiceSettings& settings) {
    return candidate.wish != Wish::never && (!settings.budget || tree.cost);
}

}  // namespace roostward::siting
