"""Flow, acceptance, pressure, corrections."""

import numpy as np
from scipy import stats

from acceptance import side, tolerance
from service import Near, clear
from units import FLOWS, LENGTHS, PRESSURES, RATES, RATIOS, SPEEDS, TIMES, VOLUMES, draw


def _catches(rng, least, pressures, center):
    """Catches about a flow per nozzle, and their flows, nozzles and pressures."""
    catches, flows, counts, at = [], [], [], []
    for _ in range(rng.randint(least, 12)):
        time, t = draw(rng, TIMES, 10, 120)
        nozzles = rng.randint(1, 4)
        q = center * nozzles * rng.uniform(0.8, 1.2)
        catch = {"time": time, "nozzles": nozzles}
        if pressures:
            catch["sprayPressure"], p = draw(rng, PRESSURES, *pressures)
            q *= (p / pressures[0]) ** 0.5
            at.append(p)
        catch["volume"], volume = draw(rng, VOLUMES, q * t * 0.999, q * t * 1.001)
        catches.append(catch)
        flows.append(volume / t)
        counts.append(nozzles)
    return catches, np.array(flows), np.array(counts), np.array(at)


def nozzle_flow(rng):
    apart = rng.random() < 0.7
    catches, flows, counts, at = _catches(rng, 2, (1e5, 6e5) if apart else None, rng.uniform(5e-6, 4e-5))
    request, want, exponent, source = {"catches": catches}, {}, 0.5, "square_root_law"
    if not apart:
        request["sprayPressure"], p = draw(rng, PRESSURES, 1e5, 6e5)
        at = np.full(len(flows), p)
    ratio = at.max() / at.min()
    if not clear(ratio, 1.5):
        return nozzle_flow(rng)
    if ratio > 1.5:
        columns = np.column_stack([np.log(at), np.ones(len(at))])
        fitted = np.linalg.lstsq(columns, np.log(flows / counts), rcond=None)[0][0]
        if not (clear(fitted, 0.1) and clear(fitted, 1)):
            return nozzle_flow(rng)
        if 0.1 < fitted < 1:
            exponent, source = fitted, "fitted"
    want |= {"meanNozzleFlowRate": flows.sum() / counts.sum(), "pressureExponent/value": Near(exponent, 1), "pressureExponent/source": source}
    for i, q in enumerate(flows):
        want |= {"catches/%d/flowRate" % i: q, "catches/%d/nozzleFlowRate" % i: q / counts[i]}
    request["predictAt"] = []
    for i in range(3):
        pressure, p = draw(rng, PRESSURES, 1e5, 6e5)
        density, d = draw(rng, RATIOS, 0.8, 1.5)
        request["predictAt"].append({"sprayPressure": pressure, "relativeDensity": density})
        want["predicted/%d/nozzleFlowRate" % i] = (flows * (p / at) ** exponent).sum() / counts.sum() / d**0.5
    return request, want


def nozzle_acceptance(rng):
    own = rng.random() < 0.5
    basis = rng.choice(["rated", "mean", "both"])
    rating, q = draw(rng, FLOWS, 5e-6, 4e-5)
    rated_at, p = draw(rng, PRESSURES, 2e5, 4e5)
    pressure, p0 = draw(rng, PRESSURES, 1.5e5, 6e5)
    catches, flows, counts, at = _catches(rng, 2, (1.5e5, 6e5) if own else None, q * rng.uniform(0.9, 1.1) * ((1.5e5 if own else p0) / p) ** 0.5)
    if rng.random() < 0.3:  # half plugged, or misread
        k, by = rng.randrange(len(flows)), rng.choice([0.2, 0.4, 2, 10])
        catches[k]["volume"]["value"] *= by
        flows[k] *= by
    asked, allowed = tolerance(rng, basis)
    request = {"nozzle": {"ratedFlowRate": rating, "ratedPressure": rated_at}, "sprayPressure": pressure, "catches": catches, "tolerance": asked}
    at = at if own else np.full(len(flows), p0)
    each = flows / counts
    rated = q * np.sqrt(at / p)
    moved = each * np.sqrt(p0 / at)
    mean = (moved * counts).sum() / counts.sum()
    from_rated, from_mean = each / rated - 1, moved / mean - 1
    for name, off in ("rated", from_rated), ("mean", from_mean):
        if not all(clear(d, end) for d in off for end in (-allowed[name][0], allowed[name][1]) if abs(end) < 1):
            return nozzle_acceptance(rng)
    variation = stats.variation(moved, ddof=1)
    want = {"meanNozzleFlowRate": mean, "coefficientOfVariation": Near(variation, 1), "ratedFlowRateAtPressure": q * (p0 / p) ** 0.5}
    outside = 0
    for i in range(len(flows)):
        lies = side(from_rated[i], allowed["rated"]) or side(from_mean[i], allowed["mean"])
        outside += bool(lies)
        name = "catches/%d/" % i
        want |= {name + "nozzleFlowRate": each[i], name + "deviationFromRated": Near(from_rated[i], 1),
                 name + "deviationFromMean": Near(from_mean[i], 1), name + "status": ["within", "above", "below"][lies]}
        about = [(rated[i], allowed["rated"]), (mean * (at[i] / p0) ** 0.5, allowed["mean"])]
        low = max((x * (1 - below) for x, (below, _) in about if below < 1), default=None)
        high = min((x * (1 + above) for x, (_, above) in about if above < 1), default=None)
        if low is None or high is None or low < high * (1 - 1e-7):
            all_of_it = counts[i] * _seconds(catches[i])
            for end, x in ("low", low), ("high", high):
                want |= {name + "acceptableFlowRate/" + end: x, name + "acceptableVolume/" + end: None if x is None else x * all_of_it}
        if counts[i] > 1 and not lies:
            hides = [_hidden(counts[i], d, allowed[by]) for by, d in (("rated", from_rated[i]), ("mean", from_mean[i])) if max(allowed[by]) < 1]
            want[name + "largestHiddenDeviation"] = Near(max(hides), 1) if hides else None
    want |= {"catchesOutside": outside, "proportionOutside": Near(outside / len(flows), 1), "catchesTested": len(flows)}
    return request, want


def _hidden(n, d, ends):
    """How far one of n nozzles may be while each of the others is within."""
    return max(n * d + (n - 1) * min(ends[0], 1), min((n - 1) * ends[1] - n * d, 1))


def _seconds(catch):
    return catch["time"]["value"] * (60 if catch["time"]["unit"] == "min" else 1)


def nozzle_selection(rng):
    """What each nozzle of a shelf needs, in the order of the answer: by the distance of its
    pressures from the range, then from the middle of it, both by ratio."""
    request = {}
    request["targetApplicationRate"], rate = draw(rng, RATES, 5e-6, 2e-4)
    request["width"], width = draw(rng, LENGTHS, 0.5, 6)
    n = request["nozzles"] = rng.randint(1, 8)
    request["relativeDensity"], density = draw(rng, RATIOS, 0.8, 1.5)
    if rng.random() < 0.5:
        request["groundSpeed"], v = draw(rng, SPEEDS, 1, 5)
        speeds = np.array([v, v])
    else:
        low, slow = draw(rng, SPEEDS, 1, 3)
        high, fast = draw(rng, SPEEDS, 3.01, 5)
        request["speedRange"], speeds = {"low": low, "high": high}, np.array([slow, fast])
    middle = np.sqrt(speeds.prod())
    low, least = draw(rng, PRESSURES, 1e5, 2.5e5)
    high, most = draw(rng, PRESSURES, 2.6e5, 6e5)
    request["pressureRange"] = {"low": low, "high": high}
    flow = rate * middle * width / n
    want = {"groundSpeed": middle, "sprayedWidthPerNozzle": width / n, "requiredNozzleFlowRate": flow,
            "waterEquivalentFlowRate": flow * density**0.5, "totalFlowRate": flow * n}
    request["shelf"], nozzles = [], []
    for i in range(rng.randint(1, 6)):
        rated_at, p = draw(rng, PRESSURES, 2e5, 4e5)
        rating, q = draw(rng, FLOWS, flow * 0.5, flow * 2)
        request["shelf"].append({"label": "nozzle %d" % i, "ratedFlowRate": rating, "ratedPressure": rated_at})
        needs = p * (flow * speeds / middle * density**0.5 / q) ** 2
        if not all(clear(x, end) for x in needs for end in (least, most)):
            return nozzle_selection(rng)
        gap = max(0, np.log(least / needs[0]), np.log(needs[1] / most))
        nozzles.append((gap, abs(np.log(needs.prod() / (least * most))) / 2, i, needs))
    nozzles.sort(key=lambda x: x[:2])
    if any(not clear(b[0] + b[1] - a[0], a[1]) for a, b in zip(nozzles, nozzles[1:])):
        return nozzle_selection(rng)
    for place, (gap, _, i, needs) in enumerate(nozzles):
        name, window = "candidates/%d/" % place, middle * np.sqrt(np.array([least, most]) / np.sqrt(needs.prod()))
        want |= {name + "label": "nozzle %d" % i, name + "sprayPressure": np.sqrt(needs.prod()), name + "fits": gap == 0,
                 name + "speedWindow/low": window[0], name + "speedWindow/high": window[1]}
    want["decision"] = "none_fits" if nozzles[0][0] > 0 else "choose"
    return request, want


def pressure_uniformity(rng):
    readings = [draw(rng, PRESSURES, 1.5e5, 6e5) for _ in range(rng.randint(2, 12))]
    p = np.array([x[1] for x in readings])
    request = {"readings": [{"pressure": x[0]} for x in readings]}
    by_share = rng.random() < 0.5
    request["maxDifference"], most = draw(rng, RATIOS, 0.05, 0.9) if by_share else draw(rng, PRESSURES, 2e4, 4e5)
    if by_share:
        most *= p.mean()
    request["cabPressure"], cab = draw(rng, PRESSURES, 2e5, 8e5)
    request["targetPressure"], target = draw(rng, PRESSURES, 2e5, 5e5)
    mean, spread = p.mean(), np.ptp(p)
    want = {"highest": p.max(), "lowest": p.min(), "mean": mean, "spread": Near(spread, p.max()),
            "flowSpread": Near((p.max() / p.min()) ** 0.5 - 1, 1), "cabOffset": Near(cab - mean, cab),
            "cabPressureForTarget/ifHoseLoss": target * cab / mean}
    if target + cab - mean > 1e3:
        want["cabPressureForTarget/ifGaugeError"] = Near(target + cab - mean, target + cab)
    if most / 2 < mean * 0.999:
        want["flowSpreadAtMaxDifference"] = Near(((mean + most / 2) / (mean - most / 2)) ** 0.5 - 1, 1)
    if clear(spread, most):
        want["withinTolerance"] = bool(spread <= most)
    return request, want


def corrections(rng):
    try:
        return _corrections(rng)
    except Unclear:
        return corrections(rng)


class Unclear(Exception):
    """Something lies so near to its limit that rounding decides."""


def _within(x, low, high):
    if not (clear(x, low) and clear(x, high)):
        raise Unclear
    return low < x < high


def _corrections(rng):
    rate, r = draw(rng, RATES, 5e-6, 2e-3)
    speed, v = draw(rng, SPEEDS, 1, 4)
    pressure, p = draw(rng, PRESSURES, 2e5, 5e5)
    target, t = draw(rng, RATES, r * 0.6, r * 1.6)
    tolerance, limit = draw(rng, RATIOS, 0.02, 0.2)
    power, n = draw(rng, ["1"], 0.4, 0.6)
    slow, v0 = draw(rng, SPEEDS, v * 0.6, v * 1.1)
    fast, v1 = draw(rng, SPEEDS, v0 * 1.05, v0 * 1.7)
    low, p0 = draw(rng, PRESSURES, p * 0.5, p * 1.1)
    high, p1 = draw(rng, PRESSURES, p0 * 1.05, p0 * 2)
    request = {"measured": {"applicationRate": rate, "groundSpeed": speed, "sprayPressure": pressure}, "targetApplicationRate": target,
               "rateTolerance": tolerance, "pressureExponent": power, "boomEven": True,
               "limits": {"groundSpeed": {"low": slow, "high": fast}, "sprayPressure": {"low": low, "high": high}}}
    least, most = t * (1 - limit), t * (1 + limit)
    want = {"deviation": Near(r / t - 1, 1), "withinTolerance": _within(r / t - 1, -limit, limit)}
    want |= {"underLabelMinimum": False, "overLabelMaximum": False}
    if rng.random() < 0.4:
        request["labelMinimum"], least_lawful = draw(rng, RATES, t * 0.85, t * 0.999)
        least, want["underLabelMinimum"] = max(least, least_lawful), not _within(r, least_lawful, np.inf)
    if rng.random() < 0.4:
        request["labelMaximum"], most_lawful = draw(rng, RATES, t * 1.001, t * 1.15)
        most, want["overLabelMaximum"] = min(most, most_lawful), not _within(r, 0, most_lawful)
    flow = lambda x: (x / p) ** n  # of the measured one
    giving = lambda f: p * f ** (1 / n)  # the pressure that gives so much of it
    if rng.random() < 0.5:  # a chart, straight between its points on paper with both scales logarithmic
        del request["pressureExponent"]
        points, bends = np.cumprod([p * 0.1, rng.uniform(3, 9), rng.uniform(3, 9)]), [rng.uniform(0.4, 0.6) for _ in range(2)]
        points = np.append(points, p * 100)
        chart = [draw(rng, PRESSURES, x, x) for x in points]
        points = np.log([x[1] for x in chart])
        flows = [draw(rng, FLOWS, x, x) for x in 1e-5 * np.exp(np.cumsum(np.append(0, np.diff(points) * [*bends, 0.5])))]
        request["nozzle"] = {"flowChart": [{"pressure": x[0], "flowRate": y[0]} for x, y in zip(chart, flows)]}
        given = np.log([y[1] for y in flows])
        own = lambda x: np.exp(np.interp(np.log(x), points, given))
        flow = lambda x: own(x) / own(p)
        giving = lambda f: np.exp(np.interp(np.log(own(p) * f), given, points))

    at = lambda speed, pressure: r * v / speed * flow(pressure)
    fast_enough, strong_enough = _within(v, v0, v1), _within(p, p0, p1)
    if _within(r, least, most) and fast_enough and strong_enough:
        return request, want | {"plans": [], "rejected": [], "decision": "none_needed"}
    plans, rejected, known = [], [], {}

    def attempt(changes, by, speed, pressure):
        """Solves one of the two, the other being given; where it ends, whether that is a plan, and whether it was stopped."""
        needed = v * r * flow(pressure) / t if by == "speed" else giving(t / r * speed / v)
        bounds = (v0, v1) if by == "speed" else (p0, p1)
        stopped = not _within(needed, *bounds)
        stands = min(max(needed, bounds[0]), bounds[1])
        speed, pressure = (stands, pressure) if by == "speed" else (speed, stands)
        key = changes, round(np.log(speed), 9), round(np.log(pressure), 9)
        if key not in known:
            predicted = at(speed, pressure) if stopped else t
            kept = (changes != "pressure" or fast_enough) and (changes != "speed" or strong_enough)
            known[key] = _within(predicted, least, most) and kept
            if known[key]:
                size = abs(np.log(speed / v)) + abs(np.log(pressure / p))
                plans.append((size, changes, by, speed, pressure, predicted, stopped))
            else:
                rejected.append((changes, by, needed))
        return stands, known[key], stopped

    nearest = {"speed": min(max(v, v0), v1), "pressure": min(max(p, p0), p1)}
    attempt("speed", "speed", v, p)
    if not strong_enough:
        attempt("combined", "speed", v, nearest["pressure"])
    attempt("pressure", "pressure", v, p)
    if not fast_enough:
        attempt("combined", "pressure", nearest["speed"], p)
    if not plans:
        for first in ("speed", "pressure"):  # as far as its limits let it, then the other
            needed = v * r * flow(nearest["pressure"]) / t if first == "speed" else giving(t / r * nearest["speed"] / v)
            bounds, now = ((v0, v1), v) if first == "speed" else ((p0, p1), p)
            if _within(needed, *bounds):
                continue
            stands = min(max(needed, bounds[0]), bounds[1])
            if abs(stands / now - 1) < 1e-9:
                continue
            if first == "speed":
                attempt("combined", "pressure", stands, p)
            else:
                attempt("combined", "speed", v, stands)

    # What it changes, and what it leaves; last what a limit leaves further off than it was.
    worse = lambda plan: plan[6] and not _within(abs(plan[5] / t - 1), -1, abs(r / t - 1))
    ranked = sorted((worse(plan), plan[0] + abs(np.log(plan[5] / t)), i) for i, plan in enumerate(plans))
    if any(a[0] == b[0] and not clear(a[1], b[1]) for a, b in zip(ranked, ranked[1:])):
        raise Unclear
    plans = [plans[i] for *_, i in ranked]
    names = {"speed": ("groundSpeed", "neededGroundSpeed"), "pressure": ("sprayPressure", "neededPressure")}
    for i, (size, changes, by, speed, pressure, predicted, at_limit) in enumerate(plans):
        name = "plans/%d/" % i
        want |= {name + "change": changes, name + "predictedApplicationRate": predicted, name + "deviation": Near(predicted / t - 1, 1),
                 name + "atLimit": at_limit, name + "changeSize": Near(size, 1)}
        for change, value, now in (("speed", speed, v), ("pressure", pressure, p)):
            if changes in (change, "combined"):
                want[name + names[change][0]] = value
            if changes == change:
                want[name + "relativeChange"] = Near(value / now - 1, 1)
    for i, (changes, by, needed) in enumerate(rejected):
        want |= {"rejected/%d/change" % i: changes, "rejected/%d/%s" % (i, names[by][1]): needed}
    want["decision"] = "choose_plan" if plans else "out_of_reach"
    return request, want
