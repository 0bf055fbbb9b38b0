#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks `spalltime timeline` against SciPy: the whole chain of ISO 281 for a roller bearing in plain NumPy, the damage
integrated by QUADPACK, the life found by Brent's method.

Usage: tests/scipy/timeline_check.py PROGRAM
Random oil baths in which load, water and temperature drift. Exit status 1 where a life differs.
Sources: ISO 281:2007, 8 and Annex (roller bearings, a_ISO), ASTM D341 (viscosity); constants from memory. The water
factor is the one the program states.
"""
import json
import subprocess
import sys

import numpy as np
from scipy import integrate, optimize

ALLOWED = 1e-9  # relative; the program works to about 1e-12

SCENARIO = """title: drifting oil bath
bearing: {{type: tapered roller, bore: 60 mm, outside_diameter: 110 mm, width: 29.75 mm, pitch_diameter: {pitch} mm, contact_angle: 15 deg,
  dynamic_load_rating: {rating} N, static_load_rating: 176 kN, fatigue_load_limit: {limit} N}}
lubricant: {{kind: oil bath, viscosity_40: {nu40} mm2/s, viscosity_100: {nu100} mm2/s}}
condition: {{contamination_factor: {dirt}, water: 100 ppm}}
duty:
  - {{phase: run, time: 100 %, speed: {speed} rpm, equivalent_load: {load} N, temperature: {warm} degC}}
service:
  drifts:
    - {{drift: load, from: {load_from} h, to: {load_to} h, load_factor: {{start: 1, end: {load_end}}}}}
    - {{drift: water, from: {water_from} h, to: {water_to} h, water: {{start: 100 ppm, end: {water_end} ppm}}}}
    - {{drift: heat, from: {heat_from} h, to: {heat_to} h, temperature_rise: {{start: 0 K, end: {heat_end} K}}}}
"""


def ramp(t, start, stop, first, last):
    return first + (last - first) * np.clip((t - start) / (stop - start), 0, 1)


def viscosity(nu40, nu100, celsius):
    """ASTM D341, the plain form through two points."""
    z = lambda nu: np.log10(np.log10(nu + 0.7))
    x = lambda c: np.log10(c + 273.15)
    slope = (z(nu100) - z(nu40)) / (x(100) - x(40))
    return 10 ** 10 ** (z(nu40) + slope * (x(celsius) - x(40))) - 0.7


def life_factor(kappa, share):
    """a_ISO of radial roller bearings; share is e_C C_u / P."""
    kappa = min(kappa, 4.0)
    numerator, power = ((1.3993, 0.054381) if kappa < 0.4 else (1.2348, 0.19087) if kappa < 1 else (1.2348, 0.071739))
    bracket = 1 - (1.5859 - numerator / kappa ** power) * share ** 0.4
    return min(0.1 * bracket ** -9.185, 50.0) if bracket > 0 else 50.0


def rate(t, s):
    """1/L_nmh at a time."""
    load = s["load"] * ramp(t, s["load_from"], s["load_to"], 1, s["load_end"])
    water = ramp(t, s["water_from"], s["water_to"], 100, s["water_end"])
    warm = s["warm"] + ramp(t, s["heat_from"], s["heat_to"], 0, s["heat_end"])
    needed = 45000 * s["speed"] ** -0.83 * s["pitch"] ** -0.5  # below 1000 rpm
    kappa = viscosity(s["nu40"], s["nu100"], warm) / needed
    a_iso = life_factor(kappa, s["dirt"] * s["limit"] / load)
    wet = max(min((100 / water) ** 0.6, 1), 1 / 11)
    basic_h = (s["rating"] / load) ** (10 / 3) * 1e6 / (60 * s["speed"])
    return 1 / (a_iso * wet * basic_h)


def life(s):
    marks = sorted(s[k] for k in s if k.endswith(("_from", "_to")))
    damage = lambda t: sum(integrate.quad(rate, a, b, args=(s,), epsabs=0, epsrel=1e-11, limit=200)[0]
                           for a, b in zip([0] + [m for m in marks if m < t], [m for m in marks if m < t] + [t]))
    end = 1 / rate(0, s)
    while damage(end) < 1:
        end *= 2
    return optimize.brentq(lambda t: damage(t) - 1, 0, end, xtol=1e-8, rtol=1e-13)


def draw(rng):
    s = {"pitch": 85.0, "rating": 150000.0, "limit": 21500.0, "nu40": rng.choice([68.0, 100.0, 220.0])}
    s["nu100"] = round(s["nu40"] ** 0.535, 3)
    s["dirt"], s["speed"] = round(rng.uniform(0.1, 0.6), 3), round(rng.uniform(60, 900), 1)
    s["load"], s["warm"] = round(rng.uniform(18000, 40000)), round(rng.uniform(45, 75), 1)
    s["load_end"], s["water_end"], s["heat_end"] = 1.3, round(rng.uniform(200, 3000)), round(rng.uniform(3, 20), 1)
    first = 1 / rate(0, dict(s, **{k + e: 1e9 + (e == "_to") for k in ("load", "water", "heat") for e in ("_from", "_to")}))
    for name in ("load", "water", "heat"):
        s[name + "_from"] = round(first * rng.uniform(0.01, 0.3), 1)
        s[name + "_to"] = round(s[name + "_from"] + first * rng.uniform(0.1, 0.6), 1)
    return s


def main():
    rng, worst = np.random.default_rng(385), 0.0
    for _ in range(40):
        s = draw(rng)
        done = subprocess.run([sys.argv[1], "timeline", "--format", "json", "-"], input=SCENARIO.format(**s),
                              capture_output=True, text=True)
        if done.returncode > 1:
            sys.exit(done.stderr)
        got, want = json.loads(done.stdout)["life_h"], life(s)
        worst = max(worst, abs(got / want - 1))
        if abs(got / want - 1) > ALLOWED:
            print(f"DIFFERS: {got} h, SciPy {want} h for {s}")
    print(f"lives of 40 timelines    largest relative difference {worst:.1e}, allowed {ALLOWED:.0e}")
    return 1 if worst > ALLOWED else 0


if __name__ == "__main__":
    sys.exit(main())
