# SPDX-License-Identifier: GPL-3.0-or-later
"""Rows a second of `spalltime sweep` over a wheel hub: a grid, where each row starts from the one before
(warm), and the same rows as cases, where none does (cold); beside one `life` for each row. Best of some
rounds, one process each; answers to CSV included."""
import os
import subprocess
import sys
import tempfile
import time

PROGRAM, SCENARIO = sys.argv[1:3]
ROUNDS = 5
STEPS = 241


def run(*words):
    return subprocess.run([PROGRAM, *words], check=True, stdout=subprocess.PIPE, text=True).stdout


def best(*words):
    times = []
    for _ in range(ROUNDS):
        begun = time.perf_counter()
        run(*words)
        times.append(time.perf_counter() - begun)
    return min(times)


def write(path, text):
    with open(path, "w", encoding="utf-8") as out:
        out.write(text)


load = os.getloadavg()[0]
if load > 0.5:
    print(f"this machine is busy (load {load:.1f}): the rates are too low")
with open(SCENARIO, encoding="utf-8") as read:
    head = read.read().split("sweep:")[0]
with tempfile.TemporaryDirectory() as scratch:
    grid, cases = os.path.join(scratch, "grid.yaml"), os.path.join(scratch, "cases.csv")
    write(grid, head + "sweep:\n  wheel_load: {values: [9 kN, 12 kN, 15 kN, 18 kN, 21 kN]}\n"
          f"  setting: {{from: -0.06 mm, to: 0.3 mm, steps: {STEPS}}}\n")
    rows = [line.split(",") for line in run("sweep", grid).splitlines()[1:]]
    write(cases, "wheel_load [N],setting [mm]\n" + "".join(f"{r[0]},{r[1]}\n" for r in rows))
    rate = {}
    for threads in (1, 2):
        rate["warm", threads] = len(rows) / best("sweep", grid, "-j", str(threads))
        rate["cold", threads] = len(rows) / best("sweep", grid, "--cases", cases, "-j", str(threads))
    alone = best("life", grid, "-f", "json")
print(f"sweep of a hub, {len(rows)} rows of one phase, rows/s")
for threads in (1, 2):
    warm, cold = rate["warm", threads], rate["cold", threads]
    print(f"  {threads} thread{'s' if threads > 1 else ' '}   warm {warm:6.0f}   cold {cold:6.0f}   warm/cold {warm / cold:.2f}")
print(f"  one `life` for each row {1 / alone:6.0f} (its losses and settings included)")
