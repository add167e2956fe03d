#include "roostward/geo/crs.hpp"

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

#include <proj.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <numbers>
#include <tuple>
#include <utility>

namespace roostward::geo {

namespace {

struct ContextCloser {
    void operator()(PJ_CONTEXT* context) const noexcept { proj_context_destroy(context); }
};
struct PjCloser {
    void operator()(PJ* pj) const noexcept { proj_destroy(pj); }
};
using ContextHandle = std::unique_ptr<PJ_CONTEXT, ContextCloser>;
using PjHandle = std::unique_ptr<PJ, PjCloser>;

constexpr double radians_a_degree = std::numbers::pi / 180.0;

[[noreturn]] void refuse(const std::string& sentence) {
    throw core::Error(core::Fault::inputs, {}, sentence);
}

/// With the network off, so that a run gives the same answer everywhere.
ContextHandle quiet_context() {
    ContextHandle context(proj_context_create());
    proj_log_level(context.get(), PJ_LOG_NONE);
    proj_context_set_enable_network(context.get(), 0);
    return context;
}

ContextHandle offline_context() {
    ContextHandle context = quiet_context();
    if (proj_context_get_database_path(context.get()) == nullptr) refuse(core::said("error.no_proj_db"));
    return context;
}

/// As given, compound and bound systems included.
PjHandle parsed(PJ_CONTEXT* context, const Crs& crs) {
    const bool is_proj_string = crs.definition.starts_with("+");
    const std::string text = is_proj_string ? crs.definition + " +type=crs" : crs.definition;
    PjHandle pj(proj_create(context, text.c_str()));
    if (!pj || proj_is_crs(pj.get()) == 0)
        refuse(core::said("error.crs_not_known", {{"crs", crs.definition}}));
    return pj;
}

/// Without the vertical part: heights are never transformed, and must not decide whether a point can be.
PjHandle horizontal(PJ_CONTEXT* context, PjHandle crs) {
    while (proj_get_type(crs.get()) == PJ_TYPE_COMPOUND_CRS)
        crs.reset(proj_crs_get_sub_crs(context, crs.get(), 0));
    return crs;
}

/// Without a transformation tied to it: the system itself.
PjHandle plain(PJ_CONTEXT* context, const Crs& crs) {
    PjHandle pj = horizontal(context, parsed(context, crs));
    while (proj_get_type(pj.get()) == PJ_TYPE_BOUND_CRS)
        pj.reset(proj_get_source_crs(context, pj.get()));
    return pj;
}

struct Axis {
    std::string direction;
    double unit = 1.0;  ///< metres or radians
};

Axis axis_of(PJ_CONTEXT* context, const PJ* crs, int index) {
    const PjHandle system(proj_crs_get_coordinate_system(context, crs));
    const char* direction = nullptr;
    Axis axis;
    if (system && proj_cs_get_axis_info(context, system.get(), index, nullptr, nullptr, &direction,
                                        &axis.unit, nullptr, nullptr, nullptr) != 0)
        axis.direction = direction;
    return axis;
}

bool is_plane_in_metres(PJ_CONTEXT* context, const PJ* crs) {
    if (proj_get_type(crs) != PJ_TYPE_PROJECTED_CRS) return false;
    const std::array axes{axis_of(context, crs, 0), axis_of(context, crs, 1)};
    return std::all_of(axes.begin(), axes.end(), [](const Axis& axis) {
        return axis.unit == 1.0 && !axis.direction.empty() && axis.direction != "west";
    });
}

/// x before y at both ends, whatever order the systems themselves prescribe.
PjHandle operation_between(PJ_CONTEXT* context, const PJ* from, const PJ* to) {
    const PjHandle own_order(proj_create_crs_to_crs_from_pj(context, from, to, nullptr, nullptr));
    if (!own_order) return nullptr;
    return PjHandle(proj_normalize_for_visualization(context, own_order.get()));
}

std::string without_axis_swaps(std::string name) {
    static const std::string swap = "axis order change (2D)";
    if (name.starts_with(swap + " + ")) name.erase(0, swap.size() + 3);
    if (name.ends_with(" + " + swap)) name.erase(name.size() - swap.size() - 3);
    return name;
}

std::string text_or_empty(const char* text) {
    return text == nullptr ? std::string() : std::string(text);
}

double to_tenth_of_millimetre(double metres) {
    return std::round(metres * 1e4) / 1e4;
}

}  // namespace

CrsFacts facts_of(const Crs& crs) {
    const ContextHandle context = offline_context();
    const PjHandle pj = plain(context.get(), crs);
    CrsFacts facts;
    facts.name = text_or_empty(proj_get_name(pj.get()));
    const std::string code = text_or_empty(proj_get_id_code(pj.get(), 0));
    if (!code.empty()) facts.authority = text_or_empty(proj_get_id_auth_name(pj.get(), 0)) + ":" + code;
    const PJ_TYPE type = proj_get_type(pj.get());
    facts.geographic = type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS;
    facts.projected_in_metres = is_plane_in_metres(context.get(), pj.get());
    return facts;
}

std::string wkt2_of(const Crs& crs) {
    const ContextHandle context = offline_context();
    const PjHandle pj = parsed(context.get(), crs);
    const std::array<const char*, 2> options{"MULTILINE=NO", nullptr};
    const char* text = proj_as_wkt(context.get(), pj.get(), PJ_WKT2_2019, options.data());
    if (text == nullptr) refuse(core::said("error.crs_without_wkt", {{"crs", crs.definition}}));
    return text;
}

std::optional<Crs> utm_zone_of(std::span<const core::GeographicPoint> points) {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
    for (const core::GeographicPoint& point : points) {
        const double longitude = point.longitude.value() * radians_a_degree;
        const double latitude = point.latitude.value() * radians_a_degree;
        x += std::cos(latitude) * std::cos(longitude);
        y += std::cos(latitude) * std::sin(longitude);
        z += std::sin(latitude);
    }
    const double across = std::hypot(x, y);
    const double latitude = std::atan2(z, across) / radians_a_degree;
    const bool has_a_mean = std::hypot(across, z) > 1e-9 * static_cast<double>(points.size());
    if (!has_a_mean || !(std::abs(latitude) <= 84.0)) return std::nullopt;
    const double longitude = std::atan2(y, x) / radians_a_degree;
    const int zone = static_cast<int>(std::floor((longitude + 180.0) / 6.0)) % 60 + 1;
    const int code = (latitude < 0.0 ? 32700 : 32600) + zone;
    return Crs{"EPSG:" + std::to_string(code)};
}

/// The context is named first, so that it is closed last.
struct Transform::Handles {
    ContextHandle context;
    PjHandle operation;

    /// For another thread; opens no database.
    [[nodiscard]] Handles copy() const {
        Handles own{quiet_context(), {}};
        own.operation.reset(proj_clone(own.context.get(), operation.get()));
        return own;
    }

    /// PROJ may keep several operations for several regions. This is the one that it used last; before the
    /// first point the only one, else none.
    [[nodiscard]] PjHandle used() const {
        PjHandle last(proj_trans_get_last_used_operation(operation.get()));
        return last ? std::move(last) : PjHandle(proj_clone(context.get(), operation.get()));
    }

    void apply(std::span<core::PlanePoint> points, bool rounds) const {
        if (points.empty()) return;
        constexpr std::size_t stride = sizeof(core::PlanePoint);
        proj_trans_generic(operation.get(), PJ_FWD, &points.front().easting, stride, points.size(),
                           &points.front().northing, stride, points.size(), nullptr, 0, 0, nullptr, 0, 0);
        for (core::PlanePoint& point : points) {
            if (!std::isfinite(point.easting) || !std::isfinite(point.northing)) {
                constexpr double nowhere = std::numeric_limits<double>::quiet_NaN();
                point = {nowhere, nowhere};
            } else if (rounds) {
                point = {to_tenth_of_millimetre(point.easting), to_tenth_of_millimetre(point.northing)};
            }
        }
    }
};

namespace {

/// An operation as PROJ found it, and whether it ends in a plane.
struct Found {
    ContextHandle context = offline_context();
    PjHandle operation;
    bool to_plane = false;
};

Found find_operation(const Crs& from, const Crs& to) {
    Found found;
    PJ_CONTEXT* context = found.context.get();
    const PjHandle source = horizontal(context, parsed(context, from));
    const PjHandle target = horizontal(context, parsed(context, to));
    found.operation = operation_between(context, source.get(), target.get());
    if (!found.operation)
        refuse(core::said("error.no_way_to_crs", {{"from", from.definition}, {"to", to.definition}}));
    found.to_plane = is_plane_in_metres(context, plain(context, to).get());
    return found;
}

/// A search takes PROJ some 10 ms and a copy none, so that each way is searched for once.
std::pair<PjHandle, bool> operation_for(PJ_CONTEXT* context, const Crs& from, const Crs& to) {
    static std::mutex mutex;
    static std::map<std::pair<std::string, std::string>, Found> found;
    const std::scoped_lock lock(mutex);
    const auto key = std::pair(from.definition, to.definition);
    auto known = found.find(key);
    if (known == found.end()) known = found.emplace(key, find_operation(from, to)).first;
    return {PjHandle(proj_clone(context, known->second.operation.get())), known->second.to_plane};
}

}  // namespace

Transform::Transform(const Crs& from, const Crs& to)
    : handles_(std::make_unique<Handles>(Handles{offline_context(), {}})) {
    std::tie(handles_->operation, rounds_) = operation_for(handles_->context.get(), from, to);
}

Transform::Transform(const Transform& other)
    : handles_(std::make_unique<Handles>(other.handles_->copy())), rounds_(other.rounds_) {}

Transform::~Transform() = default;
Transform::Transform(Transform&&) noexcept = default;
Transform& Transform::operator=(Transform&&) noexcept = default;

void Transform::apply(std::span<core::PlanePoint> points, core::Threads threads) const {
    constexpr std::size_t piece = 16384;
    if (points.size() <= piece) return handles_->apply(points, rounds_);
    core::PlanePoint last = points.back();
    handles_->apply({&last, 1}, rounds_);  // so that operation() can tell
    core::parallel_for(points.size(), piece, threads, [&](std::size_t begin, std::size_t end) {
        handles_->copy().apply(points.subspan(begin, end - begin), rounds_);
    });
}

core::PlanePoint Transform::operator()(core::PlanePoint point) const {
    handles_->apply({&point, 1}, rounds_);
    return point;
}

std::string Transform::operation() const {
    const PjHandle used = handles_->used();
    return without_axis_swaps(used ? text_or_empty(proj_get_name(used.get())) : std::string());
}

std::optional<core::Metres> Transform::accuracy() const {
    const PjHandle used = handles_->used();
    if (!used) return std::nullopt;
    const double metres = proj_coordoperation_get_accuracy(handles_->context.get(), used.get());
    if (metres < 0.0) return std::nullopt;
    return core::Metres(metres);
}

}  // namespace roostward::geo
