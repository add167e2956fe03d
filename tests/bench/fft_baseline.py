#!/usr/bin/python3
"""The same cases with general-purpose libraries: A-C by FFT convolution (SciPy, float32, linear binning, two
threads), D by k-d tree pairs within 4.5 h.

Usage: fft_baseline.py A|B|C|D [RUNS]      prints the median seconds and the error at a sample, as a share of the peak
"""

import statistics
import sys
import time

import numpy as np
import scipy.fft
from scipy.spatial import cKDTree

H = 15.0
CASES = {"A": (10_000, 1000), "B": (100_000, 2000), "C": (1_000_000, 4000)}
EVENINGS = 12


def kernel(squared):
    return np.exp(-squared / (2 * H * H)) / (2 * np.pi * H * H)


def binned(x, y, weight, cells):
    """Linear binning: each point shared among the four cell centres around it."""
    u, v = x - 0.5, y - 0.5
    i, j = np.floor(u).astype(np.int64), np.floor(v).astype(np.int64)
    fx, fy = u - i, v - j
    grid = np.zeros((cells + 2) * (cells + 2), np.float32)
    for di, wx in ((0, 1 - fx), (1, fx)):
        for dj, wy in ((0, 1 - fy), (1, fy)):
            grid += np.bincount((j + dj + 1) * (cells + 2) + i + di + 1, weight * wx * wy, grid.size).astype(np.float32)
    return grid.reshape(cells + 2, cells + 2)


def on_grid(x, y, weight, cells):
    size = scipy.fft.next_fast_len(cells + 2 + int(4.5 * H), real=True)
    frequency = np.exp(-2 * (np.pi * H * scipy.fft.fftfreq(size)) ** 2).astype(np.float32)
    spectrum = scipy.fft.rfft2(binned(x, y, weight, cells), (size, size), workers=2)
    spectrum *= frequency[:, None]
    spectrum *= frequency[None, : size // 2 + 1]
    return scipy.fft.irfft2(spectrum, (size, size), workers=2)[1 : cells + 1, 1 : cells + 1]


def at_trees(trees, passes, weight, evening):
    """A value per tree and evening."""
    table = np.zeros((len(trees), EVENINGS))
    tree_index = cKDTree(trees)
    for n in range(EVENINGS):
        here = evening == n
        pairs = tree_index.sparse_distance_matrix(cKDTree(passes[here]), 4.5 * H, output_type="ndarray")
        values = weight[here][pairs["j"]] * kernel(pairs["v"] ** 2)
        table[:, n] = np.bincount(pairs["i"], values, len(trees))
    return table


def timed(job, runs):
    seconds = []
    for _ in range(runs + 1):
        start = time.perf_counter()
        result = job()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds[1:]), result


def error_of(ours, direct):
    return np.max(np.abs(ours - direct)) / np.max(direct)


def main():
    case, runs = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 5
    random = np.random.default_rng(1)
    count, side = CASES.get(case, (100_000, 2000))
    x, y = random.uniform(0, side, count), random.uniform(0, side, count)
    weight = random.integers(1, 4, count).astype(float)
    if case == "D":
        trees = random.uniform(0, side, (100_000, 2))
        passes, evening = np.column_stack([x, y]), random.integers(0, EVENINGS, count)
        seconds, table = timed(lambda: at_trees(trees, passes, weight, evening), runs)
        sample = range(0, len(trees), 2000)
        direct = [[np.sum(weight[evening == n] * kernel(np.sum((passes[evening == n] - trees[i]) ** 2, axis=1)))
                   for n in range(EVENINGS)] for i in sample]
        error = error_of(table[list(sample)], np.array(direct))
    else:
        seconds, grid = timed(lambda: on_grid(x, y, weight, side), runs)
        rows, columns = random.integers(0, side, 100), random.integers(0, side, 100)
        direct = np.array([np.sum(weight * kernel((x - c - 0.5) ** 2 + (y - r - 0.5) ** 2)) for r, c in zip(rows, columns)])
        error = error_of(grid[rows, columns], direct)
    print(f"{case}  {seconds * 1e3:8.1f} ms  error {error:.1e}")


if __name__ == "__main__":
    main()
