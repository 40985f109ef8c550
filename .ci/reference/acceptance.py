"""What follows of a round of catches, by its own means: whole rounds of single nozzles rated
1 L/min, read without error, with some worn, dirty, plugged, misread or of another size, some
of them caught again. Chances are scipy's."""

import math

import numpy as np
from scipy import stats

from service import Near, clear
from units import RATIOS, draw

SIDES = ["left", "center", "right"]
INF = math.inf


def tolerance(rng, basis, low=0.02, high=0.15):
    """A tolerance in short or at length, and what it allows below and above the rating and
    the mean: of what is not limited any amount."""
    if rng.random() < 0.5:
        limit, most = draw(rng, RATIOS, low, high)
        allowed = {name: (most, most) if basis in (name, "both") else (INF, INF) for name in ("rated", "mean")}
        return {"limit": limit, "basis": basis}, allowed
    request, allowed = {}, {"rated": (INF, INF), "mean": (INF, INF)}
    for name in ["rated", "mean"] if basis == "both" else [basis]:
        ends, got = {}, [INF, INF]
        for i, way in enumerate(["below", "above"]):
            if rng.random() < 0.7 or i == 1 and not ends:
                ends[way], got[i] = draw(rng, RATIOS, low, high)
        request[name], allowed[name] = ends, tuple(got)
    return request, allowed


def side(d, ends):
    """Whether a deviation is below (-1) or above (1) what is allowed; 0 within."""
    return 1 if d > ends[1] else -1 if d < -ends[0] else 0


def narrowest(allowed):
    return min(x for ends in allowed.values() for x in ends)


def reference(q, allowed, two):
    """The mean without what pulls it; of two groups the one nearer to the rating of 1."""
    if two:
        return min(two, key=lambda m: abs(m - 1))
    below, above = allowed
    flowing = q[q > 0]
    middle = np.median(flowing)
    kept = flowing[(flowing / middle - 1 <= above) & (flowing / middle - 1 >= -below)]
    return np.median(kept) if len(kept) else middle


def two_groups(q, limit):
    """The means of two groups, parted at the widest gap; None where there are none."""
    middle = np.median(q)
    near = np.sort(q[np.abs(q - middle) <= middle / 2])
    if len(near) < 4 or middle == 0:
        return None
    part = int(np.argmax(near[1:] / near[:-1])) + 1
    low, high = near[:part], near[part:]
    fewer = min(len(low), len(high))
    if fewer < 2 or fewer < len(near) / 4 or high.mean() / low.mean() - 1 <= limit:
        return None
    return low.mean(), high.mean()


def of_another_size(catches, lies, off, alike, allow):
    """The catches of sides, or else of beds, that are off alike by about a size."""
    for key in ("position", "bed"):
        names = list(dict.fromkeys(c[key] for c in catches if key in c))
        found = {}
        for name in names:
            of = [i for i, c in enumerate(catches) if c.get(key) == name]
            d = off[of]
            if len(of) < 2 or len(of) == len(catches) or 0 in lies[of]:
                continue
            m = d.mean()
            allow(m, 0.15, 0.6, -0.13, -0.4)
            if (0.15 <= m <= 0.6 or 0.13 <= -m <= 0.4) and d.std(ddof=1) / (1 + m) <= alike:
                found[name] = of
        grouped = [i for of in found.values() for i in of]
        ways = {lies[i] for i in grouped}
        others = [i for i in range(len(catches)) if i not in grouped]
        if found and not any(lies[i] in ways for i in others) and len(others) >= len(catches) / 4:
            return grouped, {of[0] for of in found.values()}
    return [], set()


def chance_above(x, n, points, limit):
    """By Jeffreys' prior; of points not caught, beta-binomial."""
    if not points:
        return stats.beta.sf(limit, x + 0.5, n - x + 0.5)
    most = math.floor((limit + 1e-9) * points) - x
    return 0.0 if most >= points - n else 1.0 if most < 0 else stats.betabinom.sf(most, points - n, x + 0.5, n - x + 0.5)


def decisions(rng):
    n = rng.randint(4, 16)
    kind = lambda: rng.choice([1] * 12 + [rng.uniform(1.12, 1.45)] * 4 + [rng.uniform(0.2, 0.9)] * 2 + [0, rng.uniform(1.6, 3)])
    bad, size = rng.choice([0, 0.1, 0.3, 0.6, 1]), rng.choice([1, 1, 1, 1.25, 0.8])
    odd, everyone = rng.choice([None, "side", "bed"]), rng.choice([1] * 5 + [1.13, 1.25, 0.7, 0])
    q, catches, first = [], [], []
    for i in range(n):
        catch = {"bed": i // 2 + 1, "position": SIDES[3 * i // n], "time": {"value": 60, "unit": "s"}}
        x = everyone * (kind() if rng.random() < bad else 1) * rng.gauss(1, 0.012)
        if odd == "side" and catch["position"] == "left" or odd == "bed" and catch["bed"] == 2:
            x = size * rng.gauss(1, 0.012)
        q.append(float("%.5g" % x))
        catch["volume"] = {"value": q[-1], "unit": "L"}
        catches.append(catch)
    q = np.array(q)
    rated = rng.random() < 0.7
    basis = rng.choice(["rated", "mean", "both"]) if rated else "mean"
    asked, allowed = tolerance(rng, basis, 0.05, 0.12)
    share = rng.choice([0.1, 0.25, 0.5])
    request = {"catches": catches, "tolerance": asked, "replaceAllAbove": {"value": share, "unit": "1"}, "uncertainty": False}
    if rated:
        request |= {"nozzle": {"ratedFlowRate": {"value": 1, "unit": "L/min"}, "ratedPressure": {"value": 3, "unit": "bar"}}, "sprayPressure": {"value": 3, "unit": "bar"}}
    points = rng.choice([0, n + rng.randint(0, 40)])
    if points:
        request["catchPointsOnBoom"] = points
    close = []

    def allow(x, *limits):
        close.extend(not clear(x, y, 1e-6) for y in limits if abs(y) < INF)

    limit = narrowest(allowed)
    if q.sum() == 0:
        dry = "below" if min(allowed["rated"][0], allowed["mean"][0]) < 1 else "within"
        return request, {"decision": "not_judged", "actions/0/action": "check_supply", "actions/1/action": None, "catches/0/status": dry}
    from_rated, from_mean = q - 1, q / q.mean() - 1
    for d in from_rated:
        allow(d, *(-allowed["rated"][0], allowed["rated"][1]), 0.5)
    statuses = np.array([side(d, allowed["rated"]) or side(m, allowed["mean"]) for d, m in zip(from_rated, from_mean)])
    outside = int((statuses != 0).sum())
    want = {"catchesOutside": outside, "proportionOutside": Near(outside / n, 1)}
    want |= {"catches/%d/status" % i: ["within", "above", "below"][s] for i, s in enumerate(statuses)}
    two = two_groups(q, limit) if basis != "rated" else None
    if not rated and two:
        return _unless(close, request, want | {"decision": "not_judged", "actions/0/action": "catch_new_nozzle", "actions/0/pointer": "#/catches"})
    if not statuses.any():
        return _unless(close, request, want | {"decision": "keep", "actions": []})
    by_mean = reference(q, allowed["mean"], two) if basis != "rated" else q.mean()
    lies, grouped, heads, remedies = _remedies(q, from_rated, q / by_mean - 1, allowed, statuses, catches, limit, allow)
    worn = [i for i in range(n) if lies[i] > 0 and statuses[i] > 0 and i not in grouped and remedies[i] == "replace"]
    chance = chance_above(len(worn), n, points, share)
    allow(chance, 0.95)
    low = stats.beta.ppf(0.025, len(worn), n - len(worn) + 1) if worn else 0.0
    if points:
        ks = np.arange(len(worn), points - (n - len(worn)) + 1)
        tails = stats.hypergeom.sf(len(worn) - 1, points, ks, n)
        low = ks[tails > 0.025 * (1 + 1e-9)].min() / points
    surely = bool(worn) and (chance >= 0.95 or low > share + 1e-9)
    allow(low, share) if worn and low else None
    even = q.std(ddof=1) / q.mean() <= max(limit / 2, 0.04)
    allow(q.std(ddof=1) / q.mean(), max(limit / 2, 0.04))
    off = lies[lies != 0]
    if 2 * len(off) > n and abs(off.sum()) == len(off) and even:
        allow(q.mean() - 1, 0.17)
        told = ["check_reference"] + (["replace_all_and_recatch"] if surely and q.mean() - 1 <= 0.17 else [])
    elif surely:
        told = ["replace_all_and_recatch"]
    else:
        if len(worn) / n > share + 1e-9 and not points:
            return decisions(rng)  # how many more is not worked out here
        told = _told(remedies, heads, n)
        if not told:
            told = _told(_remedies(q, from_rated, from_mean, allowed, statuses, [{}] * n, limit, allow)[3], set(), n)
        if len(worn) / n > share + 1e-9:
            told = ["catch_more"] + told
    want["decision"] = "replace_all" if "replace_all_and_recatch" in told else "fix_listed"
    for i, action in enumerate(told + [None]):
        want["actions/%d/action" % i] = action
    return _unless(close, request, want)


def _remedies(q, from_rated, from_reference, allowed, statuses, catches, limit, allow):
    """How each catch truly lies, which are of another size, and what is done about each. Where
    the mean is limited one way alone, what pulls it the other way is seen to as well."""
    below, above = allowed["mean"]
    if min(below, above) < INF:
        allowed = allowed | {"mean": (min(below, above) if below == INF else below, 0.5 if above == INF else above)}
    lies = np.array([side(d, allowed["rated"]) or side(m, allowed["mean"]) for d, m in zip(from_rated, from_reference)])
    off = np.array([d if side(d, allowed["rated"]) or not side(m, allowed["mean"]) else m for d, m in zip(from_rated, from_reference)])
    for m in from_reference:
        allow(m, -below, -allowed["mean"][0], allowed["mean"][1], 0.5)
    grouped, heads = of_another_size(catches, lies, off, max(limit / 2, 0.04), allow)
    remedies = []
    for i in range(len(q)):
        if lies[i] == 0 or i in grouped or lies[i] > 0 and statuses[i] <= 0 and off[i] <= 0.5:
            remedies.append(None)
        elif lies[i] < 0:
            remedies.append("clean_and_recatch")
        else:
            remedies.append("check_and_recatch" if off[i] > 0.5 else "replace")
    return lies, grouped, heads, remedies


def _told(remedies, heads, n):
    """In the order of the catches; what most need, and more than three, once."""
    told, once = [], set()
    for i, remedy in enumerate(remedies):
        if i in heads:
            told.append("check_size")
        if remedy and remedies.count(remedy) > 3 and 2 * remedies.count(remedy) > n:
            if remedy not in once:
                once.add(remedy)
                told.append(remedy)
        elif remedy:
            told.append(remedy)
    return told


def _unless(close, request, want):
    """What must hold, or only that it is answered, where rounding could decide."""
    return request, {"catchesTested": len(request["catches"])} if any(close) else want


def again(rng):
    """The last of a dozen, caught first and again: what is told it, known to one percent."""
    limit = 0.1
    pick = lambda: rng.choice([0.5, 0.8, 0.895, 0.95, 1, 1.05, 1.095, 1.105, 1.15, 1.3, 1.7])
    first, now = pick(), pick()
    litre = lambda x: {"volume": {"value": x, "unit": "L"}, "time": {"value": 60, "unit": "s"}, "jug": "j"}
    request = {
        "nozzle": {"ratedFlowRate": {"value": 1, "unit": "L/min"}, "ratedPressure": {"value": 3, "unit": "bar"}},
        "output": {"sprayPressure": {"value": 3, "unit": "bar"}, "catchPointsOnBoom": 40,
                   "catches": [litre(1) | {"label": "n%d" % i} for i in range(11)] + [litre(first) | {"label": "last"}],
                   "followUps": [litre(now) | {"replaces": "last"}]},
        "instruments": [
            {"id": "j", "kind": "jug", "resolution": {"value": 1e-6, "unit": "L"}, "scaleError": {"value": math.sqrt(3), "unit": "%"}},
            {"id": "w", "kind": "stopwatch", "resolution": {"value": 1e-6, "unit": "s"}, "scaleError": {"value": 1e-6, "unit": "%"}, "reactionTime": {"value": 1e-6, "unit": "s"}},
            {"id": "g", "kind": "gauge", "resolution": {"value": 1e-6, "unit": "bar"}, "scaleError": {"value": 1e-6, "unit": "%"}}],
    }
    inside = lambda x: stats.norm.cdf((1 + limit - x) / (0.01 * x)) - stats.norm.cdf((1 - limit - x) / (0.01 * x))
    sure = lambda x: inside(x) < 0.05
    lies = lambda x: side(round(x - 1, 9), (limit, limit))
    if lies(now) == 0:
        told = None
    elif lies(now) < 0:
        told = "still_low" if lies(first) < 0 else "clean_and_recatch"
    elif sure(now) and lies(first) > 0 and sure(first):
        told = "still_high"
    elif now > 1.5:
        told = "check_and_recatch"
    else:
        told = "replace"  # once measured again nobody measures a third time
    name = "output/result/"
    want = {name + "decision": "fix_listed" if told else "keep", name + "actions/0/action": told, name + "actions/1/action": None,
            name + "catches/11/firstStatus": ["within", "above", "below"][lies(first)], name + "catches/11/deviationFromRated": Near(now - 1, 1)}
    return request, want


again.requests = 400
