#include "roostward/survey/survey.hpp"

#include <algorithm>

namespace roostward::survey {

std::string_view to_text(NotedIn layer) {
    switch (layer) {
        case NotedIn::passes:
            return "passes";
        case NotedIn::tracks:
            return "tracks";
        case NotedIn::tallies:
            return "tallies";
    }
    return {};
}

double laid_on_path(const Flight& flight) {
    if (flight.path.size() == 1) return flight.length.value();
    const double path = geo::length_of(flight.path).value();
    return path > 0.0 ? flight.length.value() / path : 0.0;
}

std::size_t Matched::set_aside(std::string_view layer, std::string_view file) const {
    return static_cast<std::size_t>(std::ranges::count_if(findings, [&](const core::Finding& finding) {
        return finding.severity == core::Severity::set_aside && finding.place.layer == layer &&
               (file.empty() || finding.place.file == file);
    }));
}

std::size_t Matched::apart(std::string_view layer, std::string_view file) const {
    std::size_t rows = 0;
    for (const core::Finding& finding : findings)
        if (finding.severity == core::Severity::apart && finding.place.layer == layer &&
            (file.empty() || finding.place.file == file))
            rows += finding.rows;
    return rows;
}

Survey part_of(const Survey& survey, std::span<const std::uint32_t> watches) {
    Survey part;
    part.evenings = survey.evenings;
    std::vector<std::optional<std::uint32_t>> number(survey.watches.size());
    for (const std::uint32_t w : watches) {
        number[w] = static_cast<std::uint32_t>(part.watches.size());
        part.watches.push_back(survey.watches[w]);
        part.watch_evening.push_back(survey.watch_evening[w]);
    }
    for (const Flight& flight : survey.flights) {
        if (!flight.watch || !number[*flight.watch]) continue;
        part.flights.push_back(flight);
        part.flights.back().watch = number[*flight.watch];
    }
    return part;
}

}  // namespace roostward::survey
