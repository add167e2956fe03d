#include "wording.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::trees {

std::string_view to_text(State state) {
    switch (state) {
        case State::can_be_chosen:
            return "can be chosen";
        case State::settle_first:
            return "settle first";
        case State::not_watched:
            return "not watched";
        case State::ruled_out:
            return "ruled out";
    }
    return {};
}

std::string_view to_text(Condition condition) {
    switch (condition) {
        case Condition::good:
            return "good";
        case Condition::fair:
            return "fair";
        case Condition::poor:
            return "poor";
        case Condition::dead:
            return "dead";
    }
    return {};
}

std::string_view to_text(BoxStatus status) {
    switch (status) {
        case BoxStatus::up:
            return "up";
        case BoxStatus::not_hung:
            return "not hung yet";
        case BoxStatus::fallen:
            return "fallen";
        case BoxStatus::moved:
            return "moved";
        case BoxStatus::removed:
            return "removed";
        case BoxStatus::tree_felled:
            return "tree felled";
    }
    return {};
}

Reason ruled_out(std::string_view rule, Grounds grounds, std::string sentence) {
    return {std::string(rule),           State::ruled_out,    {}, std::move(grounds.measured),
            std::move(grounds.required), std::move(sentence), {}};
}

Reason to_settle(std::string_view rule, std::string_view by, Grounds grounds, std::string sentence,
                 std::string ask) {
    return {std::string(rule),           State::settle_first, std::string(by), std::move(grounds.measured),
            std::move(grounds.required), std::move(sentence), std::move(ask)};
}

double rounded(double value, int decimals) {
    return std::strtod(fmt::format("{:.{}f}", value, decimals).c_str(), nullptr) + 0.0;  // no -0
}

double rounded(core::Metres value) {
    return rounded(value.value(), 1);
}
double rounded(core::Centimetres value) {
    return rounded(value.value(), 2);
}

std::string in_years(double years) {
    return core::said(years == 1.0 ? "years.one" : "years.many", {{"years", rounded(years, 1)}});
}

std::string capitalised(std::string_view text) {
    std::string copy(text);
    if (!copy.empty() && copy[0] >= 'a' && copy[0] <= 'z') copy[0] = static_cast<char>(copy[0] - 'a' + 'A');
    return copy;
}

core::Metres as_measured(core::Metres distance) {
    return core::Metres(std::round(distance.value() * 1e4) / 1e4);
}

}  // namespace roostward::trees
