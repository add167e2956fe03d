#include "roostward/activity/piece_buckets.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// So many pieces at a time: what is worked out of them stays in the processor's cache.
constexpr std::size_t run_size = 256;
using Run = std::array<double, run_size>;
/// Metres, by which a piece may seem to lie in the next bucket.
constexpr double rounding = 1e-6;

ROOSTWARD_VECTOR_CLONES
void point_kernels(const double* x, const double* y, const double* weight, const double* precision,
                   std::size_t n, double px, double py, double* value) {
    for (std::size_t i = 0; i < n; ++i) {
        const double dx = px - x[i];
        const double dy = py - y[i];
        value[i] = weight[i] * point_kernel_of(dx * dx + dy * dy, precision[i]);
    }
}

struct StraightColumns {
    const double *x, *y, *east, *north, *half_length, *weight, *width;
};

StraightColumns from(const PieceBuckets::Columns& c, std::size_t i) {
    return {&c.x[i], &c.y[i], &c.east[i], &c.north[i], &c.half_length[i], &c.weight[i], &c.width[i]};
}

struct FromMiddle {
    double along, across;
};

/// Metres from the middle of a straight piece to a point, along it and to its side.
[[gnu::always_inline]] inline FromMiddle from_middle(const StraightColumns& c, std::size_t i, double px,
                                                     double py) {
    const double dx = px - c.x[i];
    const double dy = py - c.y[i];
    return {dx * c.east[i] + dy * c.north[i], dy * c.east[i] - dx * c.north[i]};
}

ROOSTWARD_VECTOR_CLONES
void straight_kernels(const StraightColumns& c, std::size_t n, double px, double py, double* value) {
    for (std::size_t i = 0; i < n; ++i) {
        const auto [along, across] = from_middle(c, i, px, py);
        value[i] = c.weight[i] * segment_kernel(across, along, c.half_length[i], c.width[i]);
    }
}

ROOSTWARD_VECTOR_CLONES
void squared_to_points(const double* x, const double* y, std::size_t n, double px, double py,
                       double* squared) {
    for (std::size_t i = 0; i < n; ++i) {
        const double dx = px - x[i];
        const double dy = py - y[i];
        squared[i] = dx * dx + dy * dy;
    }
}

ROOSTWARD_VECTOR_CLONES
void squared_to_straight(const StraightColumns& c, std::size_t n, double px, double py, double* squared) {
    for (std::size_t i = 0; i < n; ++i) {
        const auto [along, across] = from_middle(c, i, px, py);
        const double beyond = std::fabs(along) - c.half_length[i];
        const double past_end = beyond > 0.0 ? beyond : 0.0;
        squared[i] = across * across + past_end * past_end;
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

PieceBuckets::PieceBuckets(const std::vector<Piece>& pieces) : PieceBuckets(pointers_to(pieces)) {}

PieceBuckets::PieceBuckets(std::span<const Piece* const> pieces) {
    start_.assign(1, 0);
    if (pieces.empty()) return;
    core::PlanePoint low = pieces.front()->middle, high = low;
    for (const Piece* p : pieces) {
        low = {std::min(low.easting, p->middle.easting), std::min(low.northing, p->middle.northing)};
        high = {std::max(high.easting, p->middle.easting), std::max(high.northing, p->middle.northing)};
        longest_ = std::max(longest_, p->half_length);
        reach_ = std::max(reach_, kernel_reach * p->width);
        all_points_ = all_points_ && p->half_length == 0.0;
    }
    const double width = high.easting - low.easting, height = high.northing - low.northing;
    const double enough = 4.0 * static_cast<double>(pieces.size()) + 1024.0;
    side_ =
        std::max({reach_ / 8.0, std::sqrt(width * height / enough), std::max(width, height) / enough, 1e-3});
    a_metre_ = 1.0 / side_;
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
    const double column = (easting - origin_.easting) * a_metre_;
    return static_cast<std::size_t>(std::clamp(column, 0.0, static_cast<double>(bucket_columns_ - 1)));
}

std::size_t PieceBuckets::bucket_row(double northing) const {
    const double row = (northing - origin_.northing) * a_metre_;
    return static_cast<std::size_t>(std::clamp(row, 0.0, static_cast<double>(bucket_rows_ - 1)));
}

bool PieceBuckets::meets(const core::Box& box) const {
    const double top = origin_.northing + static_cast<double>(bucket_rows_) * side_;
    const double right = origin_.easting + static_cast<double>(bucket_columns_) * side_;
    return !columns_.x.empty() && box.north_east.easting >= origin_.easting &&
           box.south_west.easting <= right && box.north_east.northing >= origin_.northing &&
           box.south_west.northing <= top;
}

/// Calls act(begin, end) for runs of columns that together hold every piece that comes within `reach` of `p`.
template <class Do>
void PieceBuckets::for_each_run(core::PlanePoint p, double reach, const Do& act) const {
    reach += longest_ + rounding;
    const core::Box box = core::widened({p, p}, core::Metres(reach));
    if (!meets(box)) return;
    const std::size_t bottom = bucket_row(box.south_west.northing), up = bucket_row(box.north_east.northing);
    for (std::size_t row = bottom; row <= up; ++row) {
        const double south = origin_.northing + static_cast<double>(row) * side_;
        const double apart = std::max({south - p.northing, p.northing - south - side_, 0.0});
        const double half = std::sqrt(std::max(reach * reach - apart * apart, 0.0));
        const std::size_t first = bucket_column(p.easting - half), last = bucket_column(p.easting + half);
        const std::size_t end = start_[row * bucket_columns_ + last + 1];
        for (std::size_t i = start_[row * bucket_columns_ + first]; i < end; i += run_size)
            act(i, std::min(i + run_size, end));
    }
}

void PieceBuckets::add_at(core::PlanePoint p, double* flown) const {
    const Columns& c = columns_;
    alignas(64) Run value;
    for_each_run(p, reach_, [&](std::size_t i, std::size_t end) {
        const std::size_t n = end - i;
        if (all_points_)
            point_kernels(&c.x[i], &c.y[i], &c.weight[i], &c.precision[i], n, p.easting, p.northing,
                          value.data());
        else
            straight_kernels(from(c, i), n, p.easting, p.northing, value.data());
        for (std::size_t j = 0; j < n; ++j)
            flown[c.evening[i + j]] += value[j];
    });
}

void PieceBuckets::count_at(core::PlanePoint p, double close, std::uint32_t* used) const {
    const Columns& c = columns_;
    alignas(64) Run squared;
    for_each_run(p, close, [&](std::size_t i, std::size_t end) {
        const std::size_t n = end - i;
        if (all_points_)
            squared_to_points(&c.x[i], &c.y[i], n, p.easting, p.northing, squared.data());
        else
            squared_to_straight(from(c, i), n, p.easting, p.northing, squared.data());
        for (std::size_t j = 0; j < n; ++j)
            used[c.evening[i + j]] += squared[j] <= close * close ? 1U : 0U;
    });
}

std::vector<std::uint32_t> PieceBuckets::in(const core::Box& box) const {
    std::vector<std::uint32_t> found;
    if (!meets(box)) return found;
    const std::size_t up = bucket_row(box.north_east.northing);
    const std::size_t first = bucket_column(box.south_west.easting),
                      last = bucket_column(box.north_east.easting);
    for (std::size_t row = bucket_row(box.south_west.northing); row <= up; ++row)
        for (std::size_t i = start_[row * bucket_columns_ + first];
             i < start_[row * bucket_columns_ + last + 1]; ++i)
            found.push_back(static_cast<std::uint32_t>(i));
    return found;
}

}  // namespace roostward::activity
