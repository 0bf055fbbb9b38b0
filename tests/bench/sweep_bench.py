# SPDX-License-Identifier: GPL-3.0-or-later
"""Wall time of `spalltime sweep` to CSV beside numpy.savetxt of the same rows (already computed, in
memory), and start-up time of the program beside `import numpy`. Best of several rounds, one process each."""
import os
import subprocess
import sys
import tempfile
import time

import numpy as np

program, scenario = sys.argv[1:3]


def best(action, rounds):
    times = []
    for _ in range(rounds):
        begun = time.perf_counter()
        action()
        times.append(time.perf_counter() - begun)
    return min(times)


def run(*words):
    subprocess.run([program, *words], check=True, stdout=subprocess.DEVNULL)


load = os.getloadavg()[0]
if load > 0.5:
    print(f"this machine is busy (load {load:.1f}): the times are too high")
folder = "/dev/shm" if os.path.isdir("/dev/shm") else None
with tempfile.TemporaryDirectory(dir=folder) as scratch:
    array = os.path.join(scratch, "rows.npy")
    text = os.path.join(scratch, "rows.csv")
    run("sweep", scenario, "-f", "npy", "-o", array)
    rows = np.load(array)
    numpy_s = best(lambda: np.savetxt(text, rows, fmt="%.6g", delimiter=","), 3)
    ours = {n: best(lambda: run("sweep", scenario, "--threads", str(n), "-o", text), 7) for n in (1, 2)}
print(f"{len(rows)} rows of {len(rows.dtype)} columns to CSV in {folder or 'a temporary folder'}")
print(f"  numpy.savetxt, %.6g                    {numpy_s / len(rows) * 1e9:9.0f} ns a row")
for threads, spent in ours.items():
    print(f"  sweep, {threads} thread{'s' if threads > 1 else ' '}, start and answers included {spent / len(rows) * 1e9:9.0f} ns a row, "
          f"ratio {numpy_s / spent:.1f} (goal 30)")
start = best(lambda: run("--version"), 30)
life = best(lambda: run("life", scenario, "--quiet"), 30)
imported = best(lambda: subprocess.run([sys.executable, "-c", "import numpy"], check=True), 8)
print(f"start of the program {start * 1e3:.2f} ms, `import numpy` {imported * 1e3:.1f} ms, ratio {imported / start:.1f} (goal 40)")
print(f"`life` of the scenario {life * 1e3:.2f} ms, ratio {imported / life:.1f}")
