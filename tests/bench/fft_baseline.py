#!/usr/bin/python3
"""The same cases with general-purpose libraries: A-C by FFT convolution (SciPy, float32, linear binning, two
threads), D by k-d tree pairs within 4.5 h.

Usage: fft_baseline.py A|B|C|D [RUNS]      prints the median seconds and the error at a sample, as a share of the peak
"""

import statistics
import sys
import time
from concurrent.futures import ThreadPoolExecutor

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
    wide = cells + 2
    i, j = np.floor(x - 0.5).astype(np.int32), np.floor(y - 0.5).astype(np.int32)
    fx, fy = x - 0.5 - i, y - 0.5 - j
    corner = (j + 1) * wide + i + 1
    index = np.concatenate([corner, corner + 1, corner + wide, corner + wide + 1])
    share = np.concatenate([weight * (1 - fx) * (1 - fy), weight * fx * (1 - fy), weight * (1 - fx) * fy, weight * fx * fy])
    return np.bincount(index, share, wide * wide).astype(np.float32).reshape(wide, wide)


def on_grid(x, y, weight, cells):
    """Linear binning widens each axis by 1/6 of a cell squared on average; the kernel is narrowed by as much."""
    size = scipy.fft.next_fast_len(cells + 2 + int(5 * H), real=True)
    width = np.sqrt(H * H - 1 / 6)
    frequency = np.exp(-2 * (np.pi * width * scipy.fft.fftfreq(size)) ** 2).astype(np.float32)
    spectrum = scipy.fft.rfft2(binned(x, y, weight, cells), (size, size), workers=2)
    spectrum *= frequency[:, None]
    spectrum *= frequency[None, : size // 2 + 1]
    return scipy.fft.irfft2(spectrum, (size, size), workers=2, overwrite_x=True)[1 : cells + 1, 1 : cells + 1]


def at_trees(trees, passes, weight, evening):
    """A value per tree and evening; two threads."""
    tree_index = cKDTree(trees)

    def of_evening(n):
        here = evening == n
        pairs = tree_index.sparse_distance_matrix(cKDTree(passes[here]), 4.5 * H, output_type="ndarray")
        values = weight[here][pairs["j"]] * kernel(pairs["v"] ** 2)
        return np.bincount(pairs["i"], values, len(trees))

    with ThreadPoolExecutor(2) as pool:
        return np.column_stack(list(pool.map(of_evening, range(EVENINGS))))


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
