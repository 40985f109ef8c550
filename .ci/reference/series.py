"""Meters, wear, patterns: what is a regression, a ratio estimate or an integral."""

import numpy as np
from scipy import integrate, optimize, stats

from service import Near, clear
from units import FLOWS, LENGTHS, PRESSURES, RATIOS, TIMES, VOLUMES, draw


def meter_calibration(rng):
    kind, symbols, size = rng.choice([("flow_meter", VOLUMES, 0.1), ("speed_sensor", LENGTHS, 100.0)])
    scale, readings, indicated, measured = rng.uniform(0.8, 1.25), [], [], []
    for _ in range(rng.randint(2, 8)):
        amount, x = draw(rng, symbols, size * 0.3, size * 3)
        true, y = draw(rng, symbols, x * scale * 0.97, x * scale * 1.03)
        readings.append({"indicated": amount, "measured": true})
        indicated.append(x)
        measured.append(y)
    x, y = np.array(indicated), np.array(measured)
    # The ratio of sums is the slope through the origin where errors grow with the amount.
    root = np.sqrt(x)
    ratio = np.linalg.lstsq(root[:, None], y / root, rcond=None)[0][0]
    tolerance, limit = draw(rng, RATIOS, 0.02, 0.2)
    request = {"kind": kind, "readings": readings, "meterTolerance": tolerance}
    want = {"correctionFactor": ratio, "meterError": Near(1 / ratio - 1, 1), "spread": Near(np.ptp(y / x) / ratio, 1)}
    want |= {"readings/%d/correctionFactor" % i: c for i, c in enumerate(y / x)}
    if clear(np.ptp(y / x) / ratio, limit):
        want["repeatable"] = bool(np.ptp(y / x) / ratio <= limit)
        if clear(abs(1 / ratio - 1), limit):
            want["withinTolerance"] = bool(abs(1 / ratio - 1) <= limit and want["repeatable"])
    if rng.random() < 0.5:
        per, amount = draw(rng, symbols, size * 0.1, size)
        pulses = rng.randint(50, 5000)
        request["currentSetting"] = {"pulses": pulses, "per": per}
        want |= {"newPulses/pulses": pulses / ratio, "newAmount/per": amount * ratio}
    else:
        request["currentFactor"], now = draw(rng, RATIOS, 0.5, 2)
        want["newFactor"] = now * ratio
    return request, want


def wear_forecast(rng):
    request, at, hours, ratios = {"catches": []}, rng.uniform(2e5, 4e5), [], []
    request["sprayPressure"], p0 = draw(rng, PRESSURES, at, at)
    request["newFlowRate"], new = draw(rng, FLOWS, 5e-6, 5e-5)
    request["limit"], limit = draw(rng, RATIOS, 0.05, 0.2)
    request["hoursPerSeason"], season = draw(rng, ["h"], 3600 * 20, 3600 * 300)
    slope = rng.uniform(1e-4, 6e-4)
    for _ in range(rng.randint(4, 12)):
        h = rng.randint(0, 400)
        pressure, p = draw(rng, PRESSURES, p0 * 0.8, p0 * 1.25)
        time, t = draw(rng, TIMES, 20, 90)
        q = new * (1 + slope * h) * rng.uniform(0.99, 1.01) * (p / p0) ** 0.5
        volume, v = draw(rng, VOLUMES, q * t * 0.999, q * t * 1.001)
        request["catches"].append({"hours": {"value": h, "unit": "h"}, "volume": volume, "time": time, "sprayPressure": pressure})
        hours.append(float(h))
        ratios.append(v / t * (p0 / p) ** 0.5 / new)
    x, y = np.array(hours), np.array(ratios)
    if len(set(hours)) < 2:
        return wear_forecast(rng)
    line, n = stats.linregress(x, y), len(x)
    about = y - line.intercept - line.slope * x
    scatter = np.sqrt((about**2).sum() / (n - 2))
    over = line.intercept + line.slope * x.max() - 1
    if line.slope <= 1e-6 or not clear(over, limit):
        return wear_forecast(rng)
    want = {"overNew": Near(over, 1), "scatter": Near(scatter, 1), "wearPerHour": Near(line.slope, 1e-2),
            "wearPerSeason": Near(line.slope * season / 3600, 1e-1), "limitFlowRate": new * (1 + limit),
            "verdict": "worn_now" if over > limit else "will_reach"}
    want |= {"catches/%d/overLine" % i: Near(d, 1) for i, d in enumerate(about)}
    crossing = (1 + limit - line.intercept) / line.slope
    if crossing > x.min():
        want["hoursAtLimit"] = Near(crossing * 3600, abs(crossing) * 3600)
        want |= _bounds(line, x, n, scatter, 1 + limit, crossing)
    return request, want


def _bounds(line, x, n, scatter, limit, crossing):
    """The roots of the edges of the band of prediction, found numerically. Where the
    slope is not sure there are none."""
    t = stats.t.ppf(0.975, n - 2)
    squares = ((x - x.mean()) ** 2).sum()
    if line.slope / (scatter / np.sqrt(squares)) < t * 1.05:
        return {}

    def edge(at, side):
        return line.intercept + line.slope * at + side * t * scatter * np.sqrt(1 + 1 / n + (at - x.mean()) ** 2 / squares) - limit

    found = {}
    for name, side, away in [("low", 1, -1), ("high", -1, 1)]:
        far = 10.0
        while edge(crossing + away * far, side) * away < 0:
            far *= 2
        root = optimize.brentq(edge, crossing, crossing + away * far, args=(side,), xtol=1e-12, rtol=1e-14)
        found["hoursAtLimitRange/" + name] = Near(root * 3600, crossing * 3600 + abs(root) * 3600)
    return found


def pattern_uniformity(rng):
    cups = [draw(rng, VOLUMES, 1e-5, 3e-5) for _ in range(rng.randint(2, 40))]
    v = np.array([c[1] for c in cups])
    spread, most = draw(rng, RATIOS, 0.05, 0.5)
    place, farthest = draw(rng, RATIOS, 0.1, 0.9)
    request = {"readings": [{"volume": c[0]} for c in cups], "maxCoefficientOfVariation": spread, "maxPlaceDeviation": place}
    variation, off = stats.variation(v, ddof=1), v / v.mean() - 1
    if any(not clear(abs(d), farthest) for d in off) or not clear(variation, most):
        return pattern_uniformity(rng)
    want = {"mean": v.mean(), "standardDeviation": Near(stats.tstd(v), v.mean()), "coefficientOfVariation": Near(variation, 1),
            "placesOutside": int((abs(off) > farthest).sum()), "withinTolerance": bool(variation <= most and (abs(off) <= farthest).all())}
    want |= {"readings/%d/deviation" % i: Near(d, 1) for i, d in enumerate(off)}
    want |= _boom(rng, request)
    return request, want


def _boom(rng, request):
    """A boom of overlapped patterns, its integrals by quadrature between the bends."""
    spacing, d = draw(rng, LENGTHS, 0.05, 0.1)
    cups = [draw(rng, VOLUMES, 1e-6, 3e-5) for _ in range(rng.randint(3, 9))]
    between, apart = draw(rng, LENGTHS, d * 1.1, d * 8)
    request["nozzlePattern"] = {"cupSpacing": spacing, "volumes": [c[0] for c in cups]}
    request["nozzleSpacing"] = between
    places = np.arange(-1, len(cups) + 1) * d
    volumes = np.array([0.0] + [c[1] for c in cups] + [0.0])

    def boom(x):
        reach = int(np.ceil(places[-1] / apart)) + 2
        return sum(np.interp(np.asarray(x) + k * apart, places, volumes) for k in range(-reach, reach + 1))

    bends = np.unique(np.concatenate([places % apart, [0, apart]]))
    mean = sum(integrate.fixed_quad(boom, a, b, n=2)[0] for a, b in zip(bends, bends[1:])) / apart
    squares = sum(integrate.fixed_quad(lambda x: (boom(x) / mean - 1) ** 2, a, b, n=3)[0] for a, b in zip(bends, bends[1:]))
    off = boom(bends) / mean - 1
    return {"boom/coefficientOfVariation": Near(np.sqrt(squares / apart), 1), "boom/highestDeviation": Near(off.max(), 1),
            "boom/lowestDeviation": Near(off.min(), 1)}
