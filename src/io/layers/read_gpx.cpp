#include <gdal.h>
#include <ogr_api.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "files/gdal_reading.hpp"
#include "layers/layers.hpp"
#include "roostward/core/catalogue.hpp"
#include "words/bounds.hpp"

namespace roostward::io {

namespace {

using core::Instant;
using survey::Track;
using survey::Watch;

struct TimedPoint {
    core::PlanePoint place;
    std::optional<Instant> time;
};

/// One unbroken piece of a track. `number` counts the segments of the file from 1, empty ones included.
struct Segment {
    std::size_t number = 0;
    std::string name;
    std::vector<TimedPoint> points;
};

/// A usable segment: its points from the first with a time to the last.
struct Walk {
    geo::Line path;
    Instant start;
    Instant end;
    [[nodiscard]] double hours() const { return core::hours_between(start, end).value(); }
};

std::optional<Instant> time_of(OGRFeatureH feature, int field) {
    if (!OGR_F_IsFieldSetAndNotNull(feature, field)) return std::nullopt;
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
    float second = 0.0F;
    OGR_F_GetFieldAsDateTimeEx(feature, field, &year, &month, &day, &hour, &minute, &second, &zone);
    const core::Date date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                          std::chrono::day(static_cast<unsigned>(day))};
    // OGR takes over what it does not understand, as "20:30:-inf".
    const bool on_a_clock = hour < 24 && minute < 60 && second >= 0.0F && second < 61.0F;
    if (!date.ok() || !on_a_clock) return std::nullopt;
    // GPX 1.1 says that times are UTC; OGR gives other offsets in quarters of an hour from 100.
    const int offset = zone > 1 ? (zone - 100) * 15 : 0;
    return std::chrono::sys_days(date) + std::chrono::hours(hour) + std::chrono::minutes(minute - offset) +
           std::chrono::milliseconds(std::llround(static_cast<double>(second) * 1000.0));
}

/// The segments of every track, still without points: the layer of tracks knows the empty ones too.
std::vector<std::vector<Segment>> empty_segments(OGRLayerH tracks) {
    std::vector<std::vector<Segment>> of_track;
    std::size_t number = 0;
    while (const OwnedFeature feature{OGR_L_GetNextFeature(tracks)}) {
        const auto track = static_cast<OGRFeatureH>(feature.get());
        OGRGeometryH geometry = OGR_F_GetGeometryRef(track);
        const int count = geometry == nullptr ? 0 : OGR_G_GetGeometryCount(geometry);
        const std::string name = OGR_F_GetFieldAsString(track, OGR_F_GetFieldIndex(track, "name"));
        std::vector<Segment>& segments = of_track.emplace_back();
        for (int i = 0; i < count; ++i) {
            ++number;
            const std::string whole = name.empty() ? core::said("name.row", {{"row", number}}) : name;
            const bool in_parts = count > 1 && !name.empty();
            segments.push_back(
                {number, in_parts ? core::said("name.part", {{"name", name}, {"part", i + 1}}) : whole, {}});
        }
    }
    return of_track;
}

std::vector<Segment> segments_of(const InputSource& source) {
    const OpenDataset dataset = open_dataset(source, DatasetKind::vector);
    const Complaints complaints;
    OGRLayerH tracks = GDALDatasetGetLayerByName(dataset.get(), "tracks");
    OGRLayerH points = GDALDatasetGetLayerByName(dataset.get(), "track_points");
    if (tracks == nullptr || points == nullptr) cannot_use(source, core::said("error.no_gpx_tracks"));
    std::vector<std::vector<Segment>> of_track = empty_segments(tracks);
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(points);
    const int track_field = OGR_FD_GetFieldIndex(definition, "track_fid");
    const int segment_field = OGR_FD_GetFieldIndex(definition, "track_seg_id");
    const int time_field = OGR_FD_GetFieldIndex(definition, "time");
    while (const OwnedFeature feature{OGR_L_GetNextFeature(points)}) {
        const auto point = static_cast<OGRFeatureH>(feature.get());
        OGRGeometryH place = OGR_F_GetGeometryRef(point);
        const auto track = static_cast<std::size_t>(OGR_F_GetFieldAsInteger(point, track_field));
        const auto segment = static_cast<std::size_t>(OGR_F_GetFieldAsInteger(point, segment_field));
        if (track >= of_track.size() || segment >= of_track[track].size())
            cannot_use(source, core::said("error.gpx_track_in_track"));
        of_track[track][segment].points.push_back(
            {{OGR_G_GetX(place, 0), OGR_G_GetY(place, 0)}, time_of(point, time_field)});
    }
    if (!complaints.first().empty())
        cannot_use(source, core::said("error.gpx_stopped", {{"what", complaints.first()}}));
    std::vector<Segment> all;
    for (std::vector<Segment>& segments : of_track)
        std::move(segments.begin(), segments.end(), std::back_inserter(all));
    return all;
}

bool clock_was_set(Instant time) {
    const core::Date date(std::chrono::floor<std::chrono::days>(time));
    return date.year() >= std::chrono::year(1990) && date.year() <= std::chrono::year(2037);
}

/// Sets aside what is no walk in time.
std::optional<Walk> walk_of(const Segment& segment, LayerReport& report) {
    const auto& points = segment.points;
    if (points.empty()) {
        report.set_apart("geometry", "segment without a path", core::said("value.no_points"),
                         core::said("finding.empty_segment"));
        return std::nullopt;
    }
    if (points.size() < 2) {
        report.set_aside("geometry", "segment without a path", core::said("value.one_point"),
                         core::said("finding.short_segment"));
        return std::nullopt;
    }
    const auto timed = [](const TimedPoint& p) { return p.time.has_value(); };
    const auto first = std::find_if(points.begin(), points.end(), timed);
    const auto last = std::find_if(points.rbegin(), points.rend(), timed).base();
    if (first == points.end() || last - first < 2) {
        report.set_aside("time", "segment without times", "", core::said("finding.segment_without_times"));
        return std::nullopt;
    }
    if (!std::all_of(first, last, [](const TimedPoint& p) { return !p.time || clock_was_set(*p.time); })) {
        report.set_aside("time", "clock not set", core::to_text(*first->time),
                         core::said("finding.device_clock_not_set"));
        return std::nullopt;
    }
    Walk walk{{}, *first->time, *(last - 1)->time};
    std::transform(first, last, std::back_inserter(walk.path), [](const TimedPoint& p) { return p.place; });
    const auto without =
        static_cast<std::size_t>(std::count_if(points.begin(), points.end(), std::not_fn(timed)));
    if (without > 0) {
        report.doubt("time", "points without time", fmt::format("{}", without),
                     core::said("finding.points_without_time"));
    }
    return walk;
}

double length_on_ground(const geo::Line& path) {
    double metres = 0.0;
    for (std::size_t i = 1; i < path.size(); ++i) {
        metres += geo::geodesic_distance(geo::on_globe(path[i - 1]), geo::on_globe(path[i])).value();
    }
    return metres;
}

void judge_hours(double hours, LayerReport& report) {
    const std::string value = core::said("value.hours", {{"hours", hours}});
    if (hours < 0.0)
        report.set_aside("time", "ends before it starts", value, core::said("finding.points_out_of_order"));
    if (hours == 0.0)
        report.set_aside("time", "watch of no length", value, core::said("finding.all_at_one_time"));
    if (hours > bounds::watch_hours)
        report.set_aside("time", "watch of over 12 hours", value, core::said("finding.track_too_long"));
}

void begin_gpx(const InputSource& source, LayerFacts& facts) {
    begin_file(source, facts);
    facts.present().crs = geo::wgs84();  // GPX 1.1: latitude and longitude, WGS 84
    facts.present().file.crs = geo::wgs84().definition;
}

}  // namespace

bool is_gpx_of_tracks(const InputSource& source) {
    return extension_of(source) == "gpx" &&
           (source.layer.empty() || source.layer == "tracks" || source.layer == "track_points");
}

void read_gpx_watches(const InputSource& source, const SiteClock& clock, UnplacedWatches& watches) {
    begin_gpx(source, watches.facts);
    LayerReport& report = watches.facts.report;
    for (const Segment& segment : segments_of(source)) {
        report.begin_row(segment.number);
        const std::optional<Walk> walk = walk_of(segment, report);
        if (walk) judge_hours(walk->hours(), report);
        if (!report.usable()) continue;
        report.doubt("farthest_seen_m", "how far was not told", "",
                     core::said("finding.range_of_gpx", {{"metres", 2.0 * range_by_eye.value()}}));
        Watch watch;
        watch.row = report.row();
        watch.name = segment.name;
        watch.path = walk->path;
        watch.start = walk->start;
        watch.end = walk->end;
        watch.evening = clock.evening_of(walk->start, std::chrono::minutes(0));
        watch.range = range_by_eye;
        watches.rows.push_back(std::move(watch));
    }
}

void read_gpx_tracks(const InputSource& source, const SiteClock& clock, UnplacedLayer<Track>& tracks) {
    begin_gpx(source, tracks.facts);
    LayerReport& report = tracks.facts.report;
    for (const Segment& segment : segments_of(source)) {
        report.begin_row(segment.number);
        const std::optional<Walk> walk = walk_of(segment, report);
        if (!walk) continue;
        const double speed = length_on_ground(walk->path) / (walk->hours() * 3600.0);
        if (walk->hours() > bounds::walking_hours && speed < bounds::walking) {
            report.set_aside("geometry", "a person walking", core::said("value.speed", {{"speed", speed}}),
                             core::said("finding.person_walking"));
            continue;
        }
        if (speed > bounds::fastest_flight) {
            report.set_aside("geometry", "impossible speed", core::said("value.speed", {{"speed", speed}}),
                             core::said("finding.impossible_speed", {{"most", bounds::fastest_flight}}));
            continue;
        }
        Track track;
        track.row = report.row();
        track.path = walk->path;
        track.time = walk->start;
        track.evening = clock.evening_of(walk->start, std::chrono::minutes(0));
        tracks.rows.push_back(std::move(track));
    }
}

}  // namespace roostward::io
