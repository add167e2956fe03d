#include "roostward/survey/observers.hpp"

#include <map>

namespace roostward::survey {

namespace {

std::string letters(std::size_t number) {
    std::string text(1, static_cast<char>('A' + number % 26));
    return number < 26 ? text : letters(number / 26 - 1) + text;
}

}  // namespace

std::vector<Observer> letter_observers(Survey& survey) {
    std::map<std::string, std::string> letter_of;
    for (const Watch& watch : survey.watches)
        if (!watch.observer.empty()) letter_of.emplace(watch.observer, "");
    std::vector<Observer> observers;
    for (auto& [name, letter] : letter_of) {
        letter = letters(observers.size());
        observers.push_back({letter, name});
    }
    for (Watch& watch : survey.watches)
        if (!watch.observer.empty()) watch.observer = letter_of.at(watch.observer);
    return observers;
}

}  // namespace roostward::survey
