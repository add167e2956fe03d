#include "tree_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <concepts>
#include <span>
#include <unordered_map>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/document.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/words.hpp"
#include "roostward/siting/make_up.hpp"
#include "values.hpp"

namespace roostward::report {

namespace {

using core::Document;
using core::List;
using core::Object;

/// Ways in words are told of the first so many ranked trees and of those worth settling: the others have
/// coordinates.
constexpr std::size_t ways_told = 500;

/// A number with so many decimals at most; null where it is not known.
struct Rounded {
    std::optional<double> value;
    int decimals = 0;
};
Rounded rounded(double value, int decimals) {
    return {value, decimals};
}
template <class Quantity>
Rounded rounded(const std::optional<Quantity>& value, int decimals) {
    return {value ? std::optional(value->value()) : std::nullopt, decimals};
}

void append(std::string& json, const Document& value) {
    core::append_json(json, value);
}
template <std::integral Whole>
void append(std::string& json, Whole value) {
    json += fmt::format_int(value).c_str();
}
void append(std::string& json, const Rounded& rounded) {
    if (!rounded.value) {
        json += "null";
        return;
    }
    const double steps = std::pow(10.0, rounded.decimals);
    core::append_number(json, std::round(*rounded.value * steps) / steps);
}
template <class Value>
void append(std::string& json, const std::vector<Value>& values) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        json += i == 0 ? '[' : ',';
        append(json, values[i]);
    }
    json += values.empty() ? "[]" : "]";
}

/// Texts, each once, in the order in which they come.
class Texts {
 public:
    std::size_t place_of(const std::string& text) {
        const auto [entry, is_new] = places_.emplace(text, texts_.size());
        if (is_new) texts_.emplace_back(text);
        return entry->second;
    }
    [[nodiscard]] const List& all() const { return texts_; }

 private:
    std::unordered_map<std::string, std::size_t> places_;
    List texts_;
};

/// Sentences end in a full stop and a space, or with the text.
std::vector<std::size_t> in_sentences(const std::string& text, Texts& sentences) {
    std::vector<std::size_t> places;
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t stop = text.find(". ", start);
        const std::size_t end = stop == std::string::npos ? text.size() : stop + 1;
        places.push_back(sentences.place_of(text.substr(start, end - start)));
        start = std::min(end + 1, text.size());
    }
    return places;
}

/// Appends lists one after the other to an object.
class Columns {
 public:
    Columns(std::string& json, std::span<const std::size_t> trees) : json_(json), trees_(trees) {}

    /// `value` of each tree.
    template <class Value>
    void add(std::string_view key, const Value& value) {
        begin(key);
        for (std::size_t i = 0; i < trees_.size(); ++i) {
            json_ += i == 0 ? '[' : ',';
            append(json_, value(trees_[i]));
        }
        json_ += trees_.empty() ? "[]" : "]";
    }
    template <class Values>
    void add_as_it_is(std::string_view key, const Values& values) {
        begin(key);
        append(json_, values);
    }

 private:
    void begin(std::string_view key) {
        json_ += first_ ? "{\"" : ",\"";
        json_ += key;
        json_ += "\":";
        first_ = false;
    }

    std::string& json_;
    std::span<const std::size_t> trees_;
    bool first_ = true;
};

/// What reasons have in common: rule, state, whom to ask what. There are few.
class Kinds {
 public:
    std::size_t place_of(const trees::Reason& reason) {
        for (std::size_t i = 0; i < kinds_.size(); ++i)
            if (kinds_[i]->rule == reason.rule && kinds_[i]->state == reason.state &&
                kinds_[i]->who == reason.who && kinds_[i]->ask == reason.ask)
                return i;
        kinds_.push_back(&reason);
        return kinds_.size() - 1;
    }
    [[nodiscard]] List all() const {
        List list;
        for (const trees::Reason* kind : kinds_)
            list.emplace_back(List{core::shown("rule", kind->rule), static_cast<int>(kind->state),
                                   text(core::shown("who", kind->who)), text(kind->ask)});
        return list;
    }

 private:
    std::vector<const trees::Reason*> kinds_;
};

/// A reason's kind and its sentence, one after the other.
std::vector<std::size_t> reasons_of(const trees::Verdict& verdict, Kinds& kinds, Texts& sentences) {
    std::vector<std::size_t> places;
    for (const auto& reason : verdict.reasons) {
        places.push_back(kinds.place_of(reason));
        places.push_back(sentences.place_of(reason.sentence));
    }
    return places;
}

void append_trees(std::string& json, const Page& page, core::PlanePoint origin, Texts& sentences) {
    const plan::Plan& plan = page.plan;
    const auto tree = [&plan](std::size_t i) -> const trees::Tree& { return plan.trees.rows[i]; };
    const auto of = [&plan](std::size_t i) -> const siting::Candidate& { return plan.candidates[i]; };
    Texts species;
    Kinds kinds;
    Columns columns(json, page.shown.trees());
    columns.add("tree", [&](std::size_t i) { return tree(i).id; });
    columns.add("x",
                [&](std::size_t i) { return std::llround(10.0 * (tree(i).stem.easting - origin.easting)); });
    columns.add(
        "y", [&](std::size_t i) { return std::llround(10.0 * (tree(i).stem.northing - origin.northing)); });
    columns.add("state", [&](std::size_t i) { return static_cast<int>(of(i).verdict.state); });
    columns.add("species", [&](std::size_t i) { return species.place_of(tree(i).species); });
    columns.add("dbh", [&](std::size_t i) { return rounded(tree(i).dbh, 0); });
    columns.add("height", [&](std::size_t i) { return rounded(tree(i).height, 1); });
    const auto flights = [&](std::size_t i) {
        return of(i).activity.watched ? std::optional(flights_figure(of(i).flights)) : std::nullopt;
    };
    columns.add("flights", [&](std::size_t i) {
        const auto figure = flights(i);
        return figure ? Document(figure->under_step ? -figure->step : figure->value) : Document();
    });
    columns.add("low", [&](std::size_t i) {
        const auto figure = flights(i);
        return figure && figure->range ? Document(figure->range->low) : Document();
    });
    columns.add("high", [&](std::size_t i) {
        const auto figure = flights(i);
        return figure && figure->range ? Document(figure->range->high) : Document();
    });
    columns.add("health", [&](std::size_t i) { return sentences.place_of(health(tree(i))); });
    columns.add("condition", [&](std::size_t i) {
        const auto& condition = tree(i).condition;
        return sentences.place_of(condition ? core::shown("condition", trees::to_text(*condition)) : "");
    });
    columns.add("hours", [&](std::size_t i) { return rounded(of(i).activity.watch_hours.value(), 1); });
    columns.add("used", [&](std::size_t i) { return of(i).activity.evenings_used; });
    columns.add("watched", [&](std::size_t i) { return of(i).activity.evenings_watched; });
    columns.add("reasons", [&](std::size_t i) { return reasons_of(of(i).verdict, kinds, sentences); });
    columns.add_as_it_is("species_names", Document(species.all()));
    columns.add_as_it_is("kinds", Document(kinds.all()));
    json += '}';
}

std::vector<siting::ScorePart> parts_of(const plan::Plan& plan, std::size_t tree) {
    return siting::make_up(plan.candidates[tree], plan.trees.rows[tree], plan.reference_density,
                           plan.settings);
}

/// Animals may live there already: nobody plans a box before a licensed bat person has looked.
bool may_hold_animals(const siting::Candidate& candidate) {
    return std::ranges::any_of(candidate.verdict.reasons, [](const trees::Reason& reason) {
        return reason.rule == "own hollow" || reason.rule == "roost near";
    });
}

/// Of 100, in steps that its range allows, never finer than whole ones.
Rounded contribution(const siting::ScorePart& part) {
    const double width = part.range ? 100.0 * (part.range->high - part.range->low) : 0.0;
    const double step = width > 0.0 ? std::max(1.0, round_step(0.25 * width)) : 1.0;
    return rounded(step * std::round(100.0 * part.contribution / step), 0);
}

/// What makes up a tree's score, in the order of `part_names`.
std::vector<Rounded> contributions(const plan::Plan& plan, std::size_t tree) {
    std::vector<Rounded> contributions;
    for (const auto& part : parts_of(plan, tree))
        contributions.push_back(contribution(part));
    return contributions;
}

/// Trees without fitness lack the last ones.
Document part_names(const plan::Plan& plan, std::span<const std::size_t> trees) {
    List names;
    for (const std::size_t tree : trees) {
        const auto parts = parts_of(plan, tree);
        for (std::size_t i = names.size(); i < parts.size(); ++i)
            names.emplace_back(parts[i].measure);
    }
    return names;
}

/// Of trees that may hold a box.
void append_measures(std::string& json, const Page& page, Texts& sentences) {
    const plan::Plan& plan = page.plan;
    const auto of = [&plan](std::size_t i) -> const siting::Candidate& { return plan.candidates[i]; };
    std::vector<std::size_t> trees, places;
    for (std::size_t place = 0; place < page.shown.trees().size(); ++place)
        if (const std::size_t tree = page.shown.trees()[place]; of(tree).may_hold_a_box()) {
            trees.push_back(tree);
            places.push_back(place);
        }
    Columns columns(json, trees);
    columns.add_as_it_is("of", places);
    columns.add("rank", [&](std::size_t i) {
        return of(i).rank ? Document(of(i).rank) : Document(of(i).would_rank);
    });
    columns.add("group", [&, groups = shared_groups(plan)](std::size_t i) {
        return of(i).group ? text(groups[*of(i).group - 1]) : Document();
    });
    columns.add("site", [&](std::size_t i) { return of(i).site; });
    columns.add("near", [&](std::size_t i) {
        const auto near = of(i).rank && !of(i).site ? too_near(plan, i) : std::nullopt;
        return near ? Document(List{*of(near->site).site, std::round(near->away.value())}) : Document();
    });
    columns.add("score",
                [&](std::size_t i) { return Document(score_figure(of(i).score, of(i).score_range).value); });
    columns.add("parts", [&](std::size_t i) { return contributions(plan, i); });
    columns.add_as_it_is("part_names", part_names(plan, trees));
    columns.add("stays", [&](std::size_t i) { return rounded(of(i).stays_chosen, 3); });
    columns.add("again", [&](std::size_t i) {
        return sentences.place_of(short_share_of_redraws(plan.certainty, of(i).stays_chosen));
    });
    columns.add("enough", [&](std::size_t i) { return of(i).enough_evidence ? 1 : 0; });
    columns.add("facings", [&](std::size_t i) {
        std::vector<Rounded> facings;
        if (of(i).facings && !may_hold_animals(of(i)))
            for (const core::Degrees facing : of(i).facings->boxes)
                facings.push_back(rounded(whole_degrees(facing), 0));
        return facings;
    });
    columns.add("line", [&](std::size_t i) {
        const auto& line = of(i).flight_line;
        return line ? Document(plan.flight_lines[line->line].id) : Document();
    });
    columns.add("line_offset", [&](std::size_t i) {
        const auto& line = of(i).flight_line;
        return line ? rounded(line->offset.value(), 0) : Rounded{};
    });
    columns.add("clear", [&](std::size_t i) {
        const auto& clear = of(i).approach_clear;
        return clear ? rounded(std::floor(clear->value()), 0) : Rounded{};
    });
    columns.add("drop", [&](std::size_t i) { return rounded(of(i).drop_clear, 1); });
    columns.add("sun_warm", [&](std::size_t i) {
        return of(i).sun ? rounded(of(i).sun->summer_half.value(), 1) : Rounded{};
    });
    columns.add("sun_cold", [&](std::size_t i) {
        return of(i).sun ? rounded(of(i).sun->winter_half.value(), 1) : Rounded{};
    });
    columns.add("lux",
                [&](std::size_t i) { return rounded(of(i).verdict.light.value_or(trees::Light{}).lux, 2); });
    columns.add("lamp",
                [&](std::size_t i) { return rounded(of(i).verdict.light.value_or(trees::Light{}).lamp, 0); });
    columns.add("water", [&](std::size_t i) { return rounded(of(i).water_distance, 0); });
    columns.add("road", [&](std::size_t i) { return rounded(of(i).road_distance, 0); });
    columns.add("why", [&](std::size_t i) {
        return in_sentences(of(i).can_be_chosen() ? why(plan, i) : evidence_lacking(plan, i), sentences);
    });
    columns.add("way", [&](std::size_t i) {
        const auto& rank = of(i).rank ? of(i).rank : of(i).would_rank;
        return rank && *rank <= ways_told ? Document(page.ways.to(i)) : Document();
    });
    json += '}';
}

}  // namespace

void append_tree_columns(std::string& json, const Page& page, core::PlanePoint origin) {
    Texts sentences;
    json += "{\"all\":";
    append_trees(json, page, origin, sentences);
    json += ",\"may\":";
    append_measures(json, page, sentences);
    json += ",\"sentences\":";
    core::append_json(json, sentences.all());
    json += '}';
}

}  // namespace roostward::report
