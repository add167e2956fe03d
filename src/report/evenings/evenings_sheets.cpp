#include <algorithm>
#include <map>
#include <string>

#include "evenings/evenings_parts.hpp"
#include "evenings/sketch_map.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

/// Rows to write passes into, for each post. People add more where more flew; common practice, no source.
constexpr std::size_t passes_a_post = 10;

/// Columns by name.
using Cells = std::map<std::string, std::string, std::less<>>;

/// A post and where it stands among the others.
struct Planned {
    const evenings::EveningToCome& evening;
    const evenings::Round& round;
    std::size_t number;

    [[nodiscard]] const evenings::Post& post() const { return round.posts[number]; }
};

template <class Use>
void for_each_post(const evenings::ToCome& to_come, const Use& use) {
    for (const evenings::EveningToCome& evening : to_come.evenings)
        for (const evenings::Round& round : evening.rounds)
            for (std::size_t i = 0; i < round.posts.size(); ++i)
                use(Planned{evening, round, i});
}

/// "2026-06-12 team 1 A", so that a note that names its watch needs no date.
std::string watch_name(const plan::EveningsPlan& plan, const Planned& planned) {
    return core::said("sheet.watch_name", {{"evening", core::to_text(planned.evening.evening)},
                                           {"team", plan.to_come.teams[planned.round.team].name},
                                           {"post", post_letter(planned.number)}});
}

/// What stands in both sheets.
Cells when_and_who(const plan::EveningsPlan& plan, const LocalText& local, const Planned& planned) {
    return {{"evening", core::to_text(planned.evening.evening)},
            {"watch", watch_name(plan, planned)},
            {"planned_start", to_the_minute(local, planned.post().start)},
            {"planned_end", to_the_minute(local, planned.post().end)}};
}

Cells watch_cells(const plan::EveningsPlan& plan, const LocalText& local, const Planned& planned) {
    Cells cells = when_and_who(plan, local, planned);
    PostInFigures figures = post_in_figures(plan, planned.post());
    cells["lon"] = std::move(figures.lon);
    cells["lat"] = std::move(figures.lat);
    cells["farthest_seen_m"] = std::move(figures.farthest_seen_m);
    cells["look_deg"] = std::move(figures.look_deg);
    cells["view_deg"] = std::move(figures.view_deg);
    cells["seen_by"] = plan.to_come.teams[planned.round.team].seen_by;
    return cells;
}

std::vector<std::string> row_of(const RecordSheet& sheet, const Cells& cells) {
    std::vector<std::string> row;
    for (const RecordColumn& column : sheet.columns) {
        const auto cell = cells.find(column.name);
        row.push_back(cell == cells.end() ? "" : cell->second);
    }
    return row;
}

PlannedSheet blank(const char* name) {
    PlannedSheet planned{planned_sheet(name), {}};
    planned.table = blank_table(planned.sheet);
    return planned;
}

}  // namespace

std::vector<PlannedSheet> planned_sheets(const plan::EveningsPlan& plan, const LocalText& local) {
    PlannedSheet watches = blank("watches"), passes = blank("passes");
    for_each_post(plan.to_come, [&](const Planned& planned) {
        watches.table.rows.push_back(row_of(watches.sheet, watch_cells(plan, local, planned)));
        passes.table.rows.insert(passes.table.rows.end(), passes_a_post,
                                 row_of(passes.sheet, when_and_who(plan, local, planned)));
    });
    return {std::move(watches), std::move(passes)};
}

}  // namespace roostward::report
