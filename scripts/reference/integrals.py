#!/usr/bin/python3
"""Integrals of Gaussian kernels and half-normal effort by adaptive quadrature (SciPy's QUADPACK).

Usage: integrals.py DIR      writes DIR/*.txt. Every value comes from integrating the definition numerically,
not from a closed form. Bearings run clockwise from north; lengths are metres.
"""

import math
import sys
from pathlib import Path

from scipy.integrate import quad

TIGHT = {"epsabs": 1e-15, "epsrel": 1e-12, "limit": 400}


def kernel(x, y, h):
    return math.exp(-(x * x + y * y) / (2 * h * h)) / (2 * math.pi * h * h)


def integral(f, low, high, breaks=()):
    """Adaptive quadrature of f over [low, high], in pieces between the breaks."""
    ends = [low] + sorted(b for b in breaks if low < b < high) + [high]
    return math.fsum(quad(f, a, b, **TIGHT)[0] for a, b in zip(ends, ends[1:]) if b > a)


def kernel_along(a, b, point, h):
    """Line integral of the kernel about `point` over the straight piece from a to b."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    nearest = (point[0] - a[0]) * ux + (point[1] - a[1]) * uy
    return integral(
        lambda s: kernel(point[0] - a[0] - s * ux, point[1] - a[1] - s * uy, h),
        0, length, [nearest + k * h for k in range(-8, 9, 2)])


def smoothed_half_normal(offset, rho, h, first=0.0, last=2 * math.pi):
    """K_h convolved with exp(-r^2/2 rho^2) of a station at the origin, seen between two bearings (radians)."""
    dx, dy = offset
    spread = 1 / math.sqrt(1 / rho**2 + 1 / h**2)

    def along_ray(bearing):
        ux, uy = math.sin(bearing), math.cos(bearing)
        middle = spread**2 / h**2 * (dx * ux + dy * uy)
        low, high = max(0.0, middle - 9 * spread), max(0.0, middle) + 9 * spread
        return integral(lambda r: r * math.exp(-r * r / (2 * rho * rho)) * kernel(dx - r * ux, dy - r * uy, h),
                        low, high, [middle])

    toward = math.atan2(dx, dy)
    breaks = [toward + turn * 2 * math.pi + part * math.pi / 8 for turn in (-1, 0, 1) for part in range(-8, 9)]
    return integral(along_ray, first, last, breaks)


def write(folder, name, header, rows):
    text = "".join(f"# {line}\n" for line in header)
    text += "".join(" ".join(format(v, ".17g") for v in row) + "\n" for row in rows)
    (folder / name).write_text(text)


def segments():
    pieces = [((0, 0), (40, 0)), ((3, -5), (-22, 31)), ((10, 10), (10.5, 10)), ((-200, 1), (300, 4))]
    points = [(0, 0), (20, 3), (-6, 11), (41, -30), (10.2, 9.7)]
    for h in (2.5, 7.0, 15.0):
        for a, b in pieces:
            for p in points:
                value = kernel_along(a, b, p, h)
                if value > 1e-9:
                    yield (h, *a, *b, *p, value)


def sectors():
    points = [(0, 0), (0.5, 40), (20, 20), (30, 30), (-12, -9), (60, -5), (-1, 12)]
    for rho, h in ((30, 7), (55, 15), (40, 4)):
        for look, width in ((0, 90), (35, 20), (250, 200), (90, 350)):
            first, last = math.radians(look - width / 2), math.radians(look + width / 2)
            for p in points:
                yield (rho, h, look, width, *p, smoothed_half_normal(p, rho, h, first, last))


def all_round():
    points = [(0, 0), (25, -10), (-60, 45), (100, 90)]
    for rho, h in ((20, 3), (30, 7), (55, 15)):
        for p in points:
            yield (rho, h, *p, smoothed_half_normal(p, rho, h))


WALK = [(0, 0), (60, 10), (80, -70), (79, -71)]


def walks():
    lengths = [math.dist(a, b) for a, b in zip(WALK, WALK[1:])]
    points = [(0, 0), (50, 5), (82, -60), (30, -50), (-40, 80)]
    for rho, h in ((30, 7), (20, 15)):
        for p in points:
            seen = smoothed = 0.0
            for a, b, length in zip(WALK, WALK[1:], lengths):
                # Along one straight piece: the half-normal itself, and smoothed by the kernel across both axes.
                seen += 2 * math.pi * rho**2 * kernel_along(a, b, p, rho)
                smoothed += integral(
                    lambda s: smoothed_half_normal(
                        (p[0] - a[0] - s / length * (b[0] - a[0]), p[1] - a[1] - s / length * (b[1] - a[1])), rho, h),
                    0, length)
            yield (rho, h, *p, seen / sum(lengths), smoothed / sum(lengths))


def vague_positions():
    """Two flights on one evening: 30 m once at (0, 0); 10 m twice at (5, 5), written down to 8 m."""
    rho, accuracy = 30, 8
    for h in (3.0, 7.0):
        for p in ((0, 0), (20, -14), (60, 30)):
            wider = math.hypot(h, math.sqrt(2) * accuracy)
            smoothed = 0.6 * smoothed_half_normal(p, rho, h) + 0.4 * smoothed_half_normal(p, rho, wider)
            flown = 30 * kernel(*p, h) + 2 * 10 * kernel(p[0] - 5, p[1] - 5, math.hypot(h, accuracy))
            yield (h, *p, smoothed, flown)


OUTER = [(0, 0), (120, 0), (120, 40), (70, 55), (60, 140), (-10, 100)]
HOLE = [(20, 20), (50, 25), (45, 60), (15, 50)]


def slices(ring, x):
    """Where the vertical line at x crosses the ring, from south to north."""
    crossings = []
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1]):
        if (x0 <= x) != (x1 <= x):
            crossings.append(y0 + (x - x0) / (x1 - x0) * (y1 - y0))
    return sorted(crossings)


def polygon_mass(point, h):
    """The kernel's mass over the ground, slice by slice."""
    px, py = point

    def within(ring, x):
        ys = slices(ring, x)
        return sum((math.erf((b - py) / (h * math.sqrt(2))) - math.erf((a - py) / (h * math.sqrt(2)))) / 2
                   for a, b in zip(ys[::2], ys[1::2]))

    def density(x):
        across = math.exp(-((x - px) ** 2) / (2 * h * h)) / (h * math.sqrt(2 * math.pi))
        return across * (within(OUTER, x) - within(HOLE, x))

    xs = [x for x, _ in OUTER + HOLE]
    return integral(density, min(xs), max(xs), xs + [px + k * h for k in range(-9, 10)])


def polygons():
    points = [(40, 40), (0, 0), (60, 0), (100, 20), (-5, 50), (35, 45), (70, 55), (-25, -25), (200, 10)]
    for h in (3.0, 7.0, 20.0):
        for p in points:
            mass = polygon_mass(p, h)
            if mass > 1e-9:
                yield (h, *p, mass)


def ring_text(ring):
    return " ".join(f"{x:g},{y:g}" for x, y in ring)


def main():
    folder = Path(sys.argv[1])
    write(folder, "segments.txt", ["line integral of the kernel", "h ax ay bx by px py value"], segments())
    write(folder, "all_round_effort.txt",
          ["one hour all round from (0, 0), smoothed", "rho h px py smoothed_hours"], all_round())
    write(folder, "sector_effort.txt",
          ["one hour from (0, 0) with a field of view, smoothed", "rho h look_deg view_deg px py smoothed_hours"],
          sectors())
    write(folder, "walked_effort.txt",
          [f"one hour of walking at constant speed along {ring_text(WALK)}", "rho h px py watched_hours smoothed_hours"],
          walks())
    write(folder, "accuracy_effort.txt",
          ["one hour all round from (0, 0), rho 30 m, smoothed as the flights are",
           "30 m once at (0, 0); 10 m twice at (5, 5), written down to 8 m", "h px py smoothed_hours flown"],
          vague_positions())
    write(folder, "polygon_mass.txt",
          [f"mass of the kernel over the ring {ring_text(OUTER)}", f"less the hole {ring_text(HOLE)}", "h px py mass"],
          polygons())


if __name__ == "__main__":
    main()
