#include "roostward/activity/contrast.hpp"

#include <algorithm>
#include <cmath>

namespace roostward::activity {

double contrast(double on, double off, double ratio) {
    const double all = on + off;
    if (!(all > 0.0)) return 0.0;
    const auto term = [all](double events, double share) {
        return events > 0.0 ? events * std::log(events / (all * share)) : 0.0;
    };
    const double likelihood = term(on, ratio / (1.0 + ratio)) + term(off, 1.0 / (1.0 + ratio));
    return std::copysign(std::sqrt(2.0 * std::max(0.0, likelihood)), on - ratio * off);
}

}  // namespace roostward::activity
