# SPDX-License-Identifier: GPL-3.0-or-later
"""Rolling bearing life and adequacy of lubrication, from a scenario.

>>> import spalltime
>>> answer = spalltime.life(pathlib.Path("scenarios/beet_trailer_hub.yaml"))
>>> answer["system"]["modified_rating_life_h"], answer.met

A scenario is a text of YAML (str or bytes), a file (a path object), or a dict of the same keys. Each command of the
program is a function with the options of the program as keywords: `spalltime.reach(scenario, life="20000 h")`.
Mistakes in an input are raised as InputError, each with its line and column. Several threads may call at a time; the
lock of the interpreter is free while the library works.
"""
from ._commands import (Answer, catalog, check, choose, compare, damage, diagnose, duty, example, fit, life, reach, run,
                        schedule, schema, setting, spread, sweep, timeline, write)
from ._errors import InputError, Mistake, OutOfMemory, SpalltimeError, UsageError
from ._kernel import BATCH_BITS, BATCH_COLUMNS, BATCH_RESULTS, kernel_variant, points
from ._library import version

__version__ = version()

__all__ = [
    "Answer", "BATCH_BITS", "BATCH_COLUMNS", "BATCH_RESULTS", "InputError", "Mistake", "OutOfMemory",
    "SpalltimeError", "UsageError", "catalog", "check", "choose", "compare", "damage", "diagnose", "duty", "example",
    "fit", "kernel_variant", "life", "points", "reach", "run", "schedule", "schema", "setting", "spread", "sweep",
    "timeline", "version", "write",
]
