#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes one numeric constant of src/model or src/study at a time by 1 %, builds the one file again, and runs the
tests: a change that no test notices is a survivor. Works in a copy of the tree under build/mutation.

usage: mutation.py [--most N] [--seconds S] [--seed K] [FILE...]
Without FILE every source of the two layers; --most takes a sample of that many constants, the same for the same seed.
The answers of whole commands, which are values of our own, are not among the tests that count here."""
import argparse
import pathlib
import random
import re
import shutil
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
COPY = ROOT / "build" / "mutation"
SKIPPED = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\'|^\s*#\s*(?:include|if|endif|pragma)[^\n]*',
                     re.S | re.M)
NUMBER = re.compile(r'(?<![\w.])(\d+\.\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.])')
TOLERANCE = 1e-5  # what is smaller is a tolerance of an iteration, which 1 % does not change
SMALL_COUNT = 2   # whole numbers up to this are counts and exponents of squares


def constants(text):
    """Places (start, end, literal) of the constants worth changing."""
    blank = SKIPPED.sub(lambda m: re.sub(r'[^\n]', ' ', m.group()), text)
    for m in NUMBER.finditer(blank):
        literal, before, after = m.group(), blank[:m.start()].rstrip(), blank[m.end():].lstrip()
        whole = literal.isdigit()
        if float(literal) == 0 or abs(float(literal)) < TOLERANCE or before.endswith(('[', 'case')):
            continue
        if whole and (int(literal) <= SMALL_COUNT or after.startswith((']', ':')) or before.endswith(('<', '>', '==', '%'))):
            continue
        yield m.start(), m.end(), literal


def run(command, seconds):
    try:
        return subprocess.run(command, cwd=COPY, capture_output=True, timeout=seconds).returncode
    except subprocess.TimeoutExpired:
        return -1  # an endless loop is noticed too


def make(target):
    return run(["make", "-s", "--no-print-directory", "BUILD=debug", "CFLAGS=-O1", target], 600)


def tests():
    return run(["build/debug/tests/spalltime_tests", "--short-filename", "--quiet", "--fail-fast", "-j1"], 300)


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--most", type=int, default=0)
    options.add_argument("--seconds", type=float, default=1e9)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("files", nargs="*")
    options = options.parse_args()
    shutil.rmtree(COPY, ignore_errors=True)
    shutil.copytree(ROOT, COPY, ignore=shutil.ignore_patterns("build", ".git", "__pycache__"))
    for suite in ("cli", "bad_input"):  # answers of our own; their inputs serve other tests
        for source in (COPY / "tests" / suite).glob("*.c"):
            source.unlink()
    binary = "build/debug/tests/spalltime_tests"
    if make("all") or make(binary) or tests():
        sys.exit("mutation: the tests fail without any change")
    files = options.files or sorted(str(p.relative_to(ROOT)) for layer in ("model", "study")
                                    for p in (ROOT / "src" / layer).glob("*.[ch]"))
    changes = [(name, place) for name in files for place in constants((COPY / name).read_text())]
    if options.most and options.most < len(changes):
        changes = random.Random(options.seed).sample(changes, options.most)
    end = time.monotonic() + options.seconds
    killed = refused = 0
    survivors = []
    for name, (start, stop, literal) in changes:
        if time.monotonic() > end:
            break
        path = COPY / name
        text = path.read_text()
        changed = f"({literal} * 1.01)" if not literal.isdigit() else f"({literal}.0 * 1.01)"
        path.write_text(text[:start] + changed + text[stop:])
        if make(binary):
            refused += 1
        elif tests():
            killed += 1
        else:
            line = text.count("\n", 0, start) + 1
            survivors.append(f"{name}:{line}: {literal}: {text.splitlines()[line - 1].strip()}")
            print("survivor:", survivors[-1], flush=True)
        path.write_text(text)
    done = killed + len(survivors)
    print(f"{done} changes of {len(changes)}: {killed} noticed, {len(survivors)} not; {refused} would not compile")


if __name__ == "__main__":
    main()
