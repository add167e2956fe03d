#!/usr/bin/python3
"""exp(x) for x <= 0 and erf(x), by mpmath at 60 digits.

Usage: exp_erf.py DIR      writes DIR/exp.txt and DIR/erf.txt: x and the value, both to 17 digits.
"""

import random
import sys
from pathlib import Path

import mpmath

mpmath.mp.dps = 60


def write(path, function, xs):
    lines = [f"# x {path.stem}(x)"]
    lines += [f"{x:.17g} {float(function(mpmath.mpf(x))):.17g}" for x in xs]
    path.write_text("\n".join(lines) + "\n")


def main():
    folder = Path(sys.argv[1])
    spread = random.Random(2031)
    small = [10.0**-k for k in range(1, 17)]
    write(folder / "exp.txt", mpmath.exp,
          [0.0] + [-x for x in small] + [-spread.uniform(0, 3) for _ in range(60)]
          + [-spread.uniform(0, 690) for _ in range(60)])
    write(folder / "erf.txt", mpmath.erf,
          [0.0] + small + [-x for x in small] + [spread.uniform(-3, 3) for _ in range(80)]
          + [spread.uniform(-7, 7) for _ in range(40)])


if __name__ == "__main__":
    main()
