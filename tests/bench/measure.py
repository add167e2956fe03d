#!/usr/bin/python3
"""Times whole processes in turn: A B A B …, after one warm-up of each.

Usage: measure.py RUNS 'COMMAND A' ['COMMAND B']
Prints the median wall and processor seconds and the largest peak memory of each command, and the median of the ratios
B/A taken pair by pair. Stops with the output of a command that fails.
"""

import os
import shlex
import statistics
import subprocess
import sys
import tempfile
import time


def run(command):
    """Wall seconds, processor seconds and peak MiB of one process and its children."""
    with tempfile.TemporaryFile() as said:
        start = time.perf_counter()
        process = subprocess.Popen(shlex.split(command), stdout=said, stderr=said)
        _, status, usage = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            said.seek(0)
            sys.exit(f"{command}\nended with {process.returncode}:\n{said.read().decode(errors='replace')}")
    return wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main():
    runs, commands = int(sys.argv[1]), sys.argv[2:]
    figures = [[] for _ in commands]
    for turn in range(runs + 1):
        for command, own in zip(commands, figures):
            figure = run(command)
            if turn > 0:
                own.append(figure)
    for name, command, own in zip("AB", commands, figures):
        walls = [wall for wall, _, _ in own]
        print(f"{name}  {command}\n   wall {statistics.median(walls):.3f} s ({min(walls):.3f} to {max(walls):.3f}), "
              f"processor {statistics.median(cpu for _, cpu, _ in own):.3f} s, "
              f"peak {max(peak for _, _, peak in own):.0f} MiB, {runs} runs")
    if len(commands) == 2:
        ratios = [b[0] / a[0] for a, b in zip(*figures)]
        print(f"B/A wall, pair by pair: median {statistics.median(ratios):.2f} ({min(ratios):.2f} to {max(ratios):.2f})")


if __name__ == "__main__":
    main()
