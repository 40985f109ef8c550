"""Uncertainty and conformance of rates: of stated figures, and of a whole field sheet,
in which one stopwatch and one tape are in flow, speed and width at once."""

import math

from uncertainties import ufloat

from instruments import Tools, judged, probability, wanted
from uncertainty import catches, pressures, runs
from units import AREAS, FLOWS, LENGTHS, RATES, RATIOS, SPEEDS, VOLUMES, draw


def _stated(rng, request, name, units, low, high):
    """A figure, its standard uncertainty stated or not."""
    request[name], value = draw(rng, units, low, high)
    if rng.random() < 0.3:
        return ufloat(value, 0)
    share, u = draw(rng, RATIOS, 1e-3, 0.05)
    request.setdefault("standardUncertainties", {})[name] = share
    return ufloat(value, u * value)


def application_rate(rng):
    request = {}
    known = {"nozzleFlowRate": (FLOWS, 3e-6, 1e-4), "groundSpeed": (SPEEDS, 0.5, 6),
             "sprayedWidthPerNozzle": (LENGTHS, 0.1, 2), "applicationRate": (RATES, 2e-6, 2e-3)}
    solved = rng.choice(list(known))
    x = {name: _stated(rng, request, name, *how) for name, how in known.items() if name != solved}
    if "standardUncertainties" not in request:
        return application_rate(rng)
    q, v, w, r = (x.get(name) for name in known)
    x[solved] = {"nozzleFlowRate": lambda: r * v * w, "groundSpeed": lambda: q / (r * w),
                 "sprayedWidthPerNozzle": lambda: q / (r * v), "applicationRate": lambda: q / (v * w)}[solved]()
    held, want = _against(rng, "targetApplicationRate", x["applicationRate"])
    return request | held, want | wanted("uncertainty/" + solved, x[solved])


def _against(rng, target, rate, *scatters):
    """Holds a rate against a target, drawn here, and a label's maximum above that."""
    tolerance, limit = draw(rng, RATIOS, 0.05, 0.2)
    wish, aim = draw(rng, RATES, rate.n * 0.85, rate.n * 1.15)
    label, most = draw(rng, RATES, aim * 1.001, aim * 1.2)
    request = {"rateTolerance": tolerance, target: wish, "labelMaximum": label}
    if rate.s == 0:
        return request, {}
    deviation = rate / aim - 1
    return request, wanted("uncertainty/deviation", deviation, *scatters) | judged("", probability(deviation, -limit, limit, *scatters)) | judged(
        "labelConformance/", probability(rate, -math.inf, most, *scatters))


def area_check(rng):
    request = {}
    used = _stated(rng, request, "volumeUsed", VOLUMES, 1e-3, 2)
    if rng.random() < 0.5:
        area = _stated(rng, request, "area", AREAS, 50, 1e5)
    else:
        area = _stated(rng, request, "courseLength", LENGTHS, 20, 500) * _stated(rng, request, "width", LENGTHS, 0.3, 30)
    rate = used / area
    expected = _stated(rng, request, "expectedApplicationRate", RATES, rate.n * 0.85, rate.n * 1.15)
    request["rateTolerance"], limit = draw(rng, RATIOS, 0.05, 0.2)
    deviation = rate / expected - 1
    if deviation.s == 0:
        return area_check(rng)
    want = wanted("uncertainty/applicationRate", rate) if rate.s else {}
    return request, want | wanted("uncertainty/deviation", deviation) | judged("", probability(deviation, -limit, limit))


def calibration(rng):
    """A whole sheet; the pressure at the catches is the mean of readings or of its own."""
    tools, request, want = Tools(rng, "stopwatch", "tape", "jug", "gauge"), {}, {}

    def part(name, wanted_there):
        want.update({name + "/result/" + k: x for k, x in wanted_there.items()})

    common = None
    if rng.random() < 0.6:
        request["pressure"], there, common = pressures(rng, tools)
        part("pressure", there)
    request["output"], there, q, caught = catches(rng, tools, common)
    request["nozzle"] = request["output"].pop("nozzle")
    part("output", there)
    request["speed"], there, v, driven = runs(rng, tools)
    part("speed", there)
    machine = request["machine"] = {}
    tape, nozzles, wide = tools.take("tape", machine), rng.randint(1, 20), rng.random() < 0.5
    if not wide:
        machine["sprayedWidthPerNozzle"], width = draw(rng, LENGTHS, 0.1, 2)
        nozzles = 1
    else:
        machine["nozzlesPerBed"] = nozzles
        machine["bedWidth"], width = draw(rng, LENGTHS, 0.5, 2)
    if rng.random() < 0.5:
        request["relativeDensity"], density = draw(rng, RATIOS, 0.8, 1.5)
        q /= density**0.5
    rate = judged_rate = nozzles * q / v / tape.read(width)
    there, basis = wanted("uncertainty/applicationRate", rate, caught, driven), {}
    if wide and rng.random() < 0.6:
        machine["rowSpacing"], row = draw(rng, LENGTHS, width, width * 2)
        field = nozzles * q / v / tape.read(row)
        there |= wanted("uncertainty/fieldApplicationRate", field, caught, driven)
        basis["rateBasis"] = rng.choice(["treated", "field"])
        judged_rate = field if basis["rateBasis"] == "field" else rate
    target, held = _against(rng, "applicationRate", judged_rate, caught, driven)
    request["target"] = target | basis
    part("rate", there | held)
    return request | tools.json, want


calibration.requests = 400  # the derivatives of a sheet take their time
