#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks the statistics of the library against SciPy, which computes them in another way.

Usage: tests/scipy/weibull_check.py [build/release/libspalltime.so.VERSION]
Not part of `make test`: needs python3-scipy. Exit status 1 where something differs.
"""
import ctypes as c
import ctypes.util
import glob
import sys

import numpy as np
from scipy import integrate, optimize, stats

gsl = c.CDLL(ctypes.util.find_library("gsl"), mode=c.RTLD_GLOBAL)
gsl.gsl_set_error_handler_off()
lib = c.CDLL(sys.argv[1] if len(sys.argv) > 1 else glob.glob("build/release/libspalltime.so.*")[0])
D, I, P = c.c_double, c.c_int, c.POINTER


class Weibull(c.Structure):
    _fields_ = [("shape", D), ("scale", D)]


class Data(c.Structure):
    _fields_ = [("n", I), ("times", P(D)), ("counts", P(I)), ("failed", P(c.c_bool)),
                ("last_good", P(D)), ("known_from", P(D))]


class Fit(c.Structure):
    _fields_ = [("weibull", Weibull), ("failures", I), ("censored", I), ("log_likelihood", D),
                ("variance_log_scale", D), ("variance_log_shape", D), ("covariance", D)]


class Interval(c.Structure):
    _fields_ = [("low", D), ("high", D)]


class Question(c.Structure):
    _fields_ = [("quantity", I), ("failed_fraction", D), ("confidence", D)]


class Costs(c.Structure):
    _fields_ = [("planned", D), ("failure", D)]


class Plan(c.Structure):
    _fields_ = [(name, D) for name in
                ("age", "survival", "mean_cycle", "cost_rate", "mean_life", "cost_rate_none")]


worst = {}


def compare(name, got, want, tolerance):
    error = abs(got - want) / max(abs(want), 1e-300)
    worst[name] = (max(error, worst.get(name, (0, 0))[0]), tolerance)


def log_likelihood(log_shape, log_scale, t, failed):
    shape, x = np.exp(log_shape), np.log(t) - log_scale
    return np.sum(failed * (log_shape + shape * x - np.log(t)) - np.exp(shape * x))


def profile(quantity, w, value, t, failed, start):
    """largest log-likelihood with the quantity held at exp(value)"""
    if quantity == 0:
        found = optimize.minimize_scalar(lambda s: -log_likelihood(value, s, t, failed),
                                         bracket=(start[1], start[1] + 0.1), tol=1e-12)
    else:
        found = optimize.minimize_scalar(
            lambda s: -log_likelihood(s, value - w / np.exp(s), t, failed),
            bracket=(start[0], start[0] + 0.1), tol=1e-12)
    return -found.fun


def check_fit(rng):
    n = int(rng.integers(6, 40))
    t = 1000 * rng.weibull(rng.uniform(0.8, 3), n)
    end = np.quantile(t, rng.uniform(0.6, 1.0))
    failed = t <= end
    t = np.minimum(t, end)
    data = Data(n, (D * n)(*t), None, (c.c_bool * n)(*failed), None, None)
    fit = Fit()
    assert lib.spt_weibull_fit(c.byref(data), c.byref(fit)) == 0
    best = optimize.minimize(lambda p: -log_likelihood(p[0], p[1], t, failed),
                             [0.3, np.log(t.mean())], method="Nelder-Mead",
                             options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 4000})
    compare("shape", fit.weibull.shape, np.exp(best.x[0]), 1e-6)
    compare("scale", fit.weibull.scale, np.exp(best.x[1]), 1e-6)
    compare("log-likelihood", fit.log_likelihood, -best.fun, 1e-10)
    step = 1e-4
    def second(i, j):
        e = np.eye(2) * step
        f = lambda p: -log_likelihood(p[0], p[1], t, failed)
        return (f(best.x + e[i] + e[j]) - f(best.x + e[i] - e[j]) - f(best.x - e[i] + e[j]) +
                f(best.x - e[i] - e[j])) / (4 * step * step)
    covariance = np.linalg.inv([[second(0, 0), second(0, 1)], [second(1, 0), second(1, 1)]])
    compare("variance of ln shape", fit.variance_log_shape, covariance[0, 0], 1e-4)
    compare("variance of ln scale", fit.variance_log_scale, covariance[1, 1], 1e-4)
    compare("covariance", fit.covariance, covariance[0, 1], 1e-3)
    for quantity, fraction in ((0, 0.0), (1, 0.0), (2, 0.10), (2, 0.50)):
        check_bounds(quantity, fraction, data, fit, best, t, failed)


def check_bounds(quantity, fraction, data, fit, best, t, failed):
    got = Interval()
    question = Question(quantity, fraction, 0.9)
    status = lib.spt_weibull_ratio(c.byref(data), c.byref(fit), c.byref(question), c.byref(got))
    assert status == 0
    w = np.log(-np.log1p(-fraction)) if quantity == 2 else 0.0
    centre = best.x[0] if quantity == 0 else best.x[1] + w / np.exp(best.x[0])
    allowed = stats.chi2.ppf(0.9, 1) / 2
    miss = lambda v: -best.fun - profile(quantity, w, v, t, failed, best.x) - allowed
    for side, bound in ((-1, got.low), (1, got.high)):
        reach = 0.1
        while miss(centre + side * reach) < 0:
            reach *= 1.5
        want = np.exp(optimize.brentq(miss, *sorted((centre, centre + side * reach)), xtol=1e-11))
        compare("ratio bounds of " + ("shape", "scale", "life")[quantity], bound, want, 1e-5)


class Found:
    """Lives from inspections: failures between two inspections or at a known time, and machines that were already running
    when their records began. The likelihood is SciPy's survival function, the search the simplex."""

    def __init__(self, rng, entries):
        n, shape = int(rng.integers(12, 50)), rng.uniform(0.9, 3)
        lives = 1000 * rng.weibull(shape, 4 * n)
        self.begin = np.where(rng.random(4 * n) < 0.5, rng.uniform(0, 600, 4 * n), 0) * entries
        lives, self.begin = [x[lives > self.begin][:n] for x in (lives, self.begin)]
        n = len(lives)
        every = rng.uniform(150, 400)
        looks = np.floor(lives / every) * every
        exact = rng.random(n) < 0.3
        end = rng.uniform(900, 1600)
        self.failed = np.where(exact, lives, looks + every) < end
        self.low = np.where(exact, lives, looks)
        self.high = np.where(exact, lives, looks + every)
        sound = np.where(exact, end, np.floor(end / every) * every)
        self.low = np.where(self.failed, self.low, np.maximum(sound, self.begin + 1))
        self.high = np.where(self.failed, self.high, self.low)
        self.exact = self.failed & exact
        self.low = np.where(self.failed & ~exact, np.maximum(self.low, self.begin), self.low)
        last_good = np.where(self.failed & ~exact, self.low, np.nan)
        self.n = n
        self.data = Data(n, (D * n)(*self.high), None, (c.c_bool * n)(*self.failed),
                         (D * n)(*last_good), (D * n)(*self.begin))

    def log_likelihood(self, log_shape, log_scale):
        law = stats.weibull_min(np.exp(log_shape), scale=np.exp(log_scale))
        between = self.failed & ~self.exact
        return (law.logpdf(self.high[self.exact]).sum() + law.logsf(self.low[~self.failed]).sum() +
                np.log(law.sf(self.low[between]) - law.sf(self.high[between])).sum() -
                law.logsf(self.begin).sum())


def minimise(function, start):
    found = optimize.minimize(function, start, method="Nelder-Mead",
                              options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 6000})
    return optimize.minimize(function, found.x, method="Nelder-Mead",
                             options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 6000})


def check_found(rng, entries):
    """False where the sample has no fit."""
    name = "entered late: " if entries else "found: "
    sample = Found(rng, entries)
    fit = Fit()
    status = lib.spt_weibull_fit(c.byref(sample.data), c.byref(fit))
    if status != 0:
        return False
    likelihood = sample.log_likelihood
    with np.errstate(all="ignore"):
        best = minimise(lambda p: -likelihood(*p), [0.3, 7.0])
        compare(name + "shape", fit.weibull.shape, np.exp(best.x[0]), 1e-6)
        compare(name + "scale", fit.weibull.scale, np.exp(best.x[1]), 1e-6)
        compare(name + "log-likelihood", fit.log_likelihood, -best.fun, 1e-10)
        check_found_variances(name, fit, best, likelihood)
        for quantity, fraction in ((0, 0.0), (1, 0.0), (2, 0.10)):
            check_found_bounds(name, quantity, fraction, sample, fit, best)
    return True


def check_found_variances(name, fit, best, likelihood):
    step = 1e-4
    def second(i, j):
        e = np.eye(2) * step
        f = lambda p: -likelihood(*p)
        return (f(best.x + e[i] + e[j]) - f(best.x + e[i] - e[j]) - f(best.x - e[i] + e[j]) +
                f(best.x - e[i] - e[j])) / (4 * step * step)
    covariance = np.linalg.inv([[second(0, 0), second(0, 1)], [second(1, 0), second(1, 1)]])
    compare(name + "variance of ln shape", fit.variance_log_shape, covariance[0, 0], 1e-4)
    compare(name + "variance of ln scale", fit.variance_log_scale, covariance[1, 1], 1e-4)


def check_found_bounds(name, quantity, fraction, sample, fit, best):
    got = Interval()
    question = Question(quantity, fraction, 0.9)
    assert lib.spt_weibull_ratio(c.byref(sample.data), c.byref(fit), c.byref(question),
                                 c.byref(got)) == 0
    w = np.log(-np.log1p(-fraction)) if quantity == 2 else 0.0
    centre = best.x[0] if quantity == 0 else best.x[1] + w / np.exp(best.x[0])
    def held(value):
        if quantity == 0:
            function = lambda s: -sample.log_likelihood(value, s)
            grid = np.linspace(best.x[1] - 3, best.x[1] + 3, 61)
        else:
            function = lambda s: -sample.log_likelihood(s, value - w / np.exp(s))
            grid = np.linspace(best.x[0] - 3, best.x[0] + 3, 61)
        k = int(np.nanargmin([function(s) for s in grid]))
        return -optimize.minimize_scalar(function, bracket=grid[k - 1:k + 2], tol=1e-12).fun
    miss = lambda v: -best.fun - held(v) - stats.chi2.ppf(0.9, 1) / 2
    for side, bound in ((-1, got.low), (1, got.high)):
        reach = 0.1
        while miss(centre + side * reach) < 0:
            reach *= 1.3
        want = np.exp(optimize.brentq(miss, *sorted((centre, centre + side * reach)), xtol=1e-10))
        compare(name + "bounds of " + ("shape", "scale", "life")[quantity], bound, want, 1e-5)


def check_replacement(rng):
    w, costs = Weibull(rng.uniform(1.6, 5), 2385.0), Costs(1.0, rng.uniform(2.5, 30))
    plan = Plan()
    assert lib.spt_replacement_weibull(c.byref(w), c.byref(costs), c.byref(plan)) == 0
    def survival(x):
        return np.exp(-((x / w.scale) ** w.shape))
    def rate(age):
        r = survival(age)
        return (r + costs.failure * (1 - r)) / integrate.quad(survival, 0, age, epsrel=1e-12)[0]
    found = optimize.minimize_scalar(rate, bounds=(1, 4 * w.scale), method="bounded",
                                     options={"xatol": 1e-6})
    compare("replacement age", plan.age, found.x, 1e-5)
    compare("replacement cost", plan.cost_rate, found.fun, 1e-10)
    compare("mean life", plan.mean_life, stats.weibull_min(w.shape, scale=w.scale).mean(), 1e-9)


def check_ranks():
    for n in (3, 10, 37):
        for rank in np.linspace(1, n, 7):
            got = D()
            assert lib.spt_rank_median(0, D(rank), n, c.byref(got)) == 0
            compare("median rank", got.value, stats.beta.ppf(0.5, rank, n + 1 - rank), 1e-10)


def main():
    rng = np.random.default_rng(20)
    for _ in range(25):
        check_fit(rng)
    for entries in (False, True):
        fitted = sum(check_found(rng, entries) for _ in range(6))
        assert fitted >= 5, "too few of the samples have a fit"
    for _ in range(25):
        check_replacement(rng)
    check_ranks()
    bad = 0
    for name, (error, tolerance) in worst.items():
        bad += error > tolerance
        print(f"{name:34} largest relative difference {error:.1e}, allowed {tolerance:.0e}"
              + ("  DIFFERS" if error > tolerance else ""))
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
