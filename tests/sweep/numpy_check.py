# SPDX-License-Identifier: GPL-3.0-or-later
"""Arrays of `spalltime sweep`, read by NumPy, have the names, the rows and the numbers of the CSV.

What is swept stands in the CSV in up to ten digits, answers in six; no value is an empty cell there
and NaN here; words are numbers here, as the README says.
"""
import csv
import io
import math
import os
import subprocess
import sys
import tempfile

import numpy as np

PROGRAM = sys.argv[1]
STATUSES = ["ok", "no_damage", "film_too_thin", "grease_exhausted", "too_hot", "oil_too_stiff",
            "radial_not_rated", "no_answer", "refused", "cannot_carry", "moved_too_far",
            "no_reference", "not_converged"]
CLASSES = ["high", "normal", "slight", "severe", "very severe"]  # of grease, from the cleanest
INPUTS = "tests/cli/inputs/"
RUNS = [
    [INPUTS + "sweep.yaml"],
    [INPUTS + "sweep_duty.yaml", "--columns", "equivalent_load_n,effective_viscosity_ratio,status"],
    [INPUTS + "sweep.yaml", "--cases", INPUTS + "cases.csv"],
    [INPUTS + "sweep.yaml", "--cases", INPUTS + "cases_labels.csv", "--columns", "case,modified_rating_life_h"],
    [INPUTS + "sweep_hub.yaml", "--shard", "1/3"],
    [INPUTS + "sweep_hub.yaml", "--cases", INPUTS + "hub_cases.csv"],
]


def run(words):
    done = subprocess.run([PROGRAM, "sweep", *words], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 3):  # 3: rows rejected, in both forms
        sys.exit(f"sweep-numpy: {words}: status {done.returncode}: {done.stderr}")
    return done.stdout


def agrees(name, text, value):
    if name == "case":
        return int(text) == value and value.dtype == np.int64
    if name == "status":
        return STATUSES[value] == text
    if name == "cleanliness":
        return CLASSES[int(value)] == text
    if name == "grade":
        return text == f"VG {value:.0f}"
    if not text:
        return math.isnan(value)
    # a swept value may have ten digits; the six of an answer are the rounded ones
    return float(text) in (float(f"{value:.6g}"), float(f"{value:.10g}"))


def check(words, folder):
    path = os.path.join(folder, "rows.npy")
    text = run([*words, "-f", "csv"])
    run([*words, "-f", "npy", "-o", path])
    names, *rows = csv.reader(io.StringIO(text))
    array = np.load(path, allow_pickle=False)
    os.remove(path)
    if list(array.dtype.names) != names or array.shape != (len(rows),) or not rows:
        sys.exit(f"sweep-numpy: {words}: {array.dtype.names} x {array.shape}, CSV {names} x {len(rows)}")
    for number, (row, record) in enumerate(zip(rows, array)):
        for name, cell in zip(names, row):
            if not agrees(name, cell, record[name]):
                sys.exit(f"sweep-numpy: {words}, row {number}, {name}: {record[name]!r}, CSV {cell!r}")
    return array.size


with tempfile.TemporaryDirectory() as scratch:
    rows = sum(check(words, scratch) for words in RUNS)
print(f"sweep-numpy: {rows} rows of {len(RUNS)} sweeps are the same read by NumPy {np.__version__} and as CSV")
