#pragma once

#include <functional>
#include <string>
#include <vector>

#include "roostward/core/clock_offset.hpp"
#include "roostward/core/document.hpp"
#include "roostward/geo/layer.hpp"
#include "roostward/plan/evenings_plan.hpp"
#include "roostward/report/chosen_gpx.hpp"
#include "roostward/report/plan_document.hpp"
#include "roostward/report/record_sheets.hpp"

/// What the command `evenings` writes beside its page. Times are floored to the minute, bearings are true and
/// coordinates WGS 84.
namespace roostward::report {

/// A moment by the clock on the wall: "2026-06-12T21:04:00+01:00".
using LocalText = std::function<std::string(core::Instant)>;

/// evenings.csv: a row a post, `start` and `end` local with their offset.
[[nodiscard]] geo::Table evenings_table(const plan::EveningsPlan& plan, const LocalText& local);

/// The clock on the wall at the site.
struct SiteZone {
    std::string name;  ///< IANA
    LocalText local;
    std::vector<core::ClockOffset>
        offsets;  ///< those in force until and from the first evening to the last, in order
};

/// evenings.ics, RFC 5545: an event an evening with time zone, place and alarm; spare evenings are tentative.
/// Each date of a site has the same UID on each run. `stamp` is when the file says that it was made.
[[nodiscard]] std::string evenings_ics(const plan::EveningsPlan& plan, const SiteZone& zone,
                                       core::Instant stamp);

/// What a file says it was made at where nothing else is told: the latest date in the inputs, else the first
/// evening's.
[[nodiscard]] core::Instant evenings_stamp(const plan::EveningsPlan& plan);

/// The places with a post, and on how many evenings somebody stands there. `plan` must outlive the layer.
[[nodiscard]] geo::Layer stations(const plan::EveningsPlan& plan);

/// GPX 1.1: a waypoint a place.
[[nodiscard]] std::string stations_gpx(const plan::EveningsPlan& plan, const GpxFacts& facts);

/// A sheet to fill in, with what is planned already in it.
struct PlannedSheet {
    RecordSheet sheet;
    geo::Table table;
};

/// Watches, a row a post, and passes, some blank rows a post. Read back untouched they say that nothing was
/// held yet.
[[nodiscard]] std::vector<PlannedSheet> planned_sheets(const plan::EveningsPlan& plan,
                                                       const LocalText& local);

/// evenings.json: what was asked, when the evenings are, and the share of trees watched long enough by each.
[[nodiscard]] core::Document evenings_document(const plan::EveningsPlan& plan, const RunFacts& facts);

/// What the terminal shows.
[[nodiscard]] std::string evenings_text(const plan::EveningsPlan& plan, const LocalText& local,
                                        const std::string& folder);

}  // namespace roostward::report
