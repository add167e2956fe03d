#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// The same survey, in which passes with a bearing follow the way that is flown round about. Somebody in the
/// dusk tells a bearing to about 15° (common practice, no source), and a straight piece of a bent route
/// leaves it: many passes of one route know its course better than each of them.
///
/// The direction at a place is the axial mean (doubled angles: Mardia & Jupp 2000) of the passes' bearings,
/// each weighted by a bell of 20 m about its position and by cos⁸ of its angle to the direction sought, the
/// width of two bearings' difference, so that routes that cross do not mix. A pass turns to that mean three
/// times. Then its piece, half as long again, is laid in eight straight parts along the means of the turned
/// passes, from its position forward and back. Its metres, its place and its sense stay. A pass with nobody
/// near goes straight on.
///
/// Tracks, foraging passes and passes without a bearing stay as they are and turn nobody. The same bits on
/// every processor and for any number of threads.
[[nodiscard]] survey::Survey bend_flights(survey::Survey survey, core::Threads threads);

}  // namespace roostward::activity
