#include "watching.hpp"

#include <cmath>
#include <utility>

namespace roostward::evenings {

Watching::Watching(std::span<const Spot> spots, Values values, std::size_t evenings)
    : values_(std::move(values)), hours_(spots.size()), left_(spots.size()), evenings_(evenings) {
    for (std::size_t s = 0; s < spots.size(); ++s)
        set_hours(s, spots[s].watched);
    for (Evening& evening : evenings_) {
        evening.held.resize(spots.size());
        evening.hours.assign(spots.size(), 0.0);
    }
}

void Watching::set_hours(std::size_t spot, double hours) {
    hours_[spot] = hours;
    left_[spot] =
        values_.weight[spot] * std::exp(-(hours - values_.known_after[spot]) / values_.enough.value());
}

double Watching::added(std::size_t evening, const Sighted& sighted, const Shift& shift) const {
    const double seen = shift.seen_at(sighted.away) * sighted.through;
    const auto& held = evenings_[evening].held[sighted.spot];
    return shift.hours() * seen * (held.empty() ? 1.0 : left_unseen(held, shift.start(), shift.end()));
}

double Watching::gain(std::size_t evening, std::span<const Sighted> view, const Shift& shift) const {
    double sum = 0.0;
    for (const Sighted& sighted : view)
        sum -= left_[sighted.spot] * std::expm1(-added(evening, sighted, shift) / values_.enough.value());
    return sum;
}

void Watching::add(std::size_t evening, std::span<const Sighted> view, const Shift& shift) {
    Evening& to = evenings_[evening];
    for (const Sighted& sighted : view) {
        const double more = added(evening, sighted, shift);
        set_hours(sighted.spot, hours_[sighted.spot] + more);
        to.hours[sighted.spot] += more;
        to.held[sighted.spot].push_back(
            {shift.start(), shift.end(), shift.seen_at(sighted.away) * sighted.through});
    }
}

void Watching::clear(std::size_t evening) {
    Evening& of = evenings_[evening];
    for (std::size_t s = 0; s < hours_.size(); ++s) {
        if (of.held[s].empty()) continue;
        set_hours(s, hours_[s] - of.hours[s]);
        of.hours[s] = 0.0;
        of.held[s].clear();
    }
}

double Watching::worth() const {
    double sum = 0.0;
    for (std::size_t s = 0; s < hours_.size(); ++s)
        sum += values_.weight[s] - left_[s];
    return sum;
}

void Watching::lend(std::size_t evening, std::span<const Sighted> view, const Shift& shift,
                    std::vector<Lent>& lent) {
    for (const Sighted& sighted : view) {
        lent.push_back({sighted.spot, hours_[sighted.spot]});
        set_hours(sighted.spot, hours_[sighted.spot] + added(evening, sighted, shift));
    }
}

void Watching::give_back(std::vector<Lent>& lent) {
    for (; !lent.empty(); lent.pop_back())
        set_hours(lent.back().spot, lent.back().hours);
}

}  // namespace roostward::evenings
