#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes one place of src/model, src/study, src/scenario or the public headers at a time and runs the tests: a change that no test
notices is a survivor. A numeric constant is changed by 1 % (by one where it is a whole number that must stay one), `<` becomes `<=`,
`==` becomes `!=`, `&&` becomes `||`, `+` becomes `-`, `*` becomes `/`, and each of these also in reverse. These layers are linked to
the tests as a shared library, so that a change needs the compilation of one file and the linking of that library, not a copy of the
source tree. The test that noticed the last change of the file runs first, then the suites of the same name, then the quick ones,
then the slow ones.

usage: mutation.py FOLDER [--most N] [--seed K] [--workers N] [--resume] [FILE[:LINE]...]
FOLDER: what `make mutation` has built. Without FILE all sources and headers of these layers are changed; --kind selects constants or
operators; --most takes a random sample of that many places, the same for the same seed. Each result is a line of
FOLDER/verdicts.tsv; --resume keeps the results of unchanged sources. Exit status 1 if a change survives that is not in
exceptions.txt. For the models, suites that compare with earlier output of the program do not count; for the reader of scenarios,
whose messages are its output, every suite counts that starts no other process."""
import argparse
import concurrent.futures
import os
import pathlib
import random
import re
import shlex
import subprocess
import sys
import threading

ROOT = pathlib.Path(__file__).resolve().parents[2]
SKIPPED = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\'|^\s*#\s*(?:include|if|endif|pragma)[^\n]*',
                     re.S | re.M)
NUMBER = re.compile(r'(?<![\w.])(0x[\da-fA-F.]+p[-+]?\d+|\d+\.\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.])')
TOLERANCE = re.compile(r'\de-\d+')  # one digit and far below 1: a tolerance, which 1 % does not change
# binary operators, which clang-format stands between blanks or at the end of a line
OPERATOR = re.compile(r'(?<= )(<=|>=|==|!=|&&|\|\||[-<>+*/])(?=[ \n])')
OTHER = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&", "+": "-", "-": "+", "*": "/", "/": "*"}
LOOP = re.compile(r'^\s*for \([^;]*;[^;]*;', re.M)  # a loop that runs once more reads behind its array: the sanitizers' to notice
PREPROCESSOR = re.compile(r'^\s*#(?:[^\n]*\\\n)*[^\n]*', re.M)
SMALL_COUNT = 2                    # whole numbers up to this are counts and exponents of squares
LAYERS = ("words", "model", "study", "scenario")
BELOW = ("base", "file")           # linked with them, not changed
OWN = ("cli cli_json schema readme shipped lessons bad_input bad_guide hub_regression").split()  # answers of our own
PROGRAM = "calendar progress chart markup html batch_build".split()  # run the program, which is not built here
OUTER = ("npy number number_property svg axis escape csv ical json palette nearest utf8 text sentence date "
         "diagnostics document field_data fields units arena guide guide_search guide_memory hub_report").split()
SLOW = ("timeline timeline_drift setting sweep sweep_hub batch_property hub_bench_property hub_bench hub_property uncertainty "
        "timeline_property reach weibull_property rank_property").split()
INLINE = {"src/model/batch/lanes.h": "tests/unit/model/hub.c", "src/model/batch/aiso_power.h": "tests/unit/model/aiso_power.c"}  # tests with a copy
NAMES = 60                         # of a pattern
lock = threading.Lock()


def constants(text):
    """Places (start, end, literal) of the constants worth changing."""
    blank = SKIPPED.sub(lambda m: re.sub(r'[^\n]', ' ', m.group()), text)
    for m in NUMBER.finditer(blank):
        literal, before, after = m.group(), blank[:m.start()].rstrip(), blank[m.end():].lstrip()
        whole = literal.isdigit()
        small = TOLERANCE.fullmatch(literal) and float(literal) < 1e-5
        if not literal.startswith("0x") and float(literal) == 0 or small or before.endswith(('[', 'case')):
            continue
        if whole and (int(literal) <= SMALL_COUNT or after.startswith((']', ':')) or before.endswith(('<', '>', '==', '%'))):
            continue
        yield m.start(), m.end(), literal


def operators(text):
    """Places (start, end, operator) of the binary operators worth changing."""
    for pattern in (SKIPPED, PREPROCESSOR, LOOP):
        text = pattern.sub(lambda m: re.sub(r'[^\n]', ' ', m.group()), text)
    for m in OPERATOR.finditer(text):
        yield m.start(1), m.end(1), m.group(1)


def run(command, seconds, **more):
    try:
        return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, errors="replace", timeout=seconds, **more)
    except subprocess.TimeoutExpired:
        return None  # an endless loop is noticed too


class Bench:
    """One worker: a folder with a changed source and the library made of it."""

    def __init__(self, folder, number, options):
        self.folder, self.work, self.options = folder, folder / f"work{number}", options
        self.work.mkdir(exist_ok=True)
        self.objects = {str(o.relative_to(folder)): str(o) for layer in BELOW + LAYERS
                        for o in sorted((folder / "src" / layer).rglob("*.o"))}
        self.environment = dict(os.environ, LD_LIBRARY_PATH=str(self.work))

    def sources(self, name):
        """The sources that a change of `name` reaches."""
        if name.endswith(".c"):
            return [name]
        return [o[:-2] + ".c" for o in self.objects if name in (self.folder / (o[:-2] + ".d")).read_text().split()]

    def compile(self, source, path):
        output = str(self.work / "changed" / (source[:-2] + ".o"))
        pathlib.Path(output).parent.mkdir(parents=True, exist_ok=True)
        done = run(["cc", f"-I{self.work}/src", f"-I{self.work}/include", "-Iinclude", "-Isrc", "-Itests", *self.options, "-c", path, "-o", output], 300)
        return output if done is not None and done.returncode == 0 else None

    def build(self, name, text):
        """The library with `text` in the place of `name`; False where it does not compile."""
        changed = self.work / name
        changed.parent.mkdir(parents=True, exist_ok=True)
        changed.write_text(text)
        objects = dict(self.objects)
        try:
            for source in self.sources(name):
                objects[source[:-2] + ".o"] = self.compile(source, str(changed) if source == name else source)
                if not objects[source[:-2] + ".o"]:
                    return False
            self.tests = self.build_tests(name)
            if not self.tests:
                return False
            library = self.work / self.options_library
            done = run(["cc", "-shared", f"-Wl,-soname,{self.options_library}", "-pthread", "-o", str(library),
                        *objects.values(), *self.libraries], 300)
            return done is not None and done.returncode == 0
        finally:
            changed.unlink()

    def build_tests(self, name):
        """The test program; one of its own where a test has inline functions of a header. None where that does not build."""
        if name not in INLINE:
            return str(self.folder / "tests" / "spalltime_tests")
        own, link = str(self.work / "spalltime_tests"), shlex.split((self.folder / "tests" / "link").read_text())
        link[link.index(str(self.folder.relative_to(ROOT) / (INLINE[name][:-2] + ".o")))] = self.compile(INLINE[name], INLINE[name])
        done = run(["cc", *link, "-o", own], 300) if all(link) else None
        return own if done is not None and done.returncode == 0 else None

    def failing_of(self, suites):
        """The first test that fails among suites; in parts, since Criterion fails on a pattern of too many names."""
        parts = (suites[i:i + NAMES] for i in range(0, len(suites), NAMES))
        return next(filter(None, (self.failing(f"@({'|'.join(part)})/*") for part in parts)), "")

    def failing(self, suites, seconds=300):
        """The first test that fails among those of a pattern; "" where none does."""
        done = run([self.tests, "--short-filename", "-j1", "--fail-fast", "--filter", suites],
                   seconds, env=self.environment)
        if done is None:
            return "endless"
        if done.returncode == 0:
            return ""
        found = re.search(r"\[FAIL\] (\w+)::(\w+)|\[(?:----|WARN)\] +(\w+)::(\w+)", done.stderr + done.stdout)
        names = [n for n in found.groups() if n] if found else []
        return "/".join(names) if names else "crash"


def changes(literal):
    """What to write in the place of a constant or an operator; the first that compiles counts."""
    if literal in OTHER:
        return [OTHER[literal]]
    if literal.isdigit():
        return [f"({literal}.0 * 1.01)", f"({literal} + 1)"]  # 1 % of a whole number in a place of doubles, else one more
    return [f"({literal} * 1.01)"]


def judge(bench, name, text, place, killers):
    start, stop, literal = place
    if not any(bench.build(name, text[:start] + change + text[stop:]) for change in changes(literal)):
        return "refused", ""
    suites = Bench.suites + (Bench.reader_suites if name.startswith("src/scenario/") else [])
    stem = pathlib.Path(name).stem.split("_")[0]
    for test in list(killers.get(name, []))[:4]:
        if "/" in test and bench.failing(test):
            return "noticed", test
    near = [s for s in suites if s.startswith(stem) or s.endswith("_published")]
    rest = [s for s in suites if s not in near + SLOW]
    for suites in (near, rest, [s for s in SLOW if s not in near]):
        test = bench.failing_of(suites)
        if test:
            with lock:
                known = killers.setdefault(name, [])
                if test in known:
                    known.remove(test)
                known.insert(0, test)
            return "noticed", test
    return "survivor", ""


FINDERS = {"constants": constants, "operators": operators}


def listed(files, most, seed, kinds):
    """The places asked for: (name, text, place, line, ordinal among the places of its kind in that line)."""
    wanted = {}
    for word in files or sorted(str(p.relative_to(ROOT)) for folder in [f"src/{layer}" for layer in LAYERS] + ["include/spalltime"]
                                for p in (ROOT / folder).rglob("*.[ch]")):
        name, _, line = word.partition(":")
        wanted.setdefault(name, set()).add(int(line) if line else 0)
    result = []
    for name, lines in wanted.items():
        text = (ROOT / name).read_text()
        for kind in kinds:
            places = [(p, text.count("\n", 0, p[0]) + 1) for p in FINDERS[kind](text)]
            for i, (place, line) in enumerate(places):
                if 0 in lines or line in lines:
                    nth = sum(1 for p, at in places[:i] if at == line) + 1
                    result.append((name, text, place, line, nth))
    return random.Random(seed).sample(result, most) if 0 < most < len(result) else result


def find_suites(folder):
    """Names of the suites whose tests count for the models, and of those that count for the reader of scenarios beside."""
    done = run([str(folder / "tests" / "spalltime_tests"), "--list"], 60,
               env=dict(os.environ, LD_LIBRARY_PATH=str(folder / "work0")))
    names = re.findall(r"^(\w+): \d+ tests?", done.stdout + done.stderr, re.M)
    Bench.suites = [n for n in names if n not in OWN + PROGRAM + OUTER]
    Bench.reader_suites = [n for n in names if n in OUTER + ["bad_input", "bad_guide"]]


def excepted(path):
    """Exceptions: file, the part of a line that the constants or operators stand in, and the reason."""
    rows = [line.split("\t") for line in path.read_text().splitlines() if line and not line.startswith("#")]
    return [(name, part) for name, part, _ in rows]


def stale(exceptions):
    """The exceptions in which no place stands any more."""
    places = listed([], 0, 0, FINDERS)
    return [e for e in exceptions if not any(is_excepted([e], name, text, place) for name, text, place, _, _ in places)]


def is_excepted(exceptions, name, text, place):
    begin = text.rfind("\n", 0, place[0]) + 1
    line = text[begin:text.find("\n", place[0])]
    for part in (p for n, p in exceptions if n == name):
        at = line.find(part)
        if 0 <= at <= place[0] - begin and place[1] - begin <= at + len(part):
            return True
    return False


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folder", type=pathlib.Path)
    options.add_argument("--flags", default="")
    options.add_argument("--library", default="")
    options.add_argument("--libraries", default="")
    options.add_argument("--kind", choices=FINDERS)
    options.add_argument("--most", type=int, default=0)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--workers", type=int, default=1)
    options.add_argument("--resume", action="store_true")
    options.add_argument("files", nargs="*")
    options = options.parse_intermixed_args()
    folder = options.folder.resolve()
    Bench.options_library, Bench.libraries = options.library, shlex.split(options.libraries)
    benches = [Bench(folder, n, shlex.split(options.flags)) for n in range(options.workers)]
    for bench in benches:
        name = "src/model/status.c"
        if not bench.build(name, (ROOT / name).read_text()):
            sys.exit("mutation: the library does not build without any change")
    find_suites(folder)
    failing = benches[0].failing_of(Bench.suites + Bench.reader_suites)
    if failing:
        sys.exit(f"mutation: {failing} fails without any change")
    verdicts = folder / "verdicts.tsv"
    known = set()
    if options.resume and verdicts.exists():
        known = {tuple(row.split("\t")[1:5]) for row in verdicts.read_text().splitlines()}
    else:
        verdicts.write_text("")
    places = listed(options.files, options.most, options.seed, [options.kind] if options.kind else FINDERS)
    exceptions = excepted(ROOT / "tests" / "mutation" / "exceptions.txt")
    for name, part in stale(exceptions):
        sys.exit(f"mutation: the exception `{part}` of {name} fits no place: take it out")
    free, killers, counts, bad = list(benches), {}, {}, []

    def work(asked):
        name, text, place, line, nth = asked
        source = text.splitlines()[line - 1].strip()
        if (name, place[2], str(nth), source) in known:
            return
        with lock:
            bench = free.pop()
        if is_excepted(exceptions, name, text, place):
            verdict, test = "excepted", ""
        else:
            verdict, test = judge(bench, name, text, place, killers)
        with lock:
            free.append(bench)
            counts[verdict] = counts.get(verdict, 0) + 1
            with verdicts.open("a") as file:
                file.write("\t".join((verdict, name, place[2], str(nth), source, str(line), test)) + "\n")
            if verdict == "survivor":
                bad.append(name)
                print(f"survivor: {name}:{line}: {place[2]}: {source}", flush=True)

    with concurrent.futures.ThreadPoolExecutor(options.workers) as pool:
        list(pool.map(work, places))
    print(f"{len(places)} changes: " + ", ".join(f"{n} {v}" for v, n in sorted(counts.items())))
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
