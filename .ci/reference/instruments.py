"""Instruments and what follows from them, by the uncertainties package, which
differentiates by itself and keeps what is correlated: an instrument's scale is one
variable wherever it measured, each reading is another.
"""

import math

import numpy as np
from scipy import integrate, optimize, special, stats
from uncertainties import covariance_matrix, ufloat

from service import Near, clear
from units import LENGTHS, PRESSURES, RATIOS, VOLUMES, draw

SURE = 0.95
RECTANGULAR = "rectangular"  # the tag of a variable that is as likely anywhere between its bounds
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
        self.scale, self.variance = ufloat(1, half / math.sqrt(3), RECTANGULAR), width**2 / 12 + reaction**2
        self.display, self.hand = width / math.sqrt(12), reaction

    def read(self, value):
        return (value + ufloat(0, self.display, RECTANGULAR) + ufloat(0, self.hand)) * self.scale


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


class Error:
    """How the error of x is distributed (JCGM 101): the widest rectangular variable as it is, all
    others as one scaled t whose moments of the orders 1.8 and 2 theirs add up to."""

    def __init__(self, x, *scatters):
        parts = {v: u * u for v, u in x.error_components().items()}
        self.x, self.nu = x.n, math.inf
        widest = max([p for v, p in parts.items() if v.tag == RECTANGULAR], default=0.0)
        repeated = [(sum(parts.get(v, 0.0) for v in variables), nu) for variables, nu in scatters]
        repeated = [(v, nu) for v, nu in repeated if v > 0]
        rest = sum(parts.values()) - widest - sum(v for v, _ in repeated)
        self.half = math.sqrt(3 * widest)
        if len(repeated) == 1 and rest + widest <= 1e-15 * repeated[0][0]:
            self.scale, self.nu = math.sqrt(repeated[0][0]), repeated[0][1]
            return
        spread = 0.0
        for v, nu in repeated:
            if nu < 3:
                v, nu = v * (stats.t.ppf(0.975, nu) / stats.t.ppf(0.975, 3)) ** 2, 3
            v *= nu / (nu - 1.8)
            rest += v
            spread += v * v / (nu - 2)
        rest = 0.0 if rest < 1e-9 * sum(parts.values()) else rest
        if spread > 0 and 2 + rest * rest / spread < 1e6:
            self.nu = 2 + rest * rest / spread
            rest *= (self.nu - 1.8) / self.nu
        self.scale = math.sqrt(rest)

    def _integral(self, z):
        if self.nu == math.inf:
            return z * special.ndtr(z) + math.exp(-z * z / 2) / math.sqrt(2 * math.pi)
        return z * special.stdtr(self.nu, z) + (self.nu + z * z) / (self.nu - 1) * self._density(z)

    def _density(self, z):
        nu = self.nu
        return math.exp(special.gammaln((nu + 1) / 2) - special.gammaln(nu / 2) - (nu + 1) / 2 * math.log1p(z * z / nu)) / math.sqrt(nu * math.pi)

    def below(self, d):
        """That the error is less than d."""
        if math.isinf(d):
            return float(d > 0)
        if d > 0:
            return 1 - self.below(-d)
        a, s = self.half, self.scale
        if s == 0:
            return max(0.0, (d + a) / (2 * a))
        if a < 1e-5 * s:
            return special.ndtr(d / s) if self.nu == math.inf else special.stdtr(self.nu, d / s)
        return s / (2 * a) * (self._integral((d + a) / s) - self._integral((d - a) / s))

    def reach(self):
        """What 97.5 % of the errors are less than."""
        if self.half == 0:
            return self.scale * (stats.norm.ppf(0.975) if self.nu == math.inf else stats.t.ppf(0.975, self.nu))
        return -optimize.brentq(lambda d: self.below(d) - 0.025, -20 * (self.half + self.scale), 0, xtol=1e-14 * self.half, rtol=1e-13)


def wanted(name, x, *scatters):
    """The members of an uncertainty."""
    nu, reach = freedom(x, *scatters), Error(x, *scatters).reach()
    # A reach is searched for, and found to some 1e-9.
    want = {name + "/standard": Near(x.s, x.s * 1e-3), name + "/coverageFactor": Near(reach / x.s, 3), name + "/expanded": Near(reach, x.s * 3)}
    if 1e5 < nu < math.inf:
        return want  # where it ends is rounding
    return want | {name + "/degreesOfFreedom": None if nu == math.inf else Near(nu, nu)}


def probability(x, low, high, *scatters):
    """That the true value lies between the limits (JCGM 106, 7.2)."""
    error = Error(x, *scatters)
    return error.below(high - x.n) - error.below(low - x.n)


def both(*judged_by):
    """That two true values lie within their limits, so far below 0 and above it, at once: how
    each is distributed is kept, and beyond their limits they hang together as two normal ones."""
    tails = [[Error(z).below(-below - z.n), Error(z).below(z.n - above)] for z, below, above in judged_by]
    x, y = (z for z, _, _ in judged_by)
    r = max(-0.9999, min(0.9999, covariance_matrix([x, y])[0][1] / (x.s * y.s)))
    p = 1 - sum(tails[0]) - sum(tails[1])
    for i, q in enumerate(tails[0]):
        for j, w in enumerate(tails[1]):
            if min(q, w) > 1e-12:
                p += min(q, w) if max(q, w) > 1 - 1e-12 else _normal_below(stats.norm.ppf(q), stats.norm.ppf(w), r if i == j else -r)
    return p


def _normal_below(x, y, r):
    """Of two normal errors with a correlation, that one is below x and the other below y."""
    return integrate.quad(lambda z: stats.norm.pdf(z) * special.ndtr((y - r * z) / math.sqrt(1 - r * r)), -12, x, points=sorted({max(-12, min(x, y / r if r else 0))}), epsabs=1e-12, epsrel=1e-10, limit=200)[0]


def judged(name, p):
    """The members of a conformance."""
    want = {name + "conformanceProbability": Near(p, 1)}
    if clear(p, SURE) and clear(p, 1 - SURE):
        want[name + "conformance"] = "within" if p > SURE else "outside" if p < 1 - SURE else "too_close"
    return want
