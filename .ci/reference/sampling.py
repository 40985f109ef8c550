"""What catches tell of a boom: Clopper and Pearson's interval, its hypergeometric
kin, the chance by Jeffreys' prior, and the critical values of Grubbs' test."""

import math

import numpy as np
from scipy import stats

from service import Near, clear

SIGNIFICANCE = 0.05


def sampling(rng):
    """Single nozzles of which some give far too little."""
    caught = rng.randint(2, 60)
    outside = rng.choice([0, caught, rng.randint(0, caught), rng.randint(0, caught)])
    limit = rng.choice([0.05, 0.1, 0.25, 0.4, 0.6])
    flows = [0.7 if i < outside else 1.0 for i in range(caught)]
    rng.shuffle(flows)
    request = {"nozzle": {"ratedFlowRate": {"value": 1, "unit": "L/min"}, "ratedPressure": {"value": 3, "unit": "bar"}},
               "sprayPressure": {"value": 3, "unit": "bar"}, "replaceAllAbove": {"value": limit, "unit": "1"},
               "tolerance": {"limit": {"value": 10, "unit": "%"}, "basis": "rated"},
               "catches": [{"volume": {"value": q, "unit": "L"}, "time": {"value": 60, "unit": "s"}} for q in flows]}
    a, b = outside + 0.5, caught - outside + 0.5
    if rng.random() < 0.5:
        interval = stats.binomtest(outside, caught).proportion_ci(0.95, "exact")
        low, high, chance = interval.low, interval.high, stats.beta.sf(limit, a, b)
        want = {"sampling/allCaught": False}
    else:
        points = caught + rng.choice([0, rng.randint(0, 10), rng.randint(0, 200)])
        request["catchPointsOnBoom"] = points
        marked = np.arange(outside, points - (caught - outside) + 1)
        more = stats.hypergeom.sf(outside - 1, points, marked, caught)
        fewer = stats.hypergeom.cdf(outside, points, marked, caught)
        if min(abs(np.concatenate([more, fewer]) / (SIGNIFICANCE / 2) - 1)) < 1e-7:
            return sampling(rng)
        likely = marked[(more > SIGNIFICANCE / 2) & (fewer > SIGNIFICANCE / 2)]
        low, high = likely.min() / points, likely.max() / points
        most = math.floor((limit + 1e-9) * points) - outside  # of those not caught, without being above
        chance = 0.0 if most >= points - caught else 1.0 if most < 0 else stats.betabinom.sf(most, points - caught, a, b)
        want = {"sampling/pointsOutside/low": int(likely.min()), "sampling/pointsOutside/high": int(likely.max()),
                "sampling/allCaught": points == caught}
    want |= {"sampling/proportionOutside/low": Near(low, 1e-6), "sampling/proportionOutside/high": Near(high, 1e-6),
             "sampling/chanceAboveLimit": Near(chance, 1)}
    if clear(low, limit) and clear(high, limit):
        want["sampling/settled"] = "above" if low > limit else "not_above" if high < limit else "open"
    elif abs(high - limit) < 1e-12:
        want["sampling/settled"] = "not_above"
    return request, want


def outliers(rng):
    """One catch that stands far apart among others."""
    n = rng.randint(8, 60)
    flows = [1 + rng.gauss(0, 0.02) for _ in range(n)]
    at = rng.randrange(n)
    flows[at] = rng.choice([0.6, 1.5])
    flows = np.array([float("%.6g" % q) for q in flows])
    request = {"tolerance": {"limit": {"value": 10, "unit": "%"}, "basis": "mean"},
               "catches": [{"volume": {"value": q, "unit": "L"}, "time": {"value": 60, "unit": "s"}} for q in flows]}
    t = stats.t.isf(SIGNIFICANCE / 2 / (2 * n), n - 2)  # half of it for each of the two tests
    critical = (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))
    statistic = abs(stats.zscore(flows, ddof=1)[at])
    if statistic <= critical * 1.001:
        return outliers(rng)
    return request, {"outliers/0/pointer": "#/catches/%d" % at, "outliers/0/test": "grubbs",
                     "outliers/0/statistic": statistic, "outliers/0/criticalValue": critical}
