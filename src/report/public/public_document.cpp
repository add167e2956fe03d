#include "roostward/core/catalogue.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/public_plan.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// As roughly as on the page, for the copy tells no more than that.
core::Document rough(const std::optional<double>& flights) {
    return flights ? core::Document(rounded_figure(*flights, std::nullopt).value) : core::Document();
}

}  // namespace

core::Document public_document(const PublicPlan& plan, const RunFacts& facts) {
    core::List squares, cautions_list;
    for (const PublicSquare& square : plan.squares)
        squares.emplace_back(core::Object{{"east", square.south_west.easting},
                                          {"north", square.south_west.northing},
                                          {"flights_per_hour", rough(square.flights_an_hour)},
                                          {"boxes", square.boxes}});
    for (const Caution& caution : cautions())
        cautions_list.emplace_back(caution.text);
    core::List cannot_show(plan.cannot_show.begin(), plan.cannot_show.end());
    return core::Object{{"program", core::program_name},
                        {"format", core::plan_format},
                        {"number", plan.number},
                        {"version", facts.version},
                        {"made_at", core::to_text(facts.made_at)},
                        {"public", true},
                        {"site", plan.site_name},
                        {"animal", plan.animal},
                        {"not_checked", plan.nobody_checked},
                        {"rests_on", plan.caveat},
                        {"crs", plan.crs_name},
                        {"square_m", public_square.value()},
                        {"squares", std::move(squares)},
                        {"boxes", plan.boxes},
                        {"boxes_elsewhere", plan.boxes_elsewhere},
                        {"cannot_show", std::move(cannot_show)},
                        {"cautions", std::move(cautions_list)},
                        {"files", files_document(facts.folder)},
                        {"kept", kept_document(facts.folder)}};
}

std::string public_text(const PublicPlan& plan, const std::string& folder) {
    return wrapped(core::said("public.told", {{"site", plan.site_name},
                                              {"metres", public_square.value()},
                                              {"trees", least_public_trees},
                                              {"told", plan.boxes - plan.boxes_elsewhere},
                                              {"boxes", plan.boxes}})) +
           wrapped(core::said("public.written", {{"folder", folder}}));
}

}  // namespace roostward::report
