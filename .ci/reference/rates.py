"""Speed, rate, area, course, conversion: each function draws a request and says
what the answer holds."""

import numpy as np

from service import Near, clear
from units import AREAS, FLOWS, LENGTHS, RATES, SPEEDS, TIMES, VOLUMES, RATIOS, draw, factor


def ground_speed(rng):
    lengths, times = zip(*[(draw(rng, LENGTHS, 20, 300), draw(rng, TIMES, 5, 200)) for _ in range(rng.randint(1, 6))])
    tolerance, limit = draw(rng, RATIOS, 0.01, 0.9)
    meters, seconds = np.array([x[1] for x in lengths]), np.array([x[1] for x in times])
    speeds = meters / seconds
    mean = meters.sum() / seconds.sum()
    want = {"groundSpeed": mean, "totalLength": meters.sum(), "totalTime": seconds.sum()}
    want |= {"runs/%d/groundSpeed" % i: v for i, v in enumerate(speeds)}
    if len(speeds) > 1:
        spread = np.ptp(speeds) / mean
        want["spread"] = Near(spread, speeds.max() / mean)
        if clear(spread, limit):
            want["withinTolerance"] = bool(spread <= limit)
    runs = [{"courseLength": a[0], "time": b[0]} for a, b in zip(lengths, times)]
    return {"runs": runs, "runTolerance": tolerance}, want


def application_rate(rng):
    flow, q = draw(rng, FLOWS, 3e-6, 1e-4)
    speed, v = draw(rng, SPEEDS, 0.5, 6)
    rate, r = draw(rng, RATES, 2e-6, 2e-3)
    unknown = rng.choice(["nozzleFlowRate", "groundSpeed", "sprayedWidthPerNozzle", "applicationRate"])
    request = {"nozzleFlowRate": flow, "groundSpeed": speed, "applicationRate": rate}
    want, nozzles = {"solvedFor": unknown}, rng.randint(1, 40)
    if unknown == "sprayedWidthPerNozzle":
        w = q / (r * v)
    elif rng.random() < 0.5:
        request["width"], whole = draw(rng, LENGTHS, 0.3, 30)
        request["nozzles"], w = nozzles, whole / nozzles
        want["width"] = whole
    else:
        request["sprayedWidthPerNozzle"], w = draw(rng, LENGTHS, 0.1, 2)
    request.pop(unknown, None)
    if unknown == "applicationRate":
        r = q / (v * w)
    elif unknown == "nozzleFlowRate":
        q = r * v * w
    elif unknown == "groundSpeed":
        v = q / (r * w)
    want |= {"nozzleFlowRate": q, "groundSpeed": v, "sprayedWidthPerNozzle": w, "applicationRate": r}
    judged = r
    if "width" in request and rng.random() < 0.7:
        request["rowSpacing"], row = draw(rng, LENGTHS, 0.5, 3)
        field = r * whole / row
        want["fieldApplicationRate"] = field
        request["rateBasis"] = rng.choice(["treated", "field"])
        judged = field if request["rateBasis"] == "field" else r
    if rng.random() < 0.5:
        request["relativeDensity"], density = draw(rng, RATIOS, 0.8, 1.5)
        want["waterEquivalentFlowRate"] = q * density**0.5
    request["targetApplicationRate"], target = draw(rng, RATES, judged * 0.8, judged * 1.25)
    request["rateTolerance"], limit = draw(rng, RATIOS, 0.01, 0.2)
    request["labelMaximum"], most = draw(rng, RATES, judged * 0.9, judged * 1.1)
    if target > most:
        del request["labelMaximum"]  # refused: no target may be above it
    request["labelMinimum"], least = draw(rng, RATES, judged * 0.9, judged * 1.1)
    if target < least:
        del request["labelMinimum"]
    elif clear(judged, least):
        want["underLabelMinimum"] = bool(judged < least)
    deviation = judged / target - 1
    want["deviation"] = Near(deviation, 1)
    if clear(abs(deviation), limit):
        want["withinTolerance"] = bool(abs(deviation) <= limit)
    if target <= most and clear(judged, most):
        want["overLabelMaximum"] = bool(judged > most)
    return request, want


def area_check(rng):
    request, want = {}, {}
    request["volumeUsed"], used = draw(rng, VOLUMES, 1e-3, 2)
    if rng.random() < 0.5:
        request["area"], area = draw(rng, AREAS, 50, 1e5)
    else:
        request["courseLength"], length = draw(rng, LENGTHS, 20, 500)
        request["width"], width = draw(rng, LENGTHS, 0.3, 30)
        request["passes"] = rng.randint(1, 9)
        area = length * width * request["passes"]
    rate = used / area
    request["expectedApplicationRate"], expected = draw(rng, RATES, rate * 0.8, rate * 1.25)
    want |= {"area": area, "applicationRate": rate, "deviation": Near(rate / expected - 1, 1)}
    if clear(abs(rate / expected - 1), 0.1):
        want["withinTolerance"] = bool(abs(rate / expected - 1) <= 0.1)
    return request, want


def course_length(rng):
    request = {"readingUnit": rng.choice(VOLUMES), "rateUnit": rng.choice(RATES), "multiple": rng.randint(1, 20)}
    request["width"], width = draw(rng, LENGTHS, 0.2, 30)
    request["groundSpeed"], speed = draw(rng, SPEEDS, 0.5, 6)
    area = request["multiple"] * factor(request["readingUnit"]) / factor(request["rateUnit"])
    return request, {"area": area, "courseLength": area / width, "time": area / width / speed}


class Convert:
    """Every pair of units of every quantity in turn, at random values."""

    def __init__(self, units):
        kinds = {}
        for unit in units:
            kinds.setdefault(unit["quantity"], []).append(unit["symbol"])
        self.pairs = [(a, b) for symbols in kinds.values() for a in symbols for b in symbols]
        self.requests, self.at = max(2000, len(self.pairs)), -1

    def __call__(self, rng):
        self.at = (self.at + 1) % len(self.pairs)
        a, b = self.pairs[self.at]
        value = float("%.9g" % 10 ** rng.uniform(-3, 3))
        request = {"quantity": {"value": value, "unit": a}, "to": b}
        return request, {"quantity": value * factor(a), "quantity/unit": b}
