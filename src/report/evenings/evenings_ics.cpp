#include <fmt/format.h>

#include "evenings/evenings_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/evenings_files.hpp"

namespace roostward::report {

namespace {

/// Lines are folded at so many bytes (RFC 5545, 3.1).
constexpr std::size_t most_bytes = 75;

std::string without_marks(std::string_view iso) {
    std::string text;
    for (const char c : iso)
        if (c != '-' && c != ':') text += c;
    return text;
}

/// "20260612T203000Z"
std::string utc(core::Instant instant) {
    return without_marks(core::to_text(std::chrono::floor<std::chrono::seconds>(instant)));
}

/// TEXT of RFC 5545, 3.3.11.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\' || c == ';' || c == ',') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (static_cast<unsigned char>(c) >= 0x20)
            out += c;
    }
    return out;
}

/// A content line, folded between characters, ending in CRLF.
std::string line(std::string_view name, std::string_view value) {
    const std::string whole = fmt::format("{}:{}", name, value);
    std::string out;
    std::size_t in_line = 0;
    for (std::size_t i = 0; i < whole.size();) {
        std::size_t bytes = 1;
        while (i + bytes < whole.size() && (static_cast<unsigned char>(whole[i + bytes]) & 0xC0U) == 0x80U)
            ++bytes;
        if (in_line + bytes > most_bytes) {
            out += "\r\n ";
            in_line = 1;
        }
        out.append(whole, i, bytes);
        in_line += bytes;
        i += bytes;
    }
    return out + "\r\n";
}

/// Letters and digits of ASCII, the rest as its bytes: the same for the same site.
std::string slug_of(const std::string& name) {
    std::string slug;
    for (const char c : name)
        slug += (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')
                    ? std::string(1, c)
                    : fmt::format("{:02x}", static_cast<unsigned char>(c));
    return slug;
}

struct Event {
    core::Evening evening;
    core::Instant begin, end;
    bool spare = false;
};

/// "20260612T213000" for "2026-06-12T21:30:00+01:00".
std::string on_the_wall(const LocalText& local, core::Instant instant) {
    return without_marks(std::string_view(to_the_minute(local, instant)).substr(0, 19));
}

/// "+0100"; "-004430" where there are seconds.
std::string offset_text(std::chrono::seconds ahead) {
    const std::chrono::hh_mm_ss size(std::chrono::abs(ahead));
    const auto seconds = size.seconds().count();
    return fmt::format("{}{:02}{:02}{}", ahead.count() < 0 ? '-' : '+', size.hours().count(),
                       size.minutes().count(), seconds == 0 ? "" : fmt::format("{:02}", seconds));
}

/// Of the clock until then, as RFC 5545, 3.6.5, wants the onset of an offset.
std::string onset(const core::ClockOffset& offset) {
    const std::string wall =
        core::to_text(core::Instant(std::chrono::floor<std::chrono::seconds>(offset.from) + offset.before));
    return without_marks(std::string_view(wall).substr(0, 19));
}

std::string zone_text(const SiteZone& zone) {
    std::string text = line("BEGIN", "VTIMEZONE") + line("TZID", zone.name);
    for (const core::ClockOffset& offset : zone.offsets) {
        const char* const kind = offset.daylight_saving ? "DAYLIGHT" : "STANDARD";
        text += line("BEGIN", kind) + line("DTSTART", onset(offset)) +
                line("TZOFFSETFROM", offset_text(offset.before)) +
                line("TZOFFSETTO", offset_text(offset.after)) + line("TZNAME", escaped(offset.name)) +
                line("END", kind);
    }
    return text + line("END", "VTIMEZONE");
}

std::string event_text(const plan::EveningsPlan& plan, const SiteZone& zone, const Event& event,
                       core::Instant stamp) {
    const std::string& site = plan.settings.site_name;
    const std::string summary = core::said(event.spare ? "ics.spare" : "ics.evening", {{"site", site}});
    const std::string about =
        core::said("card.go", {{"rule", go_rule(plan)}}) + " " + core::said("evenings.night");
    return line("BEGIN", "VEVENT") +
           line("UID", fmt::format("{}-{}@roostward.invalid", core::to_text(event.evening), slug_of(site))) +
           line("DTSTAMP", utc(stamp)) +
           line("DTSTART;TZID=" + zone.name, on_the_wall(zone.local, event.begin)) +
           line("DTEND;TZID=" + zone.name, on_the_wall(zone.local, event.end)) +
           line("SUMMARY", escaped(summary)) + line("DESCRIPTION", escaped(about)) +
           line("LOCATION", escaped(site)) +
           line("GEO",
                fmt::format("{:.5f};{:.5f}", plan.middle.latitude.value(), plan.middle.longitude.value())) +
           line("STATUS", event.spare ? "TENTATIVE" : "CONFIRMED") + line("BEGIN", "VALARM") +
           line("ACTION", "DISPLAY") + line("TRIGGER", "-PT2H") + line("DESCRIPTION", escaped(summary)) +
           line("END", "VALARM") + line("END", "VEVENT");
}

}  // namespace

std::string evenings_ics(const plan::EveningsPlan& plan, const SiteZone& zone, core::Instant stamp) {
    std::string text = line("BEGIN", "VCALENDAR") + line("VERSION", "2.0") +
                       line("PRODID", "-//Roostward//evenings to come//EN") + zone_text(zone);
    for (const auto& evening : plan.to_come.evenings)
        text += event_text(plan, zone, {evening.evening, evening.begin, evening.end, false}, stamp);
    for (const auto& spare : plan.to_come.spare)
        text += event_text(plan, zone, {spare.evening, spare.begin, spare.end, true}, stamp);
    return text + line("END", "VCALENDAR");
}

}  // namespace roostward::report
