#include "roostward/core/parallel.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <string>
#include <vector>

namespace roostward::core {
namespace {

TEST(ParallelFor, HandlesEveryItemOnce) {
    for (const unsigned threads : {1U, 2U, 7U}) {
        std::vector<int> touched(1003, 0);
        parallel_for(touched.size(), 10, Threads{threads}, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i)
                ++touched[i];
        });
        EXPECT_EQ(std::accumulate(touched.begin(), touched.end(), 0), 1003);
        EXPECT_EQ(*std::ranges::max_element(touched), 1);
    }
}

TEST(ParallelFor, ReportsTheLowestFaultWhateverRunsFirst) {
    for (const unsigned threads : {1U, 2U, 7U}) {
        const auto work = [](std::size_t begin, std::size_t) {
            if (begin >= 300) throw std::runtime_error(std::to_string(begin));
        };
        try {
            parallel_for(1000, 100, Threads{threads}, work);
            FAIL() << "the fault was lost";
        } catch (const std::runtime_error& fault) {
            EXPECT_STREQ(fault.what(), "300");
        }
    }
}

}  // namespace
}  // namespace roostward::core
