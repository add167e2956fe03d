#include "roostward/survey/observers.hpp"

#include <algorithm>
#include <map>

#include "roostward/core/folding.hpp"

namespace roostward::survey {

namespace {

std::string letters(std::size_t number) {
    std::string text(1, static_cast<char>('A' + number % 26));
    return number < 26 ? text : letters(number / 26 - 1) + text;
}

}  // namespace

std::vector<Observer> letter_observers(Survey& survey) {
    std::map<std::string, Observer> by_name;  // folded: of several ways of writing it, the first in order
    for (const Watch& watch : survey.watches) {
        if (watch.observer.empty()) continue;
        Observer& observer =
            by_name.try_emplace(core::folded(watch.observer), Observer{{}, watch.observer}).first->second;
        observer.name = std::min(observer.name, watch.observer);
    }
    std::vector<Observer> observers;
    for (auto& [name, observer] : by_name) {
        observer.letter = letters(observers.size());
        observers.push_back(observer);
    }
    for (Watch& watch : survey.watches)
        if (!watch.observer.empty()) watch.observer = by_name.at(core::folded(watch.observer)).letter;
    return observers;
}

}  // namespace roostward::survey
