"""Best sets of random instances by SciPy's milp (HiGHS), to standard output: one line an instance.

An instance is made from its number alone, with whole numbers only, so that tests/siting/choice_reference_test.cpp makes
the same one. The model here is the plainest there is: one row a pair of trees that stand too close.
"""
import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

COUNT = 260
MASK = (1 << 64) - 1


class Numbers:
    """SplitMix64 (Steele, Lea & Flood 2014)."""

    def __init__(self, seed):
        self.state = seed

    def next(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        return z ^ (z >> 31)

    def upto(self, most):
        """0 … most."""
        return self.next() % (most + 1)


def instance(number):
    draw = Numbers(number)
    trees = 5 + draw.upto(195 if number % 2 else 45)
    sites = 1 + draw.upto(14)
    spacing = 10 + draw.upto(50)
    side = 60 + draw.upto(540)
    kind = draw.upto(2)
    owners, zones = 1 + draw.upto(6), 1 + draw.upto(3)
    of_owner, of_zone = 1 + draw.upto(2), 2 + draw.upto(4)
    quotas = draw.upto(2)
    with_budget = draw.upto(2) == 0
    musts = draw.upto(2) if draw.upto(3) == 0 else 0
    rows = []
    for _ in range(trees):
        x, y = draw.upto(side), draw.upto(side)
        any_score = draw.upto(1_000_000)
        score = (any_score, any_score // 100_000 * 100_000, 900_000 * x // side + any_score // 10)[kind]
        rows.append((x, y, score, draw.upto(owners - 1), draw.upto(zones - 1), 50 + draw.upto(200)))
    budget = sites * (60 + draw.upto(80))
    return dict(trees=rows, sites=sites, spacing=spacing, of_owner=of_owner, of_zone=of_zone, quotas=quotas,
                budget=budget if with_budget else None, musts=musts)


def best(case):
    rows, n = case["trees"], len(case["trees"])
    pairs = [(i, j) for i in range(n) for j in range(i)
             if (rows[i][0] - rows[j][0]) ** 2 + (rows[i][1] - rows[j][1]) ** 2 < case["spacing"] ** 2]
    counts = [({i: 1 for i in range(n)}, case["sites"])] + [({i: 1, j: 1}, 1) for i, j in pairs]
    for field, most in ((3, case["of_owner"]), (4, case["of_zone"]))[:case["quotas"]]:
        for group in sorted({row[field] for row in rows}):
            counts.append(({i: 1 for i in range(n) if rows[i][field] == group}, most))
    if case["budget"] is not None:
        counts.append(({i: rows[i][5] for i in range(n)}, case["budget"]))
    matrix, most = lil_matrix((len(counts), n)), np.array([c[1] for c in counts], dtype=float)
    for r, (entries, _) in enumerate(counts):
        for i, value in entries.items():
            matrix[r, i] = value
    least = np.zeros(n)
    least[:case["musts"]] = 1
    found = milp(c=[-row[2] / 1e6 for row in rows], integrality=np.ones(n), bounds=Bounds(least, np.ones(n)),
                 constraints=LinearConstraint(matrix.tocsr(), -np.inf, most), options={"mip_rel_gap": 0.0})
    if found.status == 2:
        return "infeasible"
    assert found.status == 0, found.message
    return f"{-found.fun:.7f}"


for number in range(1, COUNT + 1):
    print(number, best(instance(number)), flush=True)
