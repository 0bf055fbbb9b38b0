# SPDX-License-Identifier: GPL-3.0-or-later
"""The kernel of the sweeps on NumPy arrays: spt_batch_points of spalltime/sweep.h."""
from __future__ import annotations

import ctypes
from typing import TYPE_CHECKING, Any

from . import _library

if TYPE_CHECKING:
    import numpy

BATCH_COLUMNS = ("dynamic_load_rating_n", "fatigue_load_limit_n", "speed_rpm", "equivalent_load_n", "temperature_c",
                 "line_a", "line_b", "nu40_mm2_s", "nu100_mm2_s", "condition", "contamination_factor", "water_ppm",
                 "film_ratio")
"""What may vary from point to point; ranges and units stand in sweep.h."""
BATCH_RESULTS = ("viscosity_ratio", "contamination_factor", "life_modification_factor", "water_factor",
                 "basic_rating_life_h", "modified_rating_life_h", "status", "fresh_viscosity_ratio")
BATCH_BITS = {"bad_input": 1, "film_too_thin": 2, "film_capped": 4, "life_factor_capped": 8, "ep_credit": 16,
              "water_extrapolated": 32, "overload": 64, "viscosity_range": 128}
"""Bits of the results' `status`."""
_NAMES_MAX = 64
_WAYS = ("grease", "oil bath", "circulating oil")


class _Column(ctypes.Structure):
    _fields_ = [("values", ctypes.POINTER(ctypes.c_double)), ("stride", ctypes.c_size_t)]


class _Batch(ctypes.Structure):
    _fields_ = [("type", ctypes.c_int), ("pitch_diameter_mm", ctypes.c_double), ("density_factor", ctypes.c_double),
                ("reliability_factor", ctypes.c_double), ("ep_additive", ctypes.c_bool),
                ("columns", _Column * len(BATCH_COLUMNS))]


class _Results(ctypes.Structure):
    _fields_ = [(name, ctypes.POINTER(ctypes.c_ubyte if name == "status" else ctypes.c_double))
                for name in BATCH_RESULTS]


def _names(function: str) -> dict[int, str]:
    """The names of an enumeration by their numbers."""
    name_of = getattr(_library.model(), function)
    name_of.restype = ctypes.c_char_p
    names = {number: name_of(number).decode() for number in range(_NAMES_MAX)}
    return {number: name for number, name in names.items() if name != "unknown"}


def _number(names: dict[int, str], word: str, what: str) -> int:
    for number, name in names.items():
        if name == word:
            return number
    raise ValueError(f"{word!r} is no {what}; it is one of: {', '.join(names.values())}")


def _class(cleanliness: str, lubrication: str) -> int:
    """The number of a class, whose name may stand for another with another way of lubricating."""
    way = _number(dict(enumerate(_WAYS)), lubrication, "way of lubricating")
    kind_of = _library.model().spt_cleanliness_kind
    names = {number: name for number, name in _names("spt_cleanliness_name").items() if kind_of(number) == way}
    return _number(names, cleanliness, f"class of cleanliness of {lubrication}")


def kernel_variant() -> str:
    """The instruction set that the kernel uses on this machine."""
    name = _library.model().spt_batch_variant
    name.restype = ctypes.c_char_p
    return name().decode()


def _reliability_factor(percent: float) -> float:
    factor = ctypes.c_double()
    function = _library.model().spt_life_reliability_factor
    function.argtypes = [ctypes.c_double, ctypes.POINTER(ctypes.c_double)]
    if function(percent, ctypes.byref(factor)):
        raise ValueError(f"a reliability of {percent} % is outside the range of a1, 90 to 99.95 %")
    return factor.value


def points(bearing_type: str, pitch_diameter_mm: float, *, reliability_percent: float = 90,
           ep_additive: bool = False, density_factor: float = 1, cleanliness: str | None = None,
           lubrication: str = "grease", **columns: Any) -> dict[str, "numpy.ndarray"]:
    """The chain viscosity, kappa, e_C, a_ISO, life for many points at once.

    In:     the type ("tapered roller", "deep groove ball", ...), D_pw in mm, and for each quantity of BATCH_COLUMNS a
            number or an array of n numbers; either `cleanliness` with its way of lubricating ("normal", "-/17/14" of
            an "oil bath"), `condition` or `contamination_factor`, and either nu40 and nu100 or the line.
    Result: BATCH_RESULTS as arrays of n elements. A point outside its range has NaN and says why in `status`.
    Raises: ValueError for names that there are not, lengths that differ, or a quantity that is missing or twice there.
    """
    import numpy

    if cleanliness is not None:
        columns["condition"] = _class(cleanliness, lubrication)
    strangers = sorted(set(columns) - set(BATCH_COLUMNS))
    if strangers:
        raise ValueError(f"{strangers[0]!r} is no quantity of the kernel; those are: {', '.join(BATCH_COLUMNS)}")
    held = {name: numpy.asarray(values, dtype=numpy.float64, order="C") for name, values in columns.items()}
    lengths = {values.size for values in held.values() if values.ndim}
    if len(lengths) > 1 or any(values.ndim > 1 for values in held.values()):
        raise ValueError(f"the arrays have different lengths or more than one dimension: {sorted(lengths)}")
    count = lengths.pop() if lengths else 1
    kind = _number(_names("spt_bearing_type_name"), bearing_type, "type of bearing")
    batch = _Batch(kind, pitch_diameter_mm, density_factor, _reliability_factor(reliability_percent), ep_additive)
    for name, values in held.items():
        batch.columns[BATCH_COLUMNS.index(name)] = _Column(
            values.ctypes.data_as(ctypes.POINTER(ctypes.c_double)), 1 if values.ndim else 0)
    made = {name: numpy.empty(count, numpy.uint8 if name == "status" else numpy.float64) for name in BATCH_RESULTS}
    results = _Results(*(made[name].ctypes.data_as(kind) for name, kind in _Results._fields_))
    work = _library.model().spt_batch_points
    work.argtypes = [ctypes.POINTER(_Batch), ctypes.c_size_t, ctypes.c_size_t, ctypes.POINTER(_Results)]
    if work(ctypes.byref(batch), 0, count, ctypes.byref(results)):
        raise ValueError("a quantity is missing, or stated twice: needed are C, C_u, speed, P, temperature, either "
                         "nu40 and nu100 or the line, either a class or e_C; or a number beside them is out of range")
    return made
