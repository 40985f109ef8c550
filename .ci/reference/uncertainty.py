"""Uncertainty and conformance by the uncertainties package, which differentiates by
itself and keeps what is correlated: an instrument's scale is one variable wherever it
measured, each reading is another.
"""

import math

import numpy as np
from scipy import stats
from uncertainties import ufloat

from service import Near
from units import LENGTHS, PRESSURES, RATIOS, SPEEDS, TIMES, VOLUMES, draw


class Instrument:
    """One instrument: what it is called, its scale, and its readings."""

    def __init__(self, rng, name, kind, symbols, resolution, scale):
        size, self.width = draw(rng, symbols, *resolution)
        error, half = draw(rng, RATIOS, *scale)
        self.json = {"id": name, "kind": kind, "resolution": size, "scaleError": error}
        self.scale, self.reaction = ufloat(1, half / math.sqrt(3)), 0.0
        if kind == "stopwatch":
            self.json["reactionTime"], self.reaction = draw(rng, ["s"], 0.05, 0.4)

    def variance(self):
        """Of one reading, in the square of its unit."""
        return self.width**2 / 12 + self.reaction**2

    def read(self, value):
        return ufloat(value, math.sqrt(self.variance())) * self.scale


def _stopwatch(rng, name):
    return Instrument(rng, name, "stopwatch", ["s"], (0.005, 0.5), (1e-5, 1e-2))


def _pooled(prior, freedom, readings, ratios):
    """Variance of one measurement, prior and seen together, and its degrees of freedom."""
    n = len(ratios)
    seen = np.var(ratios, ddof=1) if n > 1 else 0.0
    return (freedom * (prior**2 + readings) + (n - 1) * seen) / (freedom + n - 1), freedom + n - 1


def _wanted(name, result, parts, scale=1.0):
    """The members of an uncertainty. parts are (standard uncertainty, degrees of
    freedom) of those parts that have not endless ones."""
    u = result.s
    freedom = u**4 / sum(s**4 / n for s, n in parts) if parts else math.inf
    k = stats.t.ppf(0.975, freedom) if freedom < 1e6 else stats.norm.ppf(0.975)
    want = {name + "/standard": Near(u * scale, u * 1e-3), name + "/coverageFactor": Near(k, 1), name + "/expanded": Near(k * u * scale, u * 1e-3)}
    if freedom < 1e5:
        want[name + "/degreesOfFreedom"] = Near(freedom, freedom)
    return want, freedom


def ground_speed(rng):
    tapes = [Instrument(rng, "t%d" % i, "tape", LENGTHS, (0.001, 0.1), (1e-4, 1e-2)) for i in range(rng.randint(1, 2))]
    watches = [_stopwatch(rng, "w%d" % i) for i in range(rng.randint(1, 2))]
    prior, s0 = draw(rng, RATIOS, 0.002, 0.05)
    freedom = rng.randint(1, 30)
    runs, speeds, times, tape, watch = [], [], [], [], []
    base = rng.uniform(0.5, 5)
    for i in range(rng.randint(1, 6)):
        length, x = draw(rng, LENGTHS, 25, 200)
        time, t = draw(rng, TIMES, x / base * 0.96, x / base * 1.04)
        tape.append(rng.choice(tapes))
        watch.append(rng.choice(watches))
        runs.append({"courseLength": length, "time": time, "tape": tape[-1].json["id"], "stopwatch": watch[-1].json["id"]})
        speeds.append(x / t)
        times.append(t)
    tolerance, limit = draw(rng, RATIOS, 0.02, 0.1)
    request = {"runs": runs, "runTolerance": tolerance, "instruments": [x.json for x in tapes + watches],
               "repeatability": {"runs": {"standardDeviation": prior, "degreesOfFreedom": freedom}}}
    v, t, n = np.array(speeds), np.array(times), len(speeds)
    lengths = v * t
    mean = lengths.sum() / t.sum()
    readings = np.mean([a.variance() / x**2 + b.variance() / y**2 for a, b, x, y in zip(tape, watch, lengths, t)])
    variance, nu = _pooled(s0, freedom, readings, v / mean)
    scatter = math.sqrt(variance)
    # Scales on total length and time; what differs from run to run on each speed.
    scaled = sum(a.scale * x for a, x in zip(tape, lengths)) / sum(b.scale * y for b, y in zip(watch, t))
    result = scaled * sum(y * ufloat(1, scatter) for y in t) / t.sum()
    want, _ = _wanted("uncertainty/groundSpeed", result, [(mean * scatter * math.sqrt((t**2).sum()) / t.sum(), nu)])
    for i in range(n):
        single, _ = _wanted("runs/%d/uncertainty/groundSpeed" % i, tape[i].read(lengths[i]) / watch[i].read(t[i]), [])
        want |= single
    if n > 1:
        fast, slow = int(v.argmax()), int(v.argmin())
        spread = (tape[fast].read(lengths[fast]) / watch[fast].read(t[fast]) - tape[slow].read(lengths[slow]) / watch[slow].read(t[slow])) / scaled
        more, _ = _wanted("uncertainty/spread", spread, [])
        want |= more
        want["conformanceProbability"] = Near(stats.norm.cdf((limit - spread.n) / spread.s), 1)
    return request, want


def nozzle_flow(rng):
    jugs = [Instrument(rng, "j%d" % i, "jug", VOLUMES, (1e-6, 3e-5), (1e-3, 0.05)) for i in range(rng.randint(1, 2))]
    watches = [_stopwatch(rng, "w%d" % i) for i in range(rng.randint(1, 2))]
    gauge = Instrument(rng, "g", "gauge", PRESSURES, (1e3, 3e4), (0.01, 0.1))
    prior, s0 = draw(rng, RATIOS, 0.01, 0.08)
    freedom = rng.randint(1, 30)
    pressure, p0 = draw(rng, PRESSURES, 2e5, 4e5)
    catches, flows, counts, volumes, times, jug, watch = [], [], [], [], [], [], []
    center = rng.uniform(5e-6, 4e-5)
    for _ in range(rng.randint(1, 10)):
        time, t = draw(rng, TIMES, 20, 90)
        nozzles = rng.randint(1, 4)
        q = center * nozzles * rng.uniform(0.93, 1.07)
        volume, x = draw(rng, VOLUMES, q * t * 0.999, q * t * 1.001)
        jug.append(rng.choice(jugs))
        watch.append(rng.choice(watches))
        catches.append({"volume": volume, "time": time, "nozzles": nozzles, "jug": jug[-1].json["id"], "stopwatch": watch[-1].json["id"]})
        flows.append(x / t)
        counts.append(nozzles)
        volumes.append(x)
        times.append(t)
    to, p = draw(rng, PRESSURES, 1.5e5, 6e5)
    request = {"catches": catches, "sprayPressure": pressure, "predictAt": [{"sprayPressure": to}],
               "instruments": [x.json for x in jugs + watches + [gauge]],
               "repeatability": {"catches": {"standardDeviation": prior, "degreesOfFreedom": freedom}}}
    f, c, x, t = map(np.array, (flows, counts, volumes, times))
    readings = np.mean([a.variance() / v**2 + b.variance() / s**2 for a, b, v, s in zip(jug, watch, x, t)])
    variance, nu = _pooled(s0, freedom, readings, f / c / (f / c).mean())
    scatter = math.sqrt(variance)
    mean = sum(q * a.scale / b.scale * ufloat(1, scatter) for q, a, b in zip(f, jug, watch)) / c.sum()
    part = [(mean.n * scatter * math.sqrt((f**2).sum()) / f.sum(), nu)]
    want, _ = _wanted("uncertainty/meanNozzleFlowRate", mean, part)
    moved = mean * (p / gauge.read(p0)) ** 0.5
    more, _ = _wanted("predicted/0/uncertainty/nozzleFlowRate", moved, [(part[0][0] * (p / p0) ** 0.5, nu)])
    want |= more
    for i in range(len(f)):
        more, _ = _wanted("catches/%d/uncertainty/nozzleFlowRate" % i, jug[i].read(x[i]) / watch[i].read(t[i]) / c[i], [])
        want |= more
    return request, want
