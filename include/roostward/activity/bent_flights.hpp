#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// The same survey, in which passes with a bearing follow the course that is flown round about. Somebody in
/// the dusk tells a bearing to about 15° (common practice, no source) and a place to some metres, and a
/// straight piece of a bent route leaves it: many passes of one route know its course better than each.
///
/// A pass's piece, twice as long, is laid in eight parts from its position forward and back. At the end of
/// each part it is held against the course of those near by that run alike (`CourseField`): it takes its
/// direction, and keeps its own distance from it, which falls by e⁻¹ in 30 m. Its metres, its place and its
/// sense stay. A pass with nobody near goes straight on.
///
/// Passes heed those of other evenings too, so evenings of bent flights are not independent: choose the
/// bandwidth before.
///
/// Tracks, foraging passes and passes without a bearing stay as they are and turn nobody. The same bits on
/// every processor and for any number of threads.
[[nodiscard]] survey::Survey bend_flights(survey::Survey survey, core::Threads threads);

}  // namespace roostward::activity
