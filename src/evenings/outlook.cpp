#include "outlook.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "roostward/evenings/sight.hpp"
#include "shift.hpp"

namespace roostward::evenings {

namespace {

constexpr std::size_t trees_told = 6;
/// Half of what passes is noticed: near enough to be told as seen from a post. Where no tree is so near, the
/// nearest are.
constexpr double seen_well = 0.5;
/// In what is farthest seen: beyond nothing is.
constexpr double looked_at = 2.0;
/// From so many evenings on, evenings can tell.
constexpr std::size_t enough_evenings = 3;
/// Less effective watching than this is none.
constexpr double hardly = 0.02;

/// A tree from a post.
struct Look {
    std::size_t tree = 0;  ///< of the known trees
    double seen = 0.0;     ///< share of passes that are noticed
    core::Degrees toward;  ///< grid bearing
};

std::vector<Look> looks_from(const Post& post, core::PlanePoint eye, const geo::PointIndex& index,
                             const Ground& ground, const KnownTrees& known) {
    std::vector<Look> looks;
    const double rho = 0.5 * post.farthest_seen.value();
    for (const std::size_t i : index.within(eye, post.farthest_seen * looked_at)) {
        const TreeKnown& tree = known.trees[i];
        const double near = std::exp(-core::squared_distance(eye, tree.stem) / (2.0 * rho * rho));
        looks.push_back({i,
                         near * share_through(ground.canopy_height, ground.ground_height, eye, tree.stem,
                                              tree.crown_radius),
                         core::grid_bearing(eye, tree.stem)});
    }
    return looks;
}

bool holds(const survey::FieldOfView& view, core::Degrees toward) {
    return core::turn_between(view.look, toward) <= view.width / 2.0;
}

Because because_of(const TreeKnown& tree, core::Hours min_watch) {
    if (tree.watched < min_watch) return Because::new_ground;
    if (tree.chosen) return Because::confirm;
    return tree.evenings < enough_evenings ? Because::again : Because::between;
}

/// A half circle that holds nearly all that is to be seen, where there is one: nobody watches all round as
/// well. Of the compass points the one in whose half most is seen.
std::optional<survey::FieldOfView> view_of(const std::vector<Look>& looks, core::Degrees convergence) {
    constexpr int compass_points = 16;
    constexpr double nearly_all = 0.975;
    const core::Degrees half{180.0};
    double all = 0.0, most = 0.0;
    std::optional<survey::FieldOfView> best;
    for (const Look& look : looks)
        all += look.seen;
    for (int i = 0; i < compass_points; ++i) {
        const survey::FieldOfView view{
            core::normalised(core::Degrees(i * 360.0 / compass_points) - convergence), half};
        double sum = 0.0;
        for (const Look& look : looks)
            if (holds(view, look.toward)) sum += look.seen;
        if (sum < nearly_all * all || sum <= most) continue;
        most = sum;
        best = view;
    }
    return best;
}

/// What most of what is seen is watched for.
Reason reason_of(std::vector<Look> looks, const KnownTrees& known, const Asked& asked) {
    std::array<double, 4> sums{};
    const auto kind = [&](const Look& look) { return because_of(known.trees[look.tree], asked.min_watch); };
    for (const Look& look : looks)
        sums.at(static_cast<std::size_t>(kind(look))) += look.seen;
    Reason reason;
    reason.because = static_cast<Because>(std::ranges::max_element(sums) - sums.begin());
    double least = 0.0;
    for (const Look& look : looks)
        least = std::min(seen_well, std::max(least, look.seen));
    std::erase_if(looks, [least](const Look& look) { return look.seen < least; });
    reason.trees = looks.size();
    std::erase_if(looks, [&](const Look& look) { return kind(look) != reason.because; });
    std::ranges::sort(looks, {}, [](const Look& look) { return std::pair{-look.seen, look.tree}; });
    looks.resize(std::min(looks.size(), trees_told));
    for (const Look& look : looks)
        reason.concerned.push_back(known.trees[look.tree].tree);
    return reason;
}

/// Effective hours at the trees.
class TreeHours {
 public:
    explicit TreeHours(const KnownTrees& known) : held_(known.trees.size()) {
        for (const TreeKnown& tree : known.trees)
            hours_.push_back(tree.watched.value());
    }
    void add(const Post& post, const std::vector<Look>& looks) {
        for (const Look& look : looks) {
            auto& held = held_[look.tree];
            hours_[look.tree] += post.hours().value() * look.seen * left_unseen(held, post.start, post.end);
            held.push_back({post.start, post.end, look.seen});
        }
    }
    [[nodiscard]] double at(std::size_t tree) const { return hours_[tree]; }
    [[nodiscard]] double share_with(core::Hours enough) const {
        const auto watched =
            std::ranges::count_if(hours_, [&](double hours) { return hours >= enough.value(); });
        return hours_.empty() ? 0.0 : static_cast<double>(watched) / static_cast<double>(hours_.size());
    }

 private:
    std::vector<double> hours_;
    std::vector<std::vector<Held>> held_;
};

core::PlanePoint middle_of(const KnownTrees& known) {
    core::PlanePoint middle;
    for (const TreeKnown& tree : known.trees) {
        middle.easting += tree.stem.easting / static_cast<double>(known.trees.size());
        middle.northing += tree.stem.northing / static_cast<double>(known.trees.size());
    }
    return middle;
}

/// Of eight corners the one with most unwatched trees, toward their middle.
void tell_unwatched(Posts& posts, const KnownTrees& known, const TreeHours& hours, core::Hours enough) {
    struct Corner {
        std::size_t trees = 0;
        core::PlanePoint sum;
    };
    const core::PlanePoint middle = middle_of(known);
    std::array<Corner, 8> corners;
    for (std::size_t i = 0; i < known.trees.size(); ++i) {
        if (hours.at(i) >= enough.value()) continue;
        ++posts.unwatched_trees;
        const core::PlanePoint stem = known.trees[i].stem;
        const double toward = core::grid_bearing(middle, stem).value() / 45.0 + 0.5;
        Corner& corner = corners.at(static_cast<std::size_t>(toward) % corners.size());
        ++corner.trees;
        corner.sum.easting += stem.easting;
        corner.sum.northing += stem.northing;
    }
    const auto most = std::ranges::max_element(corners, {}, &Corner::trees);
    if (most->trees == 0) return;
    const auto count = static_cast<double>(most->trees);
    posts.unwatched_toward =
        core::grid_bearing(middle, {most->sum.easting / count, most->sum.northing / count});
}

Confirmed confirmed_by(double more_hours, core::Hours enough) {
    if (more_hours >= enough.value()) return Confirmed::confirmed;
    return more_hours >= hardly ? Confirmed::not_confirmed : Confirmed::not_tried;
}

}  // namespace

void tell_outlook(Posts& posts, const Ground& ground, const KnownTrees& known, const Asked& asked) {
    std::vector<core::PlanePoint> stems;
    for (const TreeKnown& tree : known.trees)
        stems.push_back(tree.stem);
    const geo::PointIndex index(stems);
    TreeHours hours(known);
    posts.share_before = hours.share_with(asked.min_watch);
    for (auto& evening : posts.rounds) {
        for (Round& round : evening)
            for (Post& post : round.posts) {
                const core::PlanePoint eye = posts.places[post.place].position;
                auto looks = looks_from(post, eye, index, ground, known);
                post.view = view_of(looks, asked.meridian_convergence);
                if (post.view)
                    std::erase_if(looks, [&](const Look& look) { return !holds(*post.view, look.toward); });
                hours.add(post, looks);
                post.why = reason_of(std::move(looks), known, asked);
            }
        posts.share_after.push_back(hours.share_with(asked.min_watch));
    }
    tell_unwatched(posts, known, hours, asked.min_watch);
    for (std::size_t i = 0; i < known.trees.size(); ++i) {
        const TreeKnown& tree = known.trees[i];
        if (!tree.chosen) continue;
        posts.sites.push_back({tree.tree, confirmed_by(hours.at(i) - tree.watched.value(), asked.min_watch)});
    }
}

}  // namespace roostward::evenings
