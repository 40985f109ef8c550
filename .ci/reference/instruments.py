"""Instruments and what follows from them, by the uncertainties package, which
differentiates by itself and keeps what is correlated: an instrument's scale is one
variable wherever it measured, each reading is another.
"""

import math

import numpy as np
from scipy import stats
from uncertainties import ufloat

from service import Near, clear
from units import LENGTHS, PRESSURES, RATIOS, VOLUMES, draw

SURE = 0.95
# Of each kind: the units of its resolution, that, and its scale error.
KINDS = {
    "stopwatch": (["s"], (0.005, 0.5), (1e-5, 1e-2)), "tape": (LENGTHS, (0.001, 0.1), (1e-4, 1e-2)),
    "jug": (VOLUMES, (1e-6, 3e-5), (1e-3, 0.05)), "gauge": (PRESSURES, (1e3, 3e4), (0.01, 0.1)),
}


class Instrument:
    """Its errors, drawn at random."""

    def __init__(self, rng, kind, name):
        units, resolution, scale = KINDS[kind]
        size, width = draw(rng, units, *resolution)
        error, half = draw(rng, RATIOS, *scale)
        self.json = {"id": name, "kind": kind, "resolution": size, "scaleError": error}
        reaction = 0.0
        if kind == "stopwatch":
            self.json["reactionTime"], reaction = draw(rng, ["s"], 0.05, 0.4)
        self.scale, self.variance = ufloat(1, half / math.sqrt(3)), width**2 / 12 + reaction**2

    def read(self, value):
        return ufloat(value, math.sqrt(self.variance)) * self.scale


class Tools:
    """Those of one request, one or two of each kind, and what is known beforehand of
    how runs and catches repeat."""

    def __init__(self, rng, *kinds):
        self.rng, self.kinds = rng, {k: [Instrument(rng, k, k + str(i)) for i in range(rng.randint(1, 2))] for k in kinds}
        self.json = {"instruments": [i.json for k in kinds for i in self.kinds[k]], "repeatability": {}}
        self.prior = {}
        for what, kind, most in [("runs", "tape", 0.05), ("catches", "jug", 0.08)]:
            if kind in kinds:
                deviation, s = draw(rng, RATIOS, 0.002, most)
                self.prior[what] = s, rng.randint(1, 30)
                self.json["repeatability"][what] = {"standardDeviation": deviation, "degreesOfFreedom": self.prior[what][1]}

    def take(self, kind, into):
        """Any of a kind, named in a measurement; the only one often is not."""
        one = self.rng.choice(self.kinds[kind])
        if len(self.kinds[kind]) > 1 or self.rng.random() < 0.5:
            into[kind] = one.json["id"]
        return one

    def scatter(self, what, readings, weights, ratios, share=1.0):
        """Of each measurement a variable, prior and seen together (GUM 4.2.4): share of
        the variance counts. With their degrees of freedom. readings is the variance that
        they add to the mean, in which the measurements have weights."""
        (s0, freedom), n = self.prior[what], len(ratios)
        seen = np.var(ratios, ddof=1) if n > 1 else 0.0
        own = readings / np.sum(np.square(weights))
        variance = (freedom * (s0**2 + own) + (n - 1) * seen) / (freedom + n - 1)
        return [ufloat(1, math.sqrt(variance * share)) for _ in ratios], freedom + n - 1


def freedom(x, *scatters):
    """Effective degrees of freedom (GUM G.4.1); all but scatters have no end of them."""
    parts = x.error_components()
    fourth = sum(sum(parts.get(v, 0.0) ** 2 for v in variables) ** 2 / nu for variables, nu in scatters)
    return x.s**4 / fourth if fourth > 0 and x.s**4 / fourth < 1e6 else math.inf


def wanted(name, x, *scatters):
    """The members of an uncertainty."""
    nu = freedom(x, *scatters)
    k = stats.norm.ppf(0.975) if nu == math.inf else stats.t.ppf(0.975, nu)
    # A quantile of t is searched for, and found to some 1e-9.
    want = {name + "/standard": Near(x.s, x.s * 1e-3), name + "/coverageFactor": Near(k, 3), name + "/expanded": Near(k * x.s, x.s * 3)}
    if 1e5 < nu < math.inf:
        return want  # where it ends is rounding
    return want | {name + "/degreesOfFreedom": None if nu == math.inf else Near(nu, nu)}


def probability(x, nu, low, high):
    """That the true value lies between the limits (JCGM 106, 7.2)."""
    d = stats.norm if nu == math.inf else stats.t(nu)
    return d.cdf((high - x.n) / x.s) - d.cdf((low - x.n) / x.s)


def judged(name, p):
    """The members of a conformance."""
    want = {name + "conformanceProbability": Near(p, 1)}
    if clear(p, SURE) and clear(p, 1 - SURE):
        want[name + "conformance"] = "within" if p > SURE else "outside" if p < 1 - SURE else "too_close"
    return want
