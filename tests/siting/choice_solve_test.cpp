#include "choice_solve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <string>
#include <thread>

#include "siting/choice_instances.hpp"

namespace roostward::siting {
namespace {

using instances::Instance;
using instances::instance;

std::int64_t score_of(const ChoiceProblem& problem, std::span<const std::size_t> options) {
    std::int64_t total = 0;
    for (const std::size_t option : options)
        total += problem.options[option].score;
    return total;
}

/// Options of a problem by the numbers of their trees.
std::vector<std::size_t> options_of(const ChoiceProblem& problem, const std::vector<std::size_t>& trees) {
    std::vector<std::size_t> options;
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        if (std::ranges::find(trees, problem.options[i].tree) != trees.end()) options.push_back(i);
    return options;
}

void expect_is_what_it_says(const ChoiceProblem& problem, const Solved& solved) {
    const auto options = options_of(problem, solved.trees);
    EXPECT_EQ(options.size(), solved.trees.size());
    EXPECT_TRUE(keeps_the_rules(problem, options));
    EXPECT_EQ(score_of(problem, options), solved.score);
    EXPECT_GE(solved.bound, solved.score);
}

// tests/reference/siting/SOURCE: sums of scores by SciPy's milp (HiGHS), and instances where none exists.
TEST(ChoiceSolve, EqualsAnIndependentSolver) {
    std::ifstream file(ROOSTWARD_SOURCE_DIR "/tests/reference/siting/choice.txt");
    std::uint64_t number = 0;
    std::size_t solved_count = 0, infeasible = 0;
    for (std::string theirs; file >> number >> theirs;) {
        SCOPED_TRACE("instance " + std::to_string(number));
        const Instance made = instance(number);
        const bool can_be = keeps_the_rules(made.problem, made.musts);
        EXPECT_EQ(can_be, theirs != "infeasible");
        if (!can_be) {
            ++infeasible;
            continue;
        }
        ++solved_count;
        const ChoiceProblem rest = beside(made.problem, made.musts);
        const double of_musts = 1e-6 * static_cast<double>(score_of(made.problem, made.musts));
        const Solved ours = solve(rest), quick = solve_quickly(rest), by_cbc = solve_by_cbc(rest);
        for (const Solved* solved : {&ours, &quick, &by_cbc})
            expect_is_what_it_says(rest, *solved);
        EXPECT_NEAR(of_musts + 1e-6 * static_cast<double>(ours.score), std::stod(theirs), 1e-6);
        EXPECT_TRUE(ours.proven() && ours.unique);
        EXPECT_EQ(by_cbc.score, ours.score);
        EXPECT_TRUE(by_cbc.proven());
        if (quick.unique) {
            EXPECT_EQ(quick.trees, ours.trees);
        }
    }
    EXPECT_GE(solved_count, 200U);
    EXPECT_GE(infeasible, 5U);
}

/// Every set that keeps the rules, one after the other.
void each_set(const ChoiceProblem& problem, const std::function<void(const std::vector<std::size_t>&)>& see) {
    std::vector<std::size_t> set;
    const std::function<void(std::size_t)> from = [&](std::size_t next) {
        see(set);
        for (std::size_t i = next; i < problem.options.size(); ++i) {
            set.push_back(i);
            if (keeps_the_rules(problem, set)) from(i + 1);
            set.pop_back();
        }
    };
    from(0);
}

/// By the words of ChoiceProblem: score, then places, then the best option that the other lacks.
std::vector<std::size_t> best_of_all(const ChoiceProblem& problem) {
    const auto places = [&](const std::vector<std::size_t>& set) {
        std::int64_t sum = 0;
        for (const std::size_t i : set)
            sum += static_cast<std::int64_t>(problem.contenders - problem.options[i].place);
        return sum;
    };
    std::vector<std::size_t> best;
    each_set(problem, [&](const std::vector<std::size_t>& set) {
        const auto score = score_of(problem, set), most = score_of(problem, best);
        const auto place = places(set), best_place = places(best);
        if (score > most || (score == most && (place > best_place || (place == best_place && set < best))))
            best = set;
    });
    return best;
}

TEST(ChoiceSolve, EqualsTryingEverySetTiesIncluded) {
    for (std::uint64_t number = 1001; number <= 1150; ++number) {
        SCOPED_TRACE("instance " + std::to_string(number));
        ChoiceProblem problem = instance(number, 18).problem;
        if (number % 3 == 0)  // nearly all are ties
            for (Option& option : problem.options)
                option.score = option.score / 500'000 * 500'000;
        std::ranges::stable_sort(problem.options, std::ranges::greater{}, &Option::score);
        for (std::size_t i = 0; i < problem.options.size(); ++i)
            problem.options[i].place = i;
        std::vector<std::size_t> trees;
        for (const std::size_t option : best_of_all(problem))
            trees.push_back(problem.options[option].tree);
        const Solved solved = solve(problem);
        EXPECT_EQ(solved.trees, trees);
        EXPECT_TRUE(solved.unique);
    }
}

TEST(ChoiceSolve, NoOptionThatIsLeftOutBeforehandIsMissed) {
    std::size_t left_out = 0;
    for (std::uint64_t number = 1; number <= 400; ++number) {
        SCOPED_TRACE("instance " + std::to_string(number));
        const ChoiceProblem problem = instance(2000 + number, 18).problem;
        const ChoiceProblem fewer = reduced(problem, 1'000'000);
        left_out += problem.options.size() - fewer.options.size();
        const auto best = best_of_all(problem);
        for (const std::size_t option : best)
            EXPECT_EQ(options_of(fewer, {problem.options[option].tree}).size(), 1U);
    }
    EXPECT_GT(left_out, 200U);
}

// Greedy takes the middle one, which is too close to both others.
TEST(ChoiceSolve, TwoGoodOnesBeatTheBest) {
    ChoiceProblem problem;
    problem.sites = 2;
    problem.spacing = core::Metres(30.0);
    problem.options = {
        {7, 500'000, 0, {20.0, 0.0}, 0}, {3, 400'000, 1, {0.0, 0.0}, 0}, {5, 300'000, 2, {40.0, 0.0}, 0}};
    problem.contenders = 3;
    const Solved solved = solve(problem);
    EXPECT_EQ(solved.trees, (std::vector<std::size_t>{3, 5}));
    EXPECT_EQ(solved.score, 700'000);
    EXPECT_TRUE(solved.proven());
}

TEST(ChoiceSolve, NothingToChooseFromIsProven) {
    ChoiceProblem problem;
    problem.sites = 3;
    EXPECT_TRUE(solve(problem).trees.empty());
    EXPECT_TRUE(solve(problem).proven());
    EXPECT_TRUE(solve_by_cbc(problem).trees.empty());
}

// All too close to each other: more pairs than a linear program is made for.
TEST(ChoiceSolve, WhatIsTooLargeToProveIsToldHonestly) {
    ChoiceProblem problem;
    problem.sites = 3;
    problem.spacing = core::Metres(30.0);
    problem.contenders = 2500;
    for (std::size_t i = 0; i < problem.contenders; ++i) {
        const auto step = static_cast<double>(i);
        problem.options.push_back(
            {i, static_cast<std::int64_t>(1'000'000 - i), i, {std::fmod(7.0 * step, 20.0), 0.01 * step}, 0});
    }
    const Solved solved = solve(problem);
    expect_is_what_it_says(problem, solved);
    EXPECT_EQ(solved.trees.front(), 0U);
    EXPECT_FALSE(solved.unique);
}

TEST(ChoiceSolve, PrintsNothing) {
    testing::internal::CaptureStdout();
    testing::internal::CaptureStderr();
    for (const std::uint64_t number : {1U, 15U, 40U, 77U})
        EXPECT_TRUE(solve_by_cbc(instance(number).problem).by_cbc);
    EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

TEST(ChoiceSolve, IsTheSameFromSeveralThreadsAtOnce) {
    const ChoiceProblem problem = instance(31).problem;
    const Solved alone = solve_by_cbc(problem);
    std::vector<Solved> together(4);
    std::vector<std::thread> threads;
    for (Solved& solved : together)
        threads.emplace_back([&] { solved = solve_by_cbc(problem); });
    for (std::thread& thread : threads)
        thread.join();
    for (const Solved& solved : together) {
        EXPECT_EQ(solved.trees, alone.trees);
        EXPECT_EQ(solved.bound, alone.bound);
        EXPECT_EQ(solved.nodes, alone.nodes);
    }
}

}  // namespace
}  // namespace roostward::siting
