#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "roostward/core/units.hpp"
#include "shift.hpp"
#include "spots.hpp"

namespace roostward::evenings {

/// What watching the spots is worth: v(1 − e^(−E/e₀)) each, with diminishing returns, so that greedy rounds
/// come near to the best (Nemhauser, Wolsey & Fisher 1978, Mathematical Programming 14).
struct Values {
    std::vector<double> weight;       ///< v, one a spot
    std::vector<double> known_after;  ///< hours so far that v has heeded already
    core::Hours enough;               ///< e₀
};

/// Effective hours of the spots, so far and on evenings to come. Two who watch at the same time see a pass
/// together, not twice.
class Watching {
 public:
    Watching(std::span<const Spot> spots, Values values, std::size_t evenings);

    /// What a post would add.
    [[nodiscard]] double gain(std::size_t evening, std::span<const Sighted> view, const Shift& shift) const;
    void add(std::size_t evening, std::span<const Sighted> view, const Shift& shift);
    /// As if nobody went out on that evening.
    void clear(std::size_t evening);
    /// Of all hours together.
    [[nodiscard]] double worth() const;

    /// A spot's hours before some were lent.
    struct Lent {
        std::uint32_t spot = 0;
        double hours = 0.0;
    };
    /// Adds for a while, for posts one after the other: what it takes to give them back goes into `lent`.
    void lend(std::size_t evening, std::span<const Sighted> view, const Shift& shift,
              std::vector<Lent>& lent);
    void give_back(std::vector<Lent>& lent);

 private:
    struct Evening {
        std::vector<std::vector<Held>> held;  ///< of each spot
        std::vector<double> hours;
    };
    [[nodiscard]] double added(std::size_t evening, const Sighted& sighted, const Shift& shift) const;
    void set_hours(std::size_t spot, double hours);

    Values values_;
    std::vector<double> hours_;
    std::vector<double> left_;  ///< what is still to be gained
    std::vector<Evening> evenings_;
};

}  // namespace roostward::evenings
