# SPDX-License-Identifier: GPL-3.0-or-later
"""The chain of the batch kernel in plain NumPy, timed for comparison.

chain_numpy.py points FILE HOURS   points of FILE (NPY records); saves the lives; prints ns a point
chain_numpy.py grid                the grid of bench.c by broadcasting; prints ns a point
chain_numpy.py drygrid             the one without a water axis
chain_numpy.py savetxt FILE        writes the grid with numpy.savetxt; prints ns a row
Each prints one number, the best of several runs.
"""
import sys
import time

import numpy as np

C, CU, PITCH = 250e3, 31e3, 110.0
E_C_C = np.array([0.0864, 0.0432, 0.0177, 0.0115, 0.00617])  # grease, cleanest first
E_C_B = np.array([0.6796, 1.141, 1.887, 2.662, 4.06])


def walther_line():
    y40, y100 = (np.log10(np.log10(nu + 0.7)) for nu in (220.0, 19.0))
    b = (y40 - y100) / (np.log10(373.15) - np.log10(313.15))
    return y40 + b * np.log10(313.15), b


A, B = walther_line()


def chain(speed, load, temperature, condition, water):
    nu = 10 ** (10 ** (A - B * np.log10(temperature + 273.15))) - 0.7
    nu1 = np.where(speed < 1000, 45000 * speed**-0.83, 4500 * speed**-0.5) / np.sqrt(PITCH)
    kappa = nu / nu1
    k = np.minimum(kappa, 4)
    bracket = np.maximum(0, 1 - E_C_B[condition] / np.cbrt(PITCH))
    e_c = np.minimum(1, E_C_C[condition] * k**0.68 * PITCH**0.55) * bracket
    coefficient = np.where(k < 0.4, 1.3993, 1.2348)
    exponent = np.where(k < 0.4, 0.054381, np.where(k < 1, 0.19087, 0.071739))
    difference = np.maximum(1.5859 - coefficient * k**-exponent, 0)
    rest = 1 - difference * (e_c * CU / load) ** 0.4
    a_iso = np.minimum(50, 0.1 * np.maximum(rest, 1e-9) ** -9.185)
    a_w = np.where(water <= 100, 1, np.maximum(1 / 11, (100 / water) ** 0.6))
    l10h = (C / load) ** (10 / 3) * 1e6 / (60 * speed)
    return np.where(kappa < 0.1, np.nan, a_iso * a_w * l10h), kappa, a_iso, l10h


def best(work, runs):
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def grid():
    speed = 50 * 1.3 ** np.arange(10)
    temperature = 30 + 8.0 * np.arange(10)
    condition = np.arange(5)
    water = 50 * 1.5 ** np.arange(10)
    load = 5000 * 1.015 ** np.arange(200)
    return (speed[:, None, None, None, None], load, temperature[:, None, None, None],
            condition[:, None, None], water[:, None])


def dry_grid():
    speed, load, temperature, condition, _ = (axis.ravel() for axis in grid())
    step = np.arange(100)
    temperature = 30 + 8.0 * (step % 10) + 0.75 * (step // 10)
    return (speed[:, None, None, None], load, temperature[:, None, None], condition[:, None],
            np.float64(50.0))


def main():
    if sys.argv[1] == "points":
        points = np.load(sys.argv[2])
        columns = [np.ascontiguousarray(points[name]) for name in points.dtype.names]
        columns[3] = columns[3].astype(np.int64) - 9
        print(best(lambda: chain(*columns), 5) / len(points) * 1e9)
        chain(*columns)[0].tofile(sys.argv[3])
    elif sys.argv[1] in ("grid", "drygrid"):
        axes = grid() if sys.argv[1] == "grid" else dry_grid()
        print(best(lambda: chain(*axes), 5) / 1e6 * 1e9)
    else:
        axes = grid()
        start = time.perf_counter()
        life, kappa, _, l10h = np.broadcast_arrays(*chain(*axes))
        speed, load, temperature, condition, water = np.broadcast_arrays(*axes)
        rows = (speed, temperature, condition + 9, water, load, kappa, l10h, life)
        table = np.stack([column.ravel() for column in rows], axis=1)
        np.savetxt(sys.argv[2], table, fmt="%.6g", delimiter=",")
        print((time.perf_counter() - start) / len(table) * 1e9)


main()
