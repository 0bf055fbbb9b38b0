# SPDX-License-Identifier: GPL-3.0-or-later
"""The example hub straight ahead at 0.0254 mm end play, in plain NumPy and SciPy.

Prints: ms per solve, y in um, z in um, tilt about x in mrad. Run by hub_bench, where SciPy is there.
"""
import time

import numpy as np
from scipy.optimize import minimize

LAMINAE = 41
SETTING = 0.0254
LOAD = np.array([0.0, -45000.0, 0.0, 0.0, 0.0])  # on the inner body: N, N mm over L0
#       rollers, D_we, L_we, D_pw, z, s
ROWS = [(23, 13.0, 22.0, 105.0, -33.0, 1.0), (20, 11.5, 18.0, 80.0, 62.0, -1.0)]
ALPHA = np.radians(15.0)
LENGTH = 0.25 * (105.0 + 80.0)


def tables():
    """Derivatives of the approach of every lamina, the profile subtracted from it, and its stiffness."""
    slopes, off, stiffness = [], [], []
    for rollers, diameter, length, pitch, z, s in ROWS:
        k = np.arange(1, LAMINAE + 1)
        x = (k - (LAMINAE + 1) / 2) * length / LAMINAE
        profile = -0.00035 * diameter * np.log1p(-((2 * x / length) ** 2))
        phi = np.repeat(2 * np.pi * np.arange(rollers) / rollers, LAMINAE)
        arm = np.tile(x, rollers) + z * np.cos(ALPHA) - s * pitch / 2 * np.sin(ALPHA)
        slopes.append(np.stack([np.cos(ALPHA) * np.cos(phi), np.cos(ALPHA) * np.sin(phi),
                                np.full_like(phi, s * np.sin(ALPHA)),
                                -np.sin(phi) * arm / LENGTH, np.cos(phi) * arm / LENGTH], axis=1))
        off.append(np.tile(2 * profile, rollers) + SETTING / 2 * np.sin(ALPHA))
        stiffness.append(np.full(phi.size, 35948 * length ** (8 / 9) / LAMINAE))
    return np.concatenate(slopes), np.concatenate(off), np.concatenate(stiffness)


SLOPES, OFF, STIFFNESS = tables()


def energy_and_gradient(u):
    d = np.maximum(SLOPES @ u - OFF, 0.0)
    q = STIFFNESS * d ** (10 / 9)
    return 9 / 19 * (q @ d) - LOAD @ u, SLOPES.T @ q - LOAD


def hessian(u):
    d = np.maximum(SLOPES @ u - OFF, 0.0)
    k = 10 / 9 * STIFFNESS * d ** (1 / 9)
    return SLOPES.T @ (k[:, None] * SLOPES)


def solve():
    return minimize(energy_and_gradient, np.zeros(5), jac=True, hess=hessian, method="trust-exact",
                    options={"gtol": 1e-6 * 45, "initial_trust_radius": 0.2})


best = np.inf
for _ in range(20):
    start = time.perf_counter()
    found = solve()
    best = min(best, time.perf_counter() - start)
u = found.x
print(1e3 * best, 1e3 * u[1], 1e3 * u[2], 1e3 * u[3] / LENGTH)
