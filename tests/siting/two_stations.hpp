#pragma once

#include <string>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/siting/certainty.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {

/// Two stations 400 m apart, Ada's and Ben's, on `evenings` evenings. Past Ada's trees animals fly every
/// evening, past Ben's on the last two alone.
struct Site {
    survey::Survey survey;
    trees::Inventory inventory;
    Settings settings;

    explicit Site(unsigned evenings) {
        for (unsigned day = 1; day <= evenings; ++day) {
            survey.evenings.push_back(examples::evening(day));
            add_watch({0, 0}, "A", "Ada", day);
            add_watch({400, 0}, "B", "Ben", day);
            add_flights({0, 5}, day, 2 * (day - 1), 3);
            if (day + 2 > evenings) add_flights({400, 5}, day, 2 * (day - 1) + 1, 12);
        }
        for (const double easting : {0.0, 15.0, 60.0, 400.0, 415.0})
            add_tree({easting, 0.0});
        settings.choice.sites = 2;
        settings.choice.spacing = core::Metres(30.0);
        settings.activity.min_watch = core::Hours(0.25);
    }

    void add_watch(core::PlanePoint place, const std::string& name, const std::string& observer,
                   unsigned day) {
        survey.watches.push_back(examples::watch({place}, 1.0, 40.0, day));
        survey.watches.back().name = name;
        survey.watches.back().observer = observer;
        survey.watch_evening.push_back(day - 1);
    }
    void add_flights(core::PlanePoint place, unsigned day, std::uint32_t watch, int count) {
        for (int i = 0; i < count; ++i) {
            survey.flights.push_back(examples::flight({place}, 40.0, 1.0, day - 1));
            survey.flights.back().watch = watch;
        }
    }
    void add_tree(core::PlanePoint stem) {
        inventory.rows.emplace_back();
        inventory.rows.back().stem = stem;
    }
    [[nodiscard]] std::vector<core::PlanePoint> stems() const {
        std::vector<core::PlanePoint> stems;
        for (const trees::Tree& tree : inventory.rows)
            stems.push_back(tree.stem);
        return stems;
    }
};

/// A site ranked and chosen by all its data.
struct Ranked {
    const Site& site;
    activity::FlightDensity density;
    activity::EveningTable table;
    std::vector<Candidate> candidates;

    explicit Ranked(const Site& of) : Ranked(of, std::vector<trees::Verdict>(of.inventory.rows.size())) {}
    Ranked(const Site& of, const std::vector<trees::Verdict>& verdicts)
        : site(of),
          density(of.survey, {core::Metres(8.0), core::Hours(0.4)}, of.settings.activity),
          table(density.at(of.stems(), core::Threads{1})),
          candidates(candidates_of(verdicts, density.summarise(table), of.settings.activity.min_watch, {1})) {
        choose_anew();
    }
    void choose_anew() {
        for (Candidate& tree : candidates)
            tree.rank = tree.site = std::nullopt;
        static_cast<void>(measure_fitness(candidates, site.settings));
        score_and_rank(candidates, site.inventory);
        choose(candidates, site.inventory, site.settings.choice);
    }
    [[nodiscard]] Evidenced data() const { return {site.inventory, site.survey, density, table}; }
    [[nodiscard]] Certainty certainty(unsigned threads = 1) {
        return how_sure(candidates, data(), site.settings, core::Threads{threads});
    }
};

}  // namespace roostward::siting
