#include "recognise/recognise_lengths.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "recognise/recognise_words.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

/// How much speaks for inches: above 0 inches, below centimetres. The weights are judgement, no source:
/// street trees are 10 to 100 cm thick, so 4 to 40 in; people round centimetres to fives and inches to
/// threes.
struct Scales {
    double inches = 0.0;
    std::vector<std::pair<double, std::string>> reasons;
    void add(double weight, std::string reason) {
        inches += weight;
        reasons.emplace_back(weight, std::move(reason));
    }
};

void weigh_sizes(const ColumnSample& column, double around, Scales& scales) {
    const double high = column.quantile(0.98) / around, median = column.quantile(0.5) / around;
    if (high <= 48.0) scales.inches += 1.0;
    if (high > 60.0) scales.inches -= 3.0;
    if (median <= 16.0) scales.inches += 1.0;
    if (median > 22.0) scales.inches -= 1.5;
}

void weigh_rounding(const ColumnSample& column, Scales& scales) {
    const double whole = column.share_whole();
    const double fives = column.share_of_multiples(5), threes = column.share_of_multiples(3);
    if (fives >= 0.45) scales.add(-2.0, core::said("length.fives", {{"percent", 100.0 * fives}}));
    if (threes >= 0.6) scales.add(1.5, core::said("length.threes", {{"percent", 100.0 * threes}}));
    const auto quarters = std::ranges::count_if(
        column.numbers, [](double v) { return v != std::floor(v) && v * 4.0 == std::floor(v * 4.0); });
    const double broken = 1.0 - whole,
                 quarter = static_cast<double>(quarters) / static_cast<double>(column.numbers.size());
    if (broken > 0.05 && quarter >= 0.95 * broken) scales.add(1.0, core::said("length.quarters"));
    if (broken - quarter > 0.2) scales.add(-1.0, core::said("length.tenths"));
}

/// Trees are 20 to 70 times as high as they are thick, most of them.
void weigh_heights(const ColumnSample& column, double around, const std::vector<double>& heights_m,
                   Scales& scales) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < std::min(column.by_row.size(), heights_m.size()); ++i) {
        const double across = column.by_row[i] / around;
        if (across > 0.0 && heights_m[i] > 0.0) ratios.push_back(heights_m[i] / (0.01 * across));
    }
    if (ratios.size() < 10) return;
    std::ranges::sort(ratios);
    const double ratio = ratios[ratios.size() / 2];
    if (ratio > 75.0) scales.add(2.5, core::said("length.too_high", {{"ratio", ratio}}));
    if (ratio < 55.0) scales.add(-2.5, core::said("length.high", {{"ratio", ratio}}));
}

void weigh_custom(const LengthHints& hints, Scales& scales) {
    if (hints.custom == Custom::inches) scales.add(2.0, core::said("length.inches_common"));
    if (hints.custom == Custom::metric) scales.inches -= 1.5;
    if (hints.metric_word) scales.inches -= 2.0;
}

std::string evidence(const ColumnSample& column, const Scales& scales, const std::string& read_as) {
    std::string text = values_told(column), against;
    for (const auto& [weight, reason] : scales.reasons) {
        std::string& list = weight * scales.inches < 0.0 ? against : text;
        list = list.empty() ? reason : core::said("list.next", {{"list", list}, {"item", reason}});
    }
    text = core::said("length.no_unit", {{"evidence", text}, {"read_as", read_as}});
    return against.empty() ? text : core::said("length.against", {{"evidence", text}, {"reasons", against}});
}

std::string unit_in_words(const std::string& unit) {
    if (unit == "in") return core::said("unit.inches");
    if (unit == "ft") return core::said("unit.feet");
    return unit == "m" ? core::said("unit.metres") : unit;
}

/// Metres, millimetres and metres round, which sizes tell at once.
std::string unit_by_size(const ColumnSample& column, double around) {
    const double median = column.quantile(0.5) / around, high = column.quantile(0.98) / around;
    if (median >= 130.0) return "mm";
    if (high < 3.5 && median < 1.3) return "m";
    return {};
}

/// Of the tree in the middle, in centimetres.
double thickness_in(const ColumnSample& column, std::string_view unit, bool girth) {
    const double cm = 100.0 * metres_in_one(unit.empty() ? "cm" : unit) * column.quantile(0.5);
    return girth ? cm / std::numbers::pi : cm;
}

bool is_likely(double thickness_cm) {
    return thickness_cm >= 2.0 && thickness_cm <= 150.0;
}

/// Whether the column is of trunks measured round, where its name leaves that open.
bool thick_as_a_girth(const ColumnSample& column, std::string_view unit) {
    if (column.numbers.empty()) return false;
    const double in_cm = 100.0 * metres_in_one(unit.empty() ? "cm" : unit);
    const double median = in_cm * column.quantile(0.5);
    return median >= 60.0 && median < 400.0 && in_cm * column.quantile(0.98) >= 150.0;
}

}  // namespace

Custom custom_at(const std::optional<core::GeographicPoint>& place) {
    if (!place) return Custom::unknown;
    const double lon = place->longitude.value(), lat = place->latitude.value();
    const bool america = lon > -170.0 && lon < -52.0 && lat > 24.0 && lat < 72.0;
    const bool hawaii = lon > -161.0 && lon < -154.0 && lat > 18.0 && lat < 23.0;
    const bool mexico = lon > -118.0 && lon < -97.0 && lat < 25.8;
    return (america && !mexico) || hawaii ? Custom::inches : Custom::metric;
}

double metres_in_one(std::string_view unit) {
    return micrometres_in(unit).value_or(1e6) * 1e-6;
}

std::string values_told(const ColumnSample& column) {
    if (column.numbers.empty()) return core::said("values.no_numbers");
    const double whole = column.share_whole();
    return core::said(whole == 1.0 ? "values.all_whole" : "values.some_whole",
                      {{"least", column.quantile(0.0)},
                       {"most", column.highest()},
                       {"percent", 100.0 * whole},
                       {"median", column.quantile(0.5)}});
}

bool named_as_class(const ColumnSample& column) {
    return std::ranges::any_of(class_words(),
                               [&](const ListedWord& word) { return match(column.parts, word) > 0; });
}

LengthGuess trunk_guess(const ColumnSample& column, Around told, const LengthHints& hints,
                        const std::vector<double>& heights_m) {
    LengthGuess guess;
    guess.girth = told == Around::round || (told == Around::not_told && thick_as_a_girth(column, hints.unit));
    const std::string kind = core::said(guess.girth ? "length.girth" : "length.diameter");
    const bool units_in_cells = column.with_unit * 2 > column.filled;
    const double thick = thickness_in(column, hints.unit, guess.girth);
    const bool unit_told =
        units_in_cells || (!hints.unit.empty() && (column.numbers.empty() || is_likely(thick)));
    if (unit_told) {
        if (!units_in_cells) guess.unit = hints.unit;
        if (told == Around::not_told)
            guess.confirm = core::said("length.read_as", {{"values", values_told(column)}, {"kind", kind}});
        return guess;
    }
    Scales scales;
    if (!hints.unit.empty())
        scales.add(0.0, core::said("length.in_unit", {{"unit", hints.unit}, {"thick", thick}}));
    const double around = guess.girth ? std::numbers::pi : 1.0;
    guess.unit = unit_by_size(column, around);
    const bool by_size = !guess.unit.empty();
    if (!by_size) {
        weigh_sizes(column, around, scales);
        weigh_rounding(column, scales);
        weigh_heights(column, around, heights_m, scales);
        weigh_custom(hints, scales);
        guess.unit = scales.inches > 0.0 ? "in" : "cm";
    }
    std::string read_as = core::said("length.kind_in", {{"kind", kind}, {"unit", unit_in_words(guess.unit)}});
    if (!by_size && std::abs(scales.inches) <= 1.0)
        read_as =
            core::said(guess.unit == "in" ? "length.or_cm" : "length.or_inches", {{"read_as", read_as}});
    guess.confirm = evidence(column, scales, read_as);
    return guess;
}

std::optional<LengthGuess> height_guess(const ColumnSample& column, const LengthHints& hints) {
    const bool units_in_cells = column.with_unit * 2 > column.filled;
    const bool few = !column.many && column.values.size() <= 15 && column.share_whole() == 1.0;
    if (!units_in_cells && few && named_as_class(column)) return std::nullopt;
    if (units_in_cells) return LengthGuess{};
    const double median = column.quantile(0.5), high = column.quantile(0.98);
    if (!hints.unit.empty()) {
        LengthGuess told{std::string(hints.unit), false, {}};
        const double metres = metres_in_one(hints.unit) * median;
        if (!column.numbers.empty() && (metres < 1.0 || metres > 60.0))
            told.confirm =
                core::said("length.unlikely", {{"values", values_told(column)}, {"unit", told.unit}});
        return told;
    }
    LengthGuess guess{"m", false, {}};
    const bool american = hints.custom == Custom::inches && !hints.metric_word;
    if (median >= 200.0)
        guess.unit = "cm";
    else if (high > 60.0 || median > 30.0 || (american && median > 17.0))
        guess.unit = "ft";
    std::string read_as = unit_in_words(guess.unit);
    if (few && column.highest() <= 10.0 && column.values.size() > 1 && column.filled >= 50)
        read_as = core::said("length.maybe_classes", {{"read_as", read_as}});
    guess.confirm = evidence(column, {}, read_as);
    return guess;
}

}  // namespace roostward::io
