"""Uncertainty and conformance of what is measured: runs, pressures, catches. Each
part draws a measurement and gives back its request, what the answer must hold, the
result as it follows the errors, and its scatter with its degrees of freedom."""

import math

import numpy as np
from uncertainties import ufloat, umath

from acceptance import tolerance
from instruments import Tools, both, judged, probability, wanted
from units import FLOWS, LENGTHS, PRESSURES, RATIOS, TIMES, VOLUMES, draw


def runs(rng, tools):
    own, speeds, listed, lengths, times, tapes, watches = [], [], [], [], [], [], []
    base = rng.uniform(0.5, 5)
    for _ in range(rng.randint(1, 6)):
        run = {}
        run["courseLength"], x = draw(rng, LENGTHS, 25, 200)
        run["time"], t = draw(rng, TIMES, x / base * 0.98, x / base * 1.02)
        tape, watch = tools.take("tape", run), tools.take("stopwatch", run)
        listed.append(run)
        own.append(tape.read(x) / watch.read(t))
        lengths.append(x * tape.scale)
        times.append(t * watch.scale)
        speeds.append(x / t)
        tapes.append(tape.variance)
        watches.append(watch.variance)
    request = {"runs": listed}
    request["runTolerance"], limit = draw(rng, RATIOS, 0.02, 0.1)
    scaled, n = sum(lengths) / sum(times), len(listed)
    length, time = np.array([x.n for x in lengths]), np.array([t.n for t in times])
    read = sum(tapes) / length.sum() ** 2 + sum(watches) / time.sum() ** 2
    scatter = tools.scatter("runs", read, time / time.sum(), np.array(speeds) / scaled.n)
    v = sum(lengths) / sum(t * e for t, e in zip(times, scatter[0]))
    want = wanted("uncertainty/groundSpeed", v, scatter)
    for i in range(n):
        want |= wanted("runs/%d/uncertainty/groundSpeed" % i, own[i])
    if n > 1:
        spread = (own[np.argmax(speeds)] - own[np.argmin(speeds)]) / scaled
        want |= wanted("uncertainty/spread", spread) | judged("", probability(spread, -math.inf, limit))
    return request, want, v, scatter


def pressures(rng, tools):
    listed, p = [], []
    for _ in range(rng.randint(1, 8)):
        reading = {}
        reading["pressure"], x = draw(rng, PRESSURES, 2.6e5, 3e5)
        p.append(tools.take("gauge", reading).read(x))
        listed.append(reading)
    request = {"readings": listed}
    request["maxDifference"], most = draw(rng, PRESSURES, 2e4, 8e4)
    plain, mean = [x.n for x in p], sum(p) / len(p)
    want = wanted("uncertainty/mean", mean)
    for i, x in enumerate(p):
        want |= wanted("readings/%d/uncertainty/pressure" % i, x)
    if len(p) > 1:
        high, low = p[np.argmax(plain)], p[np.argmin(plain)]
        want |= wanted("uncertainty/spread", high - low) | wanted("uncertainty/flowSpread", umath.sqrt(high / low) - 1)
        want |= judged("", probability(high - low, -math.inf, most))
    return request, want, mean


def catches(rng, tools, common=None, of_a_boom=True):
    """At the common pressure, read by itself where none is given, or at a pressure of
    each, with or without the common one to bring them to."""
    basis = rng.choice(["rated", "mean", "both"])
    request, want = {"nozzle": {}, "catches": []}, {}
    request["nozzle"]["ratedFlowRate"], q0 = draw(rng, FLOWS, 5e-6, 4e-5)
    request["nozzle"]["ratedPressure"], p0 = draw(rng, PRESSURES, 2e5, 4e5)
    request["tolerance"], allowed = tolerance(rng, basis, 0.04, 0.15)
    apart = common is None and rng.random() < 0.4
    if common is None and not (apart and rng.random() < 0.5):
        request["sprayPressure"], p = draw(rng, PRESSURES, 2.6e5, 3e5)
        common = tools.take("gauge", request).read(p)
    measured, lowest = [], None
    for _ in range(rng.randint(1 if basis == "rated" else 2, 10)):
        catch = {"nozzles": rng.randint(1, 4)}
        own = bare = None
        if apart:
            catch["sprayPressure"], p = draw(rng, PRESSURES, 2.6e5, 3e5)
            gauge = tools.take("gauge", catch)
            own, bare = gauge.read(p), p * gauge.scale
            if lowest is None or p < lowest.n:
                lowest = bare
        q = q0 * ((own or common).n / p0) ** 0.5 * catch["nozzles"] * rng.uniform(0.85, 1.15)
        catch["time"], t = draw(rng, TIMES, 20, 90)
        catch["volume"], x = draw(rng, VOLUMES, q * t * 0.999, q * t * 1.001)
        jug, watch = tools.take("jug", catch), tools.take("stopwatch", catch)
        reads = [(jug, 1 / x), (watch, 1 / t)] + ([(gauge, 0.5 / p)] if apart else [])
        measured.append((catch["nozzles"], jug.read(x) / watch.read(t), x * jug.scale / (t * watch.scale), own, bare, reads))
        request["catches"].append(catch)
    working = lowest if common is None else common
    moved = [q * umath.sqrt(working / own) if own else q for _, q, _, own, _, _ in measured]
    plain = [q * umath.sqrt(working / bare) if bare else q for _, _, q, _, bare, _ in measured]
    nozzles, n = np.array([m[0] for m in measured]), len(measured)
    each, mean, share = np.array(moved) / nozzles, sum(moved) / nozzles.sum(), 0.0
    if of_a_boom and rng.random() < 0.5:
        request["catchPointsOnBoom"] = n + rng.choice([0, rng.randint(1, 30)])
        share = n / request["catchPointsOnBoom"]
    ratios = np.array([x.n for x in each])
    weights = ratios * nozzles / (ratios * nozzles).sum()
    read = sum(tool.variance * c**2 * w**2 for m, w in zip(measured, weights) for tool, c in m[5])
    scatter = tools.scatter("catches", read, weights, ratios / ratios.mean(), 1 - share)
    # What was caught of the boom is known but for its readings, the rest but for the scatter.
    boom = sum(q * (e + sum(tool.read(0) / tool.scale * c for tool, c in m[5]) * math.sqrt(share)) for q, e, m in zip(plain, scatter[0], measured))
    boom /= nozzles.sum()
    want |= wanted("uncertainty/meanNozzleFlowRate", boom, scatter)
    if n > 1:
        middle = sum(each) / n
        want |= wanted("uncertainty/coefficientOfVariation", umath.sqrt(sum((x - middle) ** 2 for x in each) / (n - 1)) / middle)
    for i, (count, q, _, own, _, _) in enumerate(measured):
        name = "catches/%d/" % i
        rated = q / count / (q0 * umath.sqrt((common if own is None else own) / p0)) - 1
        from_mean = each[i] / mean - 1
        want |= wanted(name + "uncertainty/nozzleFlowRate", q / count) | wanted(name + "uncertainty/deviationFromRated", rated)
        if n > 1:
            want |= wanted(name + "uncertainty/deviationFromMean", from_mean)
        by = [(d, *allowed[of]) for of, d in (("rated", rated), ("mean", from_mean)) if min(allowed[of]) < math.inf]
        want |= judged(name, both(*by) if len(by) == 2 else probability(by[0][0], -by[0][1], by[0][2]))
    return request, want, boom, scatter


def ground_speed(rng):
    tools = Tools(rng, "stopwatch", "tape")
    request, want, _, _ = runs(rng, tools)
    return request | tools.json, want


def pressure_uniformity(rng):
    tools = Tools(rng, "gauge")
    request, want, _ = pressures(rng, tools)
    return request | tools.json, want


def nozzle_acceptance(rng):
    tools = Tools(rng, "stopwatch", "jug", "gauge")
    request, want, _, _ = catches(rng, tools)
    return request | tools.json, want


nozzle_acceptance.requests = 500  # the derivatives of a round take their time


def nozzle_flow(rng):
    """At one pressure, and predicted at another by the square-root law."""
    tools, request = Tools(rng, "stopwatch", "jug", "gauge"), {}
    request["sprayPressure"], p0 = draw(rng, PRESSURES, 2.6e5, 3e5)
    read = tools.take("gauge", request).read(p0)
    round_, want, q, scatter = catches(rng, tools, read, of_a_boom=False)
    to, p = draw(rng, PRESSURES, 1.5e5, 6e5)
    request |= {"catches": round_["catches"], "predictAt": [{"sprayPressure": to}]}
    want = {k: x for k, x in want.items() if "FlowRate/" in k}
    return request | tools.json, want | wanted("predicted/0/uncertainty/nozzleFlowRate", q * umath.sqrt(p / read), scatter)


nozzle_flow.requests = 500
