#include "roostward/report/record_sheets.hpp"

#include <utility>

namespace roostward::report {

namespace {

const RecordColumn notes = {"notes", "Anything else; it is kept by you and not read."};

RecordSheet passes() {
    return {"passes",
            {{"date", "The date on which the evening began, as 2026-06-09."},
             {"time", "When it passed, as 21:46 or 21:46:30."},
             {"watch", "The name of the watch from which it was seen, as in the sheet of watches."},
             {"square", "Where it passed: the square on the printed map, as C4."},
             {"near_tree", "Or the tag of the tree that it passed."},
             {"distance_m", "Or how far from where you stood it passed, in metres."},
             {"direction", "With distance_m: in which direction from where you stood, as NNE or 20."},
             {"lon", "Or the longitude of the place, as -1.89761."},
             {"lat", "With lon: the latitude, as 52.29792."},
             {"bearing_deg", "Which way it flew, as NNE or 20."},
             {"count", "How many animals flew together; empty is one."},
             {"height_m", "How high it flew above the ground, in metres."},
             {"behaviour", "What it did: commuting, foraging, emerging, returning or social."},
             {"animal", "Which animal, if you know."},
             notes}};
}

RecordSheet watches() {
    return {"watches",
            {{"watch", "A name for the place and the person, different for each that evening."},
             {"date", "The date on which the evening began, as 2026-06-09."},
             {"start", "When watching began, as 21:10."},
             {"end", "When watching ended, as 22:50; past midnight is the next day."},
             {"lon", "The longitude of where you stood, as -1.89833."},
             {"lat", "The latitude of where you stood, as 52.29929."},
             {"farthest_seen_m", "How far away you could have seen one pass, in metres."},
             {"look_deg", "Which way you looked, as NNE or 20; empty is all round."},
             {"view_deg", "How wide you looked, in degrees; empty is all round."},
             {"observer", "Who watched: a name or letters."},
             {"seen_by", "How: eye, ear, night-vision, thermal or recorder."},
             {"temp_c", "How warm it was at the start, in degrees Celsius."},
             {"wind_ms", "How windy it was, in metres a second."},
             {"rain", "Whether it rained: yes or no."},
             notes}};
}

RecordSheet trees() {
    return {"trees",
            {{"tree", "The tag or number of the tree."},
             {"lon", "The longitude of its trunk, as -1.89833."},
             {"lat", "The latitude of its trunk, as 52.29929."},
             {"species", "Which tree it is."},
             {"dbh_cm", "How thick the trunk is at breast height, straight through, in centimetres."},
             {"height_m", "How high the tree is, in metres."},
             {"crown_radius_m", "How far the crown reaches from the trunk, in metres."},
             {"condition", "How it thrives: good, fair, poor or dead."},
             {"hazard", "What an arborist says of its failing: improbable, possible, probable or imminent."},
             {"inspected", "When the arborist looked, as 2026-03-01."},
             {"has_hollow", "Whether it has a hollow: yes or no."},
             {"protected", "Whether the law protects it: yes or no."},
             {"owner", "Whose tree it is."},
             {"permission", "What the owner says: asked, given or refused."},
             {"planned_work", "What is to be done to it, as felling or reduction."},
             {"work_due", "When that is due, as 2027-02-01."},
             notes}};
}

}  // namespace

std::vector<RecordSheet> record_sheets() {
    return {passes(), watches(), trees()};
}

geo::Table blank_table(const RecordSheet& sheet) {
    geo::Table table;
    for (const RecordColumn& column : sheet.columns)
        table.header.push_back(column.name);
    return table;
}

std::vector<geo::NamedTable> blank_workbook(const RecordSheet& sheet) {
    geo::Table how_to{{"How to fill in the sheet of " + sheet.name}, {}};
    for (const RecordColumn& column : sheet.columns)
        how_to.rows.push_back({column.name + ": " + column.meaning});
    return {{sheet.name, blank_table(sheet)}, {"how to", std::move(how_to)}};
}

}  // namespace roostward::report
