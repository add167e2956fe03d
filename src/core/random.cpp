#include "roostward/core/random.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace roostward::core {

namespace {

std::uint64_t splitmix64(std::uint64_t& state) {
    std::uint64_t z = (state += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

/// FNV-1a (Fowler, Noll, Vo), so that a stream's name is part of its seed.
std::uint64_t hash_of(std::string_view text) {
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    for (const char c : text)
        hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    return hash;
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed, std::string_view name) {
    std::uint64_t state = seed ^ hash_of(name);
    for (auto& word : state_)
        word = splitmix64(state);
}

std::uint64_t RandomStream::bits() {
    const std::uint64_t result = std::rotl(state_[0] + state_[3], 23) + state_[0];
    const std::uint64_t t = state_[1] << 17U;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= t;
    state_[3] = std::rotl(state_[3], 45);
    return result;
}

double RandomStream::uniform() {
    return static_cast<double>(bits() >> 11U) * 0x1.0p-53;
}

double RandomStream::uniform(double low, double high) {
    return low + (high - low) * uniform();
}

std::uint64_t RandomStream::below(std::uint64_t bound) {
    const std::uint64_t unfair = (0 - bound) % bound;
    std::uint64_t draw = bits();
    while (draw < unfair)
        draw = bits();
    return draw % bound;
}

double RandomStream::normal() {
    if (has_spare_) {
        has_spare_ = false;
        return spare_;
    }
    double u = 0.0, v = 0.0, s = 0.0;
    do {
        u = uniform(-1.0, 1.0);
        v = uniform(-1.0, 1.0);
        s = u * u + v * v;
    } while (s >= 1.0 || s == 0.0);
    const double factor = std::sqrt(-2.0 * std::log(s) / s);
    spare_ = v * factor;
    has_spare_ = true;
    return u * factor;
}

std::uint64_t RandomStream::poisson(double mean) {
    // exp(-mean) would vanish for large means: draw in steps of at most 500.
    std::uint64_t count = 0;
    double left = mean;
    while (left > 0.0) {
        const double limit = std::exp(-std::min(left, 500.0));
        double product = uniform();
        while (product > limit) {
            ++count;
            product *= uniform();
        }
        left -= 500.0;
    }
    return count;
}

}  // namespace roostward::core
