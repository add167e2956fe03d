#!/usr/bin/env python3
"""Chebyshev series of (1 + 2x) exp(x^2) erfc(x), x >= 0, in t = (x - 3.75) / (x + 3.75).

The form is that of Shepherd & Laframboise 1981 (Mathematics of Computation 36); the coefficients are fitted
here with mpmath at 60 digits, so that include/roostward/activity/kernel.hpp owes nothing to a processor's libm.
"""
import mpmath as mp

mp.mp.dps = 60
TERMS = 26
NODES = 200


def f(t):
    if t == 1:
        return 2 / mp.sqrt(mp.pi)
    x = mp.mpf("3.75") * (1 + t) / (1 - t)
    return (1 + 2 * x) * mp.exp(x * x) * mp.erfc(x)


angles = [mp.pi * (j + mp.mpf(1) / 2) / NODES for j in range(NODES)]
values = [f(mp.cos(a)) for a in angles]
for k in range(TERMS):
    c = 2 * mp.fsum(v * mp.cos(k * a) for v, a in zip(values, angles)) / NODES
    print(mp.nstr(c if k else c / 2, 20))
