#include "choice_cbc.hpp"

#include <cmath>
#include <memory>
#include <mutex>

#include <coin/Cbc_C_Interface.h>
#include <coin/Clp_C_Interface.h>

namespace roostward::siting {

namespace {

std::mutex one_at_a_time;

/// Rows as the solvers take them, column by column.
struct Columns {
    std::vector<int> start{0}, row;
    std::vector<double> value, most_of_row;

    Columns(std::size_t options, std::span<const Row> rows) {
        struct Entry {
            int row;
            double value;
        };
        std::vector<std::vector<Entry>> of(options);
        for (std::size_t r = 0; r < rows.size(); ++r) {
            most_of_row.push_back(static_cast<double>(rows[r].at_most));
            for (std::size_t k = 0; k < rows[r].options.size(); ++k)
                of[rows[r].options[k]].push_back(
                    {static_cast<int>(r),
                     rows[r].costs.empty() ? 1.0 : static_cast<double>(rows[r].costs[k])});
        }
        for (const auto& column : of) {
            for (const Entry& entry : column) {
                row.push_back(entry.row);
                value.push_back(entry.value);
            }
            start.push_back(static_cast<int>(row.size()));
        }
    }
};

/// What the solvers make as small as possible: less is better. Millionths.
std::vector<double> negated(const Worth& worth, std::int64_t less) {
    std::vector<double> costs;
    costs.reserve(worth.of.size());
    for (const std::int64_t one : worth.of)
        costs.push_back(-static_cast<double>(one - less) / static_cast<double>(worth.per_millionth));
    return costs;
}

struct ClpDeleter {
    void operator()(Clp_Simplex* model) const { Clp_deleteModel(model); }
};
struct CbcDeleter {
    void operator()(Cbc_Model* model) const { Cbc_deleteModel(model); }
};

}  // namespace

std::vector<double> prices_by_clp(const Worth& worth, std::span<const Row> rows, std::int64_t less) {
    const std::scoped_lock lock(one_at_a_time);
    const std::unique_ptr<Clp_Simplex, ClpDeleter> model(Clp_newModel());
    Clp_setLogLevel(model.get(), 0);
    const Columns columns(worth.of.size(), rows);
    const std::vector<double> zero(worth.of.size(), 0.0), one(worth.of.size(), 1.0),
        least(rows.size(), -1e30), cost = negated(worth, less);
    Clp_loadProblem(model.get(), static_cast<int>(worth.of.size()), static_cast<int>(rows.size()),
                    columns.start.data(), columns.row.data(), columns.value.data(), zero.data(), one.data(),
                    cost.data(), least.data(), columns.most_of_row.data());
    Clp_initialSolve(model.get());
    if (Clp_status(model.get()) != 0) return {};
    const double* duals = Clp_dualRowSolution(model.get());
    std::vector<double> prices;
    for (std::size_t r = 0; r < rows.size(); ++r)
        prices.push_back(-duals[r]);
    return prices;
}

ByCbc set_by_cbc(const Worth& worth, std::span<const Row> rows, std::size_t most_nodes) {
    const std::scoped_lock lock(one_at_a_time);
    const std::unique_ptr<Cbc_Model, CbcDeleter> model(Cbc_newModel());
    Cbc_setLogLevel(model.get(), 0);
    const Columns columns(worth.of.size(), rows);
    const std::vector<double> zero(worth.of.size(), 0.0), one(worth.of.size(), 1.0),
        least(rows.size(), -1e30), cost = negated(worth, 0);
    Cbc_loadProblem(model.get(), static_cast<int>(worth.of.size()), static_cast<int>(rows.size()),
                    columns.start.data(), columns.row.data(), columns.value.data(), zero.data(), one.data(),
                    cost.data(), least.data(), columns.most_of_row.data());
    for (std::size_t i = 0; i < worth.of.size(); ++i)
        Cbc_setInteger(model.get(), static_cast<int>(i));
    Cbc_setMaximumNodes(model.get(), static_cast<int>(most_nodes));
    Cbc_setAllowableGap(model.get(), 0.0);
    Cbc_solve(model.get());
    ByCbc found;
    const int status = Cbc_status(model.get());
    if (status != 0 && status != 1) return found;
    found.nodes = static_cast<std::size_t>(Cbc_getNodeCount(model.get()));
    const double bound = -(Cbc_isProvenOptimal(model.get()) ? Cbc_getObjValue(model.get())
                                                            : Cbc_getBestPossibleObjValue(model.get()));
    if (std::isfinite(bound) && std::abs(bound) < 1e30) found.bound = bound;
    if (const double* solution = Cbc_bestSolution(model.get()))
        for (std::size_t i = 0; i < worth.of.size(); ++i)
            if (solution[i] > 0.5) found.options.push_back(i);
    return found;
}

}  // namespace roostward::siting
