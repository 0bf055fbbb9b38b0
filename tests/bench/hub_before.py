# SPDX-License-Identifier: GPL-3.0-or-later
"""CPU time of whole commands on a hub, of two builds of the program side by side, best of some rounds:
hub_before.py PROGRAM BEFORE SCENARIO"""
import os
import resource
import subprocess
import sys

PROGRAM, BEFORE, SCENARIO = sys.argv[1:4]
ROUNDS = 5
with open(SCENARIO, encoding="utf-8") as read:
    WHOLE = read.read()
ALONE = WHOLE.split("service:")[0]
TEXTS = {
    "setting": (["setting"], WHOLE),
    "life": (["life"], WHOLE),
    "compare": (["compare"], WHOLE),
    "reach": (["reach"], WHOLE),
    "report": (["report"], WHOLE),
    "sweep, 801 settings": (["sweep"], ALONE + "sweep: {setting: {from: -0.1 mm, to: 0.3 mm, steps: 801}}\n"),
    "spread of end play and load, 2000 samples": (
        ["spread", "--samples", "2000"], ALONE + "uncertainty: {end_play: {plus_minus: 0.03 mm}, load: {plus_minus: 15 %}}\n"),
}


def spent():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def time_once(program, words, text):
    begun = spent()
    subprocess.run([program, *words, "-"], input=text, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, text=True, check=False)
    return spent() - begun


os.environ.setdefault("SPALLTIME_CATALOGS", "catalogs")
for name, (words, text) in TEXTS.items():
    best = {PROGRAM: 1e9, BEFORE: 1e9}
    for _ in range(ROUNDS):
        for program in best:
            best[program] = min(best[program], time_once(program, words, text))
    print(f"  {name:42} before {1e3 * best[BEFORE]:7.1f} ms, now {1e3 * best[PROGRAM]:6.1f} ms: "
          f"{best[BEFORE] / best[PROGRAM]:.1f} times faster")
