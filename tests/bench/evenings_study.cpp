// Where people stand: how much of the best possible choice in the whole park the five chosen trees get, over
// many parks, with the same teams, hours, sight and flights. Walking between posts and five minutes to settle
// are taken off the posts.
// Usage: evenings_study [--from PARK] [--as CONDITIONS] [--teams N] [--designs D,…] [PARKS] [EVENINGS …]
// By default the parks 1 to 200, as flat as can be; three teams; 1, 2, 3, 5 and 7 evenings.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "parks/model/evenings.hpp"
#include "parks/model/share.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;
using parks::Design;

struct Named {
    std::string_view code, name;
    Design design;
};
constexpr Design::By covering = Design::By::covering;
const std::array<Named, 10> designs{{{"p", "people's places, one long watch", {Design::By::people, {}}},
                                     {"1", "covering, one post", {covering, 1}},
                                     {"2", "covering, two posts", {covering, 2}},
                                     {"3", "covering, three posts", {covering, 3}},
                                     {"4", "covering, four posts", {covering, 4}},
                                     {"5", "covering, five posts", {covering, 5}},
                                     {"6", "covering, six posts", {covering, 6}},
                                     {"e", "evenings, planned at once", {covering, {}}},
                                     {"s", "evenings, one at a time", {Design::By::sequence, {}}},
                                     {"t", "three posts, one at a time", {Design::By::sequence, 3}}}};

struct Options {
    std::uint64_t from = 1;
    parks::Conditions conditions;
    std::size_t teams = 3;
    std::string designs = "p12346es";
    std::size_t parks = 200;
    std::vector<std::size_t> evenings{1, 2, 3, 5, 7};
};

parks::Conditions conditions_of(std::string_view name) {
    parks::Conditions c;
    c.by_eye = name.find("eye") != name.npos;
    if (c.by_eye) c.farthest = core::Metres(40.0);
    c.emergence_peak = name.find("peak") != name.npos;
    c.half_fall_out = name.find("out") != name.npos;
    c.on_paths = name.find("paths") != name.npos;
    c.canopy = name.find("canopy") != name.npos;
    return c;
}

Options options_of(std::vector<std::string_view> words) {
    Options options;
    const auto number = [](std::string_view word) { return std::strtoul(word.data(), nullptr, 10); };
    while (words.size() > 1 && words[0].starts_with("--")) {
        if (words[0] == "--from") options.from = number(words[1]);
        if (words[0] == "--as") options.conditions = conditions_of(words[1]);
        if (words[0] == "--teams") options.teams = number(words[1]);
        if (words[0] == "--designs") options.designs = words[1];
        words.erase(words.begin(), words.begin() + 2);
    }
    if (!words.empty()) options.parks = number(words[0]);
    if (words.size() > 1) options.evenings.clear();
    for (std::size_t i = 1; i < words.size(); ++i)
        options.evenings.push_back(number(words[i]));
    return options;
}

/// A park: of each design, after each number of evenings.
using Shares = std::vector<std::vector<double>>;

Shares shares_of(std::uint64_t seed, const Options& options) {
    const parks::ParkEvenings evenings(seed, options.evenings.back(), options.conditions);
    Shares all;
    for (const char code : options.designs)
        for (const Named& one : designs)
            if (one.code[0] == code)
                all.push_back(evenings.shares(one.design, options.teams, options.evenings));
    return all;
}

void print(const Options& options, const std::vector<Shares>& shares) {
    for (std::size_t n = 0; n < options.evenings.size(); ++n) {
        fmt::print("{} parks from {} on, {} evening{} of {} team{}\n", options.parks, options.from,
                   options.evenings[n], options.evenings[n] == 1 ? "" : "s", options.teams,
                   options.teams == 1 ? "" : "s");
        fmt::print("{:<36}   mean   95 %   tenth   less the first\n", "share of the best choice");
        std::size_t d = 0;
        for (const char code : options.designs)
            for (const Named& one : designs) {
                if (one.code[0] != code) continue;
                std::vector<double> values, gains;
                for (const Shares& park : shares) {
                    values.push_back(park[d][n]);
                    gains.push_back(park[d][n] - park[0][n]);
                }
                const parks::Estimate mean = parks::estimate_of(values), gain = parks::estimate_of(gains);
                std::ranges::sort(values);
                fmt::print("{:<36} {:>6.3f} ±{:.3f}  {:>6.3f} {:>8.3f} ±{:.3f}\n", one.name, mean.mean,
                           mean.half_width, values[values.size() / 10], gain.mean, gain.half_width);
                ++d;
            }
    }
}

}  // namespace

int main(int argc, char** argv) {
    const Options options = options_of({argv + 1, argv + argc});
    std::vector<Shares> shares(options.parks);
    core::parallel_for(options.parks, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            shares[i] = shares_of(options.from + i, options);
    });
    print(options, shares);
}
