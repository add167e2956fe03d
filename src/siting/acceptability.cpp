#include "roostward/siting/acceptability.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "contention.hpp"
#include "evidence.hpp"
#include "roostward/activity/redrawn.hpp"
#include "roostward/core/random.hpp"
#include "roostward/core/vector_clones.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {

namespace {

using Parts = std::array<double, fitness_parts>;

double share_of(std::size_t draws, std::uint32_t count) {
    return static_cast<double>(count) / static_cast<double>(draws);
}

std::size_t most_in_groups(std::size_t sites) {
    return std::clamp<std::size_t>(3 * sites, 30, 200);
}

/// What a re-draw of the weights takes from a tree for each part that it lacks altogether.
struct WeightDraw {
    Parts takes{};
    std::size_t evenings = 0;  ///< index of the re-drawn evenings
};

/// Uniform on the simplex: the gaps between sorted uniform numbers (Devroye 1986, chapter V).
std::vector<double> on_simplex(std::size_t parts, core::RandomStream& random) {
    std::vector<double> cuts{0.0, 1.0};
    for (std::size_t i = 1; i < parts; ++i)
        cuts.push_back(random.uniform());
    std::ranges::sort(cuts);
    std::vector<double> gaps;
    for (std::size_t i = 0; i < parts; ++i)
        gaps.push_back(cuts[i + 1] - cuts[i]);
    return gaps;
}

std::vector<std::size_t> parts_that_count(std::span<const Candidate> candidates) {
    std::vector<std::size_t> parts;
    for (std::size_t part = 0; part < fitness_parts; ++part)
        if (std::ranges::any_of(candidates, [part](const Candidate& tree) {
                return tree.fitness && tree.fitness->parts[part].share > 0.0;
            }))
            parts.push_back(part);
    return parts;
}

std::vector<WeightDraw> draw_weights(std::span<const std::size_t> parts, double share, std::size_t count,
                                     std::span<const activity::EveningDraw> evenings, std::uint64_t seed) {
    core::RandomStream random(seed, "weights and evenings");
    std::vector<double> up_to;
    double sum = 0.0;
    for (const activity::EveningDraw& draw : evenings)
        up_to.push_back(sum += draw.weight);
    std::vector<WeightDraw> draws(count);
    for (WeightDraw& draw : draws) {
        const double takes = random.uniform(0.0, std::min(1.0, 2.0 * share));
        const std::vector<double> weights = on_simplex(parts.size(), random);
        for (std::size_t i = 0; i < parts.size(); ++i)
            draw.takes[parts[i]] = takes * weights[i];
        const auto at = std::ranges::upper_bound(up_to, random.uniform() * sum) - up_to.begin();
        draw.evenings = std::min(static_cast<std::size_t>(at), evenings.size() - 1);
    }
    return draws;
}

/// How often each tree was chosen and how often it was best, by index into the trees that take part.
struct Counts {
    std::vector<std::uint32_t> chosen, first;

    explicit Counts(std::size_t trees) : chosen(trees, 0), first(trees, 0) {}
    void add(const Counts& more) {
        for (std::size_t k = 0; k < chosen.size(); ++k) {
            chosen[k] += more.chosen[k];
            first[k] += more.first[k];
        }
    }
};

/// Whether a tree takes part in a choice.
enum class Joins : std::uint8_t { no, yes, must };

ROOSTWARD_VECTOR_CLONES
void take_away(double takes, const double* lacks, std::vector<double>& scores) {
    double* const score = scores.data();
    const std::size_t trees = scores.size();
    for (std::size_t k = 0; k < trees; ++k)
        score[k] -= takes * lacks[k];
}

ROOSTWARD_VECTOR_CLONES
void multiply(const double* evidence, std::vector<double>& scores) {
    double* const score = scores.data();
    const std::size_t trees = scores.size();
    for (std::size_t k = 0; k < trees; ++k)
        score[k] *= evidence[k];
}

/// The trees that take part, and what the watches say of them in every re-draw of the evenings.
class Field {
 public:
    Field(std::span<const Candidate> candidates, const Evidenced& data,
          std::span<const activity::EveningDraw> evenings, const Settings& settings, core::Threads threads)
        : candidates_(candidates),
          inventory_(data.inventory),
          settings_(settings),
          trees_(in_contention(candidates)),
          evidence_(evenings.size() * trees_.size()),
          joins_(evidence_.size()),
          place_(candidates.size()) {
        for (std::size_t k = 0; k < trees_.size(); ++k) {
            place_[trees_[k]] = k;
            flight_.push_back(candidates[trees_[k]].activity.flight_density);
        }
        find_squares();
        for (std::vector<double>& lack : lacks_)
            lack.assign(trees_.size(), 0.0);
        const activity::Redraws redraws(data.density, evenings);
        const double reference = reference_density(candidates);
        core::parallel_for(trees_.size(), 64, threads, [&](std::size_t begin, std::size_t end) {
            activity::RedrawnPoint point(redraws);
            for (std::size_t k = begin; k < end; ++k) {
                const Candidate& tree = candidates_[trees_[k]];
                const bool must = tree.wish == Wish::must;
                const bool joins = may_join(tree, inventory_.rows[trees_[k]], settings_.choice);
                point.look_at(data.at_trees, trees_[k]);
                for (std::size_t d = 0; d < redraws.size(); ++d) {
                    const Evidence evidence =
                        evidence_of({inventory_.rows[trees_[k]], point.in(d), reference});
                    evidence_[d * trees_.size() + k] = evidence.score;
                    joins_[d * trees_.size() + k] = must                       ? Joins::must
                                                    : evidence.enough && joins ? Joins::yes
                                                                               : Joins::no;
                }
                tell_lacks(k);
            }
        });
    }

    [[nodiscard]] const std::vector<std::size_t>& trees() const { return trees_; }

    /// Of every tree that takes part, whether or not it has enough evidence.
    void score(const WeightDraw& draw, std::vector<double>& scores) const {
        const double* const evidence = evidence_.data() + draw.evenings * trees_.size();
        std::ranges::fill(scores, 1.0);
        for (std::size_t part = 0; part < fitness_parts; ++part)
            if (draw.takes[part] > 0.0) take_away(draw.takes[part], lacks_[part].data(), scores);
        multiply(evidence, scores);
    }

    void choose(const WeightDraw& draw, const std::vector<double>& scores, Counts& counts) const {
        std::vector<Scored> best = best_of(draw, scores, looked_at(few()));
        if (best.empty()) return;
        ++counts.first[highest_of(best).place];
        std::vector<std::size_t> chosen = chosen_of(best, few());
        if (chosen.size() < settings_.choice.sites && joining(draw) > looked_at(few())) {
            best = best_of(draw, scores, looked_at(4 * few()));
            chosen = chosen_of(best, 4 * few());
        }
        for (const std::size_t tree : chosen)
            ++counts.chosen[place_[tree]];
    }

 private:
    void tell_lacks(std::size_t k) {
        const auto& fitness = candidates_[trees_[k]].fitness;
        if (!fitness) return;
        for (std::size_t part = 0; part < fitness_parts; ++part)
            lacks_[part][k] = 1.0 - fitness->parts[part].utility.value_or(0.5);
    }

    /// A tree of one draw.
    struct Scored {
        double score;
        bool must;
        std::uint32_t place;  ///< into `trees_`

        [[nodiscard]] bool before(const Scored& other) const {
            if (must != other.must) return must;
            return score != other.score ? score > other.score : place < other.place;
        }
    };

    /// A choice seldom goes further down: so many are chosen among first.
    [[nodiscard]] std::size_t few() const { return std::max<std::size_t>(32, 8 * settings_.choice.sites); }
    /// Those of which the few are taken.
    [[nodiscard]] static std::size_t looked_at(std::size_t few) { return 4 * few; }

    [[nodiscard]] std::size_t joining(const WeightDraw& draw) const {
        const std::span joins = std::span(joins_).subspan(draw.evenings * trees_.size(), trees_.size());
        return static_cast<std::size_t>(
            std::ranges::count_if(joins, [](Joins tree) { return tree != Joins::no; }));
    }

    /// What must be chosen and the best of the others, in no order.
    [[nodiscard]] std::vector<Scored> best_of(const WeightDraw& draw, const std::vector<double>& scores,
                                              std::size_t most) const {
        const Joins* const joins = joins_.data() + draw.evenings * trees_.size();
        std::vector<Scored> best;
        best.reserve(2 * most);
        double least = std::numeric_limits<double>::lowest();
        const auto drop_the_rest = [&] {
            const auto last = best.begin() + static_cast<std::ptrdiff_t>(most) - 1;
            std::nth_element(best.begin(), last, best.end(),
                             [](const Scored& a, const Scored& b) { return a.before(b); });
            if (!last->must) least = last->score;
            best.resize(most);
        };
        for (std::uint32_t k = 0; k < trees_.size(); ++k) {
            const bool must = joins[k] == Joins::must;
            if (joins[k] == Joins::no || (scores[k] < least && !must)) continue;
            best.push_back({scores[k], must, k});
            if (best.size() == 2 * most) drop_the_rest();
        }
        if (best.size() > most) drop_the_rest();
        return best;
    }

    /// Of equals the best ranked.
    [[nodiscard]] static const Scored& highest_of(const std::vector<Scored>& best) {
        return *std::ranges::min_element(best, [](const Scored& a, const Scored& b) {
            return a.score != b.score ? a.score > b.score : a.place < b.place;
        });
    }

    [[nodiscard]] std::vector<std::size_t> chosen_of(const std::vector<Scored>& best, std::size_t few) const {
        std::vector<Contender> contenders;
        contenders.reserve(best.size());
        for (const Scored& tree : best)
            contenders.push_back(contender(tree));
        std::ranges::sort(contenders, [](const Contender& a, const Contender& b) {
            return a.must != b.must ? a.must : better(a, b);
        });
        return best_apart(narrowed(contenders, few), inventory_, settings_.choice);
    }

    /// The first of them, but few of those of which one at most is chosen.
    [[nodiscard]] std::vector<Contender> narrowed(std::span<const Contender> contenders,
                                                  std::size_t most) const {
        constexpr std::uint32_t most_of_a_square = 8;
        std::vector<std::uint32_t> of_square(trees_.size(), 0);
        std::vector<Contender> kept;
        for (const Contender& contender : contenders) {
            if (kept.size() == most) break;
            std::uint32_t& count = of_square[square_[place_[contender.tree]]];
            if (!contender.must && count == most_of_a_square) continue;
            ++count;
            kept.push_back(contender);
        }
        return kept;
    }

    /// Two trees of one square are too close to each other.
    void find_squares() {
        const double side = std::max(1e-6, settings_.choice.spacing.value() / std::sqrt(2.0));
        std::map<std::pair<double, double>, std::size_t> known;
        for (const std::size_t tree : trees_) {
            const core::PlanePoint stem = inventory_.rows[tree].stem;
            const std::pair square(std::floor(stem.easting / side), std::floor(stem.northing / side));
            square_.push_back(known.try_emplace(square, known.size()).first->second);
        }
    }

    /// Of equal scores the higher flight density on all evenings comes first.
    [[nodiscard]] Contender contender(const Scored& scored) const {
        const std::size_t tree = trees_[scored.place];
        const double flight = flight_[scored.place];
        return {tree, score_of({flight, scored.score, true}, 1.0), flight, scored.must};
    }

    std::span<const Candidate> candidates_;
    const trees::Inventory& inventory_;
    const Settings& settings_;
    std::vector<std::size_t> trees_;   ///< best first
    std::vector<double> evidence_;     ///< tree by tree, re-draw by re-draw
    std::vector<Joins> joins_;         ///< the choice of a re-draw
    std::vector<double> flight_;       ///< of every tree that takes part, on all evenings
    std::vector<std::size_t> square_;  ///< of every tree that takes part, from 0
    std::vector<std::size_t> place_;   ///< of every tree, its index into `trees_`
    std::array<std::vector<double>, fitness_parts> lacks_;  ///< what each part lacks of a utility of 1
};

/// Draw by draw the scores of the best ranked trees.
class ScoreTable {
 public:
    ScoreTable(std::size_t trees, std::size_t draws) : trees_(trees), draws_(draws), scores_(trees * draws) {}
    void keep(std::size_t draw, const std::vector<double>& scores) {
        std::copy_n(scores.begin(), trees_, scores_.begin() + static_cast<std::ptrdiff_t>(draw * trees_));
    }
    /// From 1, in order of rank.
    [[nodiscard]] std::vector<std::size_t> groups() const {
        std::vector<std::size_t> groups;
        std::size_t group = 0, leader = 0;
        for (std::size_t tree = 0; tree < trees_; ++tree) {
            if (tree == 0 || as_high(tree, leader) < told_apart_below) {
                ++group;
                leader = tree;
            }
            groups.push_back(group);
        }
        return groups;
    }

 private:
    /// The share of draws in which a tree scores as high as another, or higher.
    [[nodiscard]] double as_high(std::size_t tree, std::size_t other) const {
        std::uint32_t count = 0;
        for (std::size_t at = 0; at < scores_.size(); at += trees_)
            if (scores_[at + tree] >= scores_[at + other]) ++count;
        return share_of(draws_, count);
    }

    std::size_t trees_, draws_;
    std::vector<double> scores_;
};

/// `kept`: where the scores go, if anywhere.
Counts count_choices(const Field& field, std::span<const WeightDraw> draws, ScoreTable* kept,
                     core::Threads threads) {
    constexpr std::size_t block = 500;
    const std::size_t blocks = (draws.size() + block - 1) / block, trees = field.trees().size();
    std::vector<Counts> counts(blocks, Counts(trees));
    core::parallel_for(blocks, 1, threads, [&](std::size_t of, std::size_t) {
        std::vector<double> scores(trees);
        for (std::size_t d = of * block; d < std::min(draws.size(), (of + 1) * block); ++d) {
            field.score(draws[d], scores);
            if (kept != nullptr) kept->keep(d, scores);
            field.choose(draws[d], scores, counts[of]);
        }
    });
    Counts all(trees);
    for (const Counts& part : counts)
        all.add(part);
    return all;
}

}  // namespace

std::size_t weight_draws(std::size_t sites, std::size_t trees) {
    constexpr double most = 10'000, least = 500, work = 1.28e9;
    const double one = static_cast<double>(sites * sites * std::max<std::size_t>(1, trees));
    return static_cast<std::size_t>(std::clamp(work / one, least, most));
}

double error_of_shares(std::size_t draws) {
    return 1.96 * 0.5 / std::sqrt(static_cast<double>(draws));
}

std::size_t give_acceptability(std::vector<Candidate>& candidates, const Evidenced& data,
                               std::span<const activity::EveningDraw> evenings, const Settings& settings,
                               core::Threads threads) {
    if (in_order_of_site(candidates).empty()) return 0;
    const std::vector<std::size_t> parts = parts_that_count(candidates);
    const std::array as_they_were{
        activity::EveningDraw{activity::each_once(data.survey.evenings.size()), 1.0}};
    const Field watched(candidates, data, as_they_were, settings, threads);
    const std::size_t count = weight_draws(settings.choice.sites, watched.trees().size());
    const auto draws_over = [&](std::span<const activity::EveningDraw> of) {
        return draw_weights(parts, settings.weights.fitness_share, count, of, settings.activity.seed);
    };
    const Counts by_weights = count_choices(watched, draws_over(as_they_were), nullptr, threads);

    const Field redrawn(candidates, data, evenings, settings, threads);
    const std::vector<std::size_t>& trees = redrawn.trees();
    ScoreTable scores(std::min(trees.size(), most_in_groups(settings.choice.sites)), count);
    const Counts together = count_choices(redrawn, draws_over(evenings), &scores, threads);

    for (std::size_t k = 0; k < trees.size(); ++k)
        candidates[trees[k]].acceptability = {share_of(count, by_weights.chosen[k]),
                                              share_of(count, together.chosen[k]),
                                              share_of(count, together.first[k])};
    const std::vector<std::size_t> groups = scores.groups();
    for (std::size_t k = 0; k < groups.size(); ++k)
        candidates[trees[k]].group = groups[k];
    return count;
}

}  // namespace roostward::siting
