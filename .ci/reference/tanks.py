"""Loads, pump, field capacity."""

import math

from service import Near, clear
from units import (AREAS, CONCENTRATIONS, DENSITIES, FLOWS, LENGTHS, MASS_RATES, RATES, RATIOS, SPEEDS, TIMES, VOLUMES, draw)


def _whole(x):
    """Whether x is too near to a whole number to count on."""
    return not clear(x, round(x), 1e-6)


def tank_loads(rng):
    request, want = {"products": []}, {}
    request["tankVolume"], tank = draw(rng, VOLUMES, 0.2, 4)
    request["applicationRate"], rate = draw(rng, RATES, 5e-6, 2e-3)
    request["treatedArea"], area = draw(rng, AREAS, 0.05 * tank / rate, 12 * tank / rate)
    spray = rate * area
    loads = spray / tank
    if _whole(loads):
        return tank_loads(rng)
    full = math.floor(loads)
    part = spray - full * tank
    equal = rng.random() < 0.3
    want |= {"sprayVolume": spray, "mixedVolume": spray, "areaPerLoad": tank / rate, "tankfuls": loads, "loads": full + 1}
    if equal:
        request["equalLoads"] = True
        want |= {"equalLoad/volume": spray / (full + 1), "equalLoad/area": area / (full + 1), "fullLoads": 0}
    else:
        want |= {"partLoad/volume": Near(part, spray), "partLoad/area": Near(part / rate, area), "fullLoads": full}
    liquid = 0.0
    for i in range(rng.randint(0, 4)):
        form, product = rng.choice(["liquid", "dry", "share", "strength", "poured", "weighed"]), {}
        if form == "liquid":
            product["productRate"], x = draw(rng, RATES, rate * 1e-4, rate * 0.05)
            s = x / rate
        elif form == "dry":
            product["productRate"], x = draw(rng, MASS_RATES, 1e-6, 1e-3)
            s = x / rate
        elif form == "share":
            product["concentration"], s = draw(rng, CONCENTRATIONS, 1e-4, 0.05)
        elif form == "strength":
            product["concentration"], s = draw(rng, DENSITIES, 0.1, 20)
        else:
            product["activeIngredientRate"], a = draw(rng, MASS_RATES, rate * 0.02, rate * 5)
            if form == "poured":
                product["activeIngredientContent"], content = draw(rng, DENSITIES, 100, 900)
            else:
                product["activeIngredientContent"], content = draw(rng, RATIOS, 0.05, 0.95)
            s = a / content / rate
        if form in ("liquid", "share", "poured"):
            liquid += s
        request["products"].append(product)
        name = "products/%d/" % i
        want |= {name + "perFullLoad": s * tank, name + "total": s * spray, name + "ratePerArea": s * rate}
        if equal:
            want[name + "perEqualLoad"] = s * spray / (full + 1)
        else:
            want[name + "perPartLoad"] = Near(s * part, s * spray)
    want |= {"carrierWater/perFullLoad": Near((1 - liquid) * tank, tank), "carrierWater/total": Near((1 - liquid) * spray, spray)}
    return request, want


def pump_demand(rng):
    request, want, q = {"nozzleGroups": []}, {}, 0.0
    for i in range(rng.randint(1, 4)):
        flow, x = draw(rng, FLOWS, 5e-6, 5e-5)
        n = rng.randint(1, 60)
        request["nozzleGroups"].append({"nozzles": n, "nozzleFlowRate": flow})
        want["nozzleGroups/%d/sprayFlowRate" % i] = n * x
        q += n * x
    if rng.random() < 0.5:
        request["agitationFlowRate"], stir = draw(rng, FLOWS, 1e-4, 2e-3)
    else:
        request["tankVolume"], tank = draw(rng, VOLUMES, 0.2, 4)
        request["agitationShare"], share = draw(rng, RATIOS, 0.01, 0.2)
        stir = share * tank / 60
        want["agitationShare"] = share
    request["reserve"], reserve = draw(rng, RATIOS, 0.05, 0.5)
    request["groundSpeed"], v = draw(rng, SPEEDS, 1, 5)
    request["width"], w = draw(rng, LENGTHS, 2, 30)
    total = (q + stir) * (1 + reserve)
    request["ratedPumpFlowRate"], pump = draw(rng, FLOWS, total * 0.7, total * 1.6)
    left = pump / (1 + reserve) - stir
    if not (clear(pump, total) and clear(0.9 * pump, total)) or abs(left) < 1e-7 * pump:
        return pump_demand(rng)
    want |= {"sprayFlowRate": q, "agitationFlowRate": stir, "reserveFlowRate": (q + stir) * reserve, "totalFlowRate": total,
             "sufficient": bool(total <= pump), "spareFlowRate": Near(pump - total, pump), "wornPumpFlowRate": 0.9 * pump,
             "sufficientWhenWorn": bool(total <= 0.9 * pump), "applicationRate": q / (v * w)}
    if left > 0:
        want |= {"largestSprayFlowRate": Near(left, pump), "largestApplicationRate": Near(left / (v * w), pump / (v * w))}
        if len(request["nozzleGroups"]) == 1 and not _whole(left / x):
            want["largestNozzles"] = math.floor(left / x)
    return request, want


def field_capacity(rng):
    request = {}
    request["groundSpeed"], v = draw(rng, SPEEDS, 1, 5)
    request["workingWidth"], w = draw(rng, LENGTHS, 1, 36)
    request["fieldEfficiency"], e = draw(rng, RATIOS, 0.4, 0.95)
    request["tankVolume"], tank = draw(rng, VOLUMES, 0.2, 4)
    request["applicationRate"], rate = draw(rng, RATES, 5e-6, 2e-3)
    request["refillTime"], refill = draw(rng, TIMES, 120, 3600)
    request["fieldArea"], area = draw(rng, AREAS, 0.05 * tank / rate, 12 * tank / rate)
    loads = area * rate / tank
    if _whole(loads):
        return field_capacity(rng)
    load, work = tank / rate, v * w * e
    refills = math.ceil(loads) - 1
    return request, {
        "theoreticalWorkRate": v * w, "effectiveWorkRate": work, "areaPerLoad": load, "timePerLoad": load / work,
        "workRateWithRefills": load / (load / work + refill), "sprayVolume": area * rate, "loads": refills + 1, "refills": refills,
        "fieldTime": area / work, "refillingTime": refills * refill, "totalTime": area / work + refills * refill,
    }


def tank_rinse(rng):
    request = {}
    request["residualVolume"], left = draw(rng, VOLUMES, 1e-3, 0.1)
    request["wantedShareLeft"], wanted = draw(rng, RATIOS, 1e-4, 0.5)
    n = rng.randint(1, 6)
    if rng.random() < 0.5:
        request["rinseWater"], water = draw(rng, VOLUMES, 0.01, 2)
        request["numberOfRinses"], each = n, [water / n] * n
    else:
        drawn = [draw(rng, VOLUMES, 0.01, 1) for _ in range(n)]
        request["rinses"], each = [{"volume": q} for q, _ in drawn], [v for _, v in drawn]
    equal = lambda k: (left / (left + sum(each) / k)) ** k
    want = {"rinses/%d/shareLeft" % i: math.prod(left / (left + v) for v in each[:i + 1]) for i in range(n)}
    share = want["rinses/%d/shareLeft" % (n - 1)]
    enough = next((k for k in range(1, 21) if equal(k) <= wanted), None)
    return request, want | {"shareLeft": share, "oneRinse": equal(1), "threeRinses": equal(3), "withinTolerance": share <= wanted,
                           "rinseWater": sum(each), "equalRinsesNeeded/number": enough, "waterForThreeRinses": 3 * left * (wanted ** (-1 / 3) - 1)}
