#include "words/behaviour_words.hpp"

#include <array>

namespace roostward::io {

namespace {

using survey::Behaviour;

constexpr std::array<Word<Behaviour>, 20> behaviour_words = {
    {{"commuting", Behaviour::commuting}, {"commute", Behaviour::commuting},
     {"foraging", Behaviour::foraging},   {"feeding", Behaviour::foraging},
     {"hunting", Behaviour::foraging},    {"emerging", Behaviour::emerging},
     {"emergence", Behaviour::emerging},  {"emerged", Behaviour::emerging},
     {"returning", Behaviour::returning}, {"return", Behaviour::returning},
     {"reentry", Behaviour::returning},   {"social", Behaviour::social},
     {"perched", Behaviour::perched},     {"perching", Behaviour::perched},
     {"sitting", Behaviour::perched},     {"sat", Behaviour::perched},
     {"nesting", Behaviour::perched},     {"nest", Behaviour::perched},
     {"roosting", Behaviour::perched},    {"unknown", Behaviour::unknown}}};

}  // namespace

Behaviour behaviour(const RowReader& row, const Field& field) {
    return row.word<Behaviour>(field, behaviour_words, "choices.behaviour").value_or(Behaviour::unknown);
}

}  // namespace roostward::io
