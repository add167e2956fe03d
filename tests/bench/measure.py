#!/usr/bin/python3
"""Times whole processes in turn: A B A B …, after one warm-up of each.

Usage: measure.py RUNS 'COMMAND A' ['COMMAND B' …]
Prints the median wall and processor seconds and the largest peak memory of each command; of the last one over each of
the others the medians of the ratios of wall and processor seconds, taken run by run, and the ratio of peak memory; and
the load of the machine, on which wall seconds hang. Stops with the output of a command that fails.
"""

import os
import shlex
import statistics
import string
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
    for name, command, own in zip(string.ascii_uppercase, commands, figures):
        walls = [wall for wall, _, _ in own]
        print(f"{name}  {command}\n   wall {statistics.median(walls):.3f} s ({min(walls):.3f} to {max(walls):.3f}), "
              f"processor {statistics.median(cpu for _, cpu, _ in own):.3f} s, "
              f"peak {max(peak for _, _, peak in own):.0f} MiB, {runs} runs")
    for name, own in zip(string.ascii_uppercase, figures[:-1]):
        wall, cpu, peak = zip(*((b[0] / a[0], b[1] / a[1], b[2] / a[2]) for a, b in zip(own, figures[-1])))
        print(f"{string.ascii_uppercase[len(figures) - 1]}/{name}  wall {statistics.median(wall):.2f} "
              f"({min(wall):.2f} to {max(wall):.2f}), processor {statistics.median(cpu):.2f}, "
              f"peak {statistics.median(peak):.2f}")
    print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")


if __name__ == "__main__":
    main()
