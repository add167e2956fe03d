#include "roostward/activity/pieces.hpp"

#include <algorithm>
#include <cmath>

namespace roostward::activity {

namespace {

void add_straight(std::vector<Piece>& pieces, core::PlanePoint from, core::PlanePoint to, double longest,
                  Piece like) {
    const double dx = to.easting - from.easting;
    const double dy = to.northing - from.northing;
    const double length = std::hypot(dx, dy);
    if (length == 0.0) return;
    const auto parts = static_cast<std::size_t>(std::max(1.0, std::ceil(length / longest)));
    like.east = dx / length;
    like.north = dy / length;
    like.half_length = 0.5 * length / static_cast<double>(parts);
    for (std::size_t i = 0; i < parts; ++i) {
        const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(parts);
        like.middle = {from.easting + share * dx, from.northing + share * dy};
        pieces.push_back(like);
    }
}

}  // namespace

std::vector<Piece> pieces_of(const survey::Survey& survey, core::Metres h, core::Metres longest) {
    std::vector<Piece> pieces;
    pieces.reserve(survey.flights.size());
    for (const auto& flight : survey.flights) {
        if (!flight.placed || flight.path.empty()) continue;
        Piece piece;
        piece.width = std::hypot(h.value(), flight.accuracy.value());
        piece.evening = flight.evening;
        piece.weight = flight.count * survey::laid_on_path(flight);
        if (flight.path.size() == 1) {
            piece.middle = flight.path.front();
            pieces.push_back(piece);
            continue;
        }
        for (std::size_t i = 0; i + 1 < flight.path.size(); ++i)
            add_straight(pieces, flight.path[i], flight.path[i + 1], longest.value(), piece);
    }
    return pieces;
}

}  // namespace roostward::activity
