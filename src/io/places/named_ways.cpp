#include "places/named_ways.hpp"

#include <algorithm>
#include <map>
#include <string>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "places/record_contents.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/content_order.hpp"
#include "roostward/geo/edges.hpp"

namespace roostward::io {

namespace {

using survey::Pass;
using survey::Route;

/// Up to here (inclusive) the way to the nearest point says nothing: common practice, no source.
constexpr core::Metres on_it{10.0};

core::PlanePoint nearest_on(const geo::Line& line, core::PlanePoint from) {
    core::PlanePoint nearest = line.front();
    for (std::size_t i = 1; i < line.size(); ++i) {
        const core::PlanePoint there = geo::closest_on(line[i - 1], line[i], from);
        if (core::squared_distance(from, there) < core::squared_distance(from, nearest)) nearest = there;
    }
    return nearest;
}

/// "The Creek" as "Creek", which is how notes are read.
std::string without_article(const std::string& name) {
    const std::optional<NamedWay> way = read_named_way("to " + name);
    return way ? way->name : name;
}

class Routes {
 public:
    explicit Routes(const std::optional<UnplacedLayer<Route>>& layer) {
        if (!layer) return;
        for (const Route& route : layer->rows) {
            by_name_.emplace(bare_word(without_article(route.name)), &route);
            names_.push_back(route.name);
        }
    }

    [[nodiscard]] const Route* called(const std::string& name) const {
        const auto found = by_name_.find(bare_word(name));
        return found == by_name_.end() ? nullptr : found->second;
    }
    [[nodiscard]] std::string why_unknown() const {
        if (names_.empty()) return core::said("finding.no_such_route");
        return core::said("finding.routes_called", {{"names", fmt::format("{}", fmt::join(names_, ", "))}});
    }

 private:
    std::map<std::string, const Route*> by_name_;
    std::vector<std::string> names_;
};

}  // namespace

void take_named_ways(UnplacedInputs& in) {
    if (!in.passes || in.passes->ways.empty()) return;
    const Routes routes(in.routes);
    std::map<core::RowRef, Pass*> passes;
    for (Pass& pass : in.passes->rows)
        passes.emplace(pass.row, &pass);
    LayerReport& report = in.passes->facts.report;
    for (const PassWay& told : in.passes->ways) {
        const auto found = passes.find(told.row);
        if (found == passes.end()) continue;
        Pass* const pass = found->second;
        const Route* route = routes.called(told.way.name);
        if (route == nullptr) {
            report.doubt_row(told.row, "bearing_deg", "unknown bearing", told.written, routes.why_unknown());
            continue;
        }
        const core::PlanePoint there = nearest_on(route->line, pass->position);
        if (core::distance(pass->position, there) <= on_it) {
            report.doubt_row(told.row, "bearing_deg", "on the route itself", told.written,
                             core::said("finding.on_the_route"));
            continue;
        }
        pass->bearing = told.way.from ? core::grid_bearing(there, pass->position)
                                      : core::grid_bearing(pass->position, there);
    }
    core::put_in_order(in.passes->rows);
}

}  // namespace roostward::io
