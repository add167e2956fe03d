#include "roostward/activity/pieces.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

void add_straight(std::vector<Piece>& pieces, core::PlanePoint from, core::PlanePoint to, double longest,
                  Piece like) {
    const double dx = to.easting - from.easting;
    const double dy = to.northing - from.northing;
    const double length = std::hypot(dx, dy);
    if (length == 0.0) return;
    const auto parts = static_cast<std::size_t>(std::max(1.0, std::ceil(length / longest)));
    like.east = dx / length;
    like.north = dy / length;
    like.half_length = 0.5 * length / static_cast<double>(parts);
    for (std::size_t i = 0; i < parts; ++i) {
        const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(parts);
        like.middle = {from.easting + share * dx, from.northing + share * dy};
        pieces.push_back(like);
    }
}

/// Kernel values of a run of pieces at one point, and squared distances from the point to each piece.
struct Run {
    static constexpr std::size_t size = 256;
    alignas(64) std::array<double, size> value;
    alignas(64) std::array<double, size> squared;
};

ROOSTWARD_VECTOR_CLONES
void evaluate_points(const double* x, const double* y, const double* weight, const double* precision,
                     std::size_t n, double px, double py, double* value, double* squared) {
    for (std::size_t i = 0; i < n; ++i) {
        const double dx = px - x[i];
        const double dy = py - y[i];
        squared[i] = dx * dx + dy * dy;
        value[i] = weight[i] * point_kernel_of(squared[i], precision[i]);
    }
}

struct StraightColumns {
    const double *x, *y, *east, *north, *half_length, *weight, *width;
};

ROOSTWARD_VECTOR_CLONES
void evaluate_straight(const StraightColumns& c, std::size_t n, double px, double py, double* value,
                       double* squared) {
    for (std::size_t i = 0; i < n; ++i) {
        const double dx = px - c.x[i];
        const double dy = py - c.y[i];
        const double along = dx * c.east[i] + dy * c.north[i];
        const double across = dy * c.east[i] - dx * c.north[i];
        const double beyond = std::fabs(along) - c.half_length[i];
        const double past_end = beyond > 0.0 ? beyond : 0.0;
        squared[i] = across * across + past_end * past_end;
        value[i] = c.weight[i] * segment_kernel(across, along, c.half_length[i], c.width[i]);
    }
}

std::vector<const Piece*> pointers_to(const std::vector<Piece>& pieces) {
    std::vector<const Piece*> pointers;
    pointers.reserve(pieces.size());
    for (const Piece& piece : pieces)
        pointers.push_back(&piece);
    return pointers;
}

}  // namespace

std::vector<Piece> pieces_of(const survey::Survey& survey, core::Metres h, core::Metres longest) {
    std::vector<Piece> pieces;
    pieces.reserve(survey.flights.size());
    for (const auto& flight : survey.flights) {
        if (!flight.placed || flight.path.empty()) continue;
        Piece piece;
        piece.width = std::hypot(h.value(), flight.accuracy.value());
        piece.evening = flight.evening;
        piece.weight = flight.count * survey::laid_on_path(flight);
        if (flight.path.size() == 1) {
            piece.middle = flight.path.front();
            pieces.push_back(piece);
            continue;
        }
        for (std::size_t i = 0; i + 1 < flight.path.size(); ++i)
            add_straight(pieces, flight.path[i], flight.path[i + 1], longest.value(), piece);
    }
    return pieces;
}

double widest(const std::vector<Piece>& pieces) {
    double width = 0.0;
    for (const auto& piece : pieces)
        width = std::max(width, piece.width);
    return width;
}

PieceBuckets::PieceBuckets(const std::vector<Piece>& pieces, double reach)
    : PieceBuckets(pointers_to(pieces), reach) {}

PieceBuckets::PieceBuckets(std::span<const Piece* const> pieces, double reach) {
    start_.assign(1, 0);
    if (pieces.empty()) return;
    core::PlanePoint low = pieces.front()->middle, high = low;
    double longest = 0.0;
    for (const Piece* p : pieces) {
        low = {std::min(low.easting, p->middle.easting), std::min(low.northing, p->middle.northing)};
        high = {std::max(high.easting, p->middle.easting), std::max(high.northing, p->middle.northing)};
        longest = std::max(longest, p->half_length);
        all_points_ = all_points_ && p->half_length == 0.0;
    }
    const double width = high.easting - low.easting, height = high.northing - low.northing;
    const double enough = 4.0 * static_cast<double>(pieces.size()) + 1024.0;
    side_ =
        std::max({reach / 4.0, std::sqrt(width * height / enough), std::max(width, height) / enough, 1e-3});
    reach_ = reach;
    longest_ = longest;
    origin_ = low;
    bucket_columns_ = static_cast<std::size_t>(width / side_) + 1;
    bucket_rows_ = static_cast<std::size_t>(height / side_) + 1;

    std::vector<std::size_t> bucket(pieces.size());
    start_.assign(bucket_rows_ * bucket_columns_ + 1, 0);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        bucket[i] = bucket_row(pieces[i]->middle.northing) * bucket_columns_ +
                    bucket_column(pieces[i]->middle.easting);
        ++start_[bucket[i] + 1];
    }
    std::partial_sum(start_.begin(), start_.end(), start_.begin());
    std::vector<std::size_t> next(start_.begin(), start_.end() - 1);
    for (auto* column : {&columns_.x, &columns_.y, &columns_.east, &columns_.north, &columns_.half_length,
                         &columns_.weight, &columns_.width, &columns_.precision})
        column->resize(pieces.size());
    columns_.evening.resize(pieces.size());
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const std::size_t at = next[bucket[i]]++;
        const Piece& p = *pieces[i];
        columns_.x[at] = p.middle.easting;
        columns_.y[at] = p.middle.northing;
        columns_.east[at] = p.east;
        columns_.north[at] = p.north;
        columns_.half_length[at] = p.half_length;
        columns_.weight[at] = p.weight;
        columns_.width[at] = p.width;
        columns_.precision[at] = precision_of(p.width);
        columns_.evening[at] = p.evening;
    }
}

std::size_t PieceBuckets::bucket_column(double easting) const {
    const double column = std::floor((easting - origin_.easting) / side_);
    return static_cast<std::size_t>(std::clamp(column, 0.0, static_cast<double>(bucket_columns_ - 1)));
}

std::size_t PieceBuckets::bucket_row(double northing) const {
    const double row = std::floor((northing - origin_.northing) / side_);
    return static_cast<std::size_t>(std::clamp(row, 0.0, static_cast<double>(bucket_rows_ - 1)));
}

void PieceBuckets::add_at(core::PlanePoint p, double close, double* flown, std::uint32_t* used) const {
    if (columns_.x.empty()) return;
    const double reach = std::max(reach_, close) + longest_;
    const core::Box box = core::widened({p, p}, core::Metres(reach));
    const double top = origin_.northing + static_cast<double>(bucket_rows_) * side_;
    const double right = origin_.easting + static_cast<double>(bucket_columns_) * side_;
    if (box.north_east.easting < origin_.easting || box.south_west.easting > right ||
        box.north_east.northing < origin_.northing || box.south_west.northing > top)
        return;
    const std::size_t bottom = bucket_row(box.south_west.northing), up = bucket_row(box.north_east.northing);
    for (std::size_t row = bottom; row <= up; ++row) {
        const double south = origin_.northing + static_cast<double>(row) * side_;
        const double apart = std::max({south - p.northing, p.northing - south - side_, 0.0});
        const double half = std::sqrt(std::max(reach * reach - apart * apart, 0.0));
        const std::size_t first = bucket_column(p.easting - half), last = bucket_column(p.easting + half);
        add_range(start_[row * bucket_columns_ + first], start_[row * bucket_columns_ + last + 1], p, close,
                  flown, used);
    }
}

void PieceBuckets::add_range(std::size_t begin, std::size_t end, core::PlanePoint p, double close,
                             double* flown, std::uint32_t* used) const {
    const Columns& c = columns_;
    Run run;
    for (std::size_t i = begin; i < end; i += Run::size) {
        const std::size_t n = std::min(Run::size, end - i);
        if (all_points_) {
            evaluate_points(&c.x[i], &c.y[i], &c.weight[i], &c.precision[i], n, p.easting, p.northing,
                            run.value.data(), run.squared.data());
        } else {
            const StraightColumns straight{&c.x[i],           &c.y[i],      &c.east[i], &c.north[i],
                                           &c.half_length[i], &c.weight[i], &c.width[i]};
            evaluate_straight(straight, n, p.easting, p.northing, run.value.data(), run.squared.data());
        }
        for (std::size_t j = 0; j < n; ++j) {
            const std::uint32_t evening = c.evening[i + j];
            flown[evening] += run.value[j];
            used[evening] += run.squared[j] <= close * close ? 1U : 0U;
        }
    }
}

}  // namespace roostward::activity
