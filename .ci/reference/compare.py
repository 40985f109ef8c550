"""compare ADDRESS: holds a running service against answers that numpy, scipy and pint
compute, from the formulae as published and from exact definitions of units, for
random requests of each operation. Exits 1 on any disagreement.
"""

import random
import sys
import time

sys.dont_write_bytecode = True

import nozzles
import rates
import sampling
import series
import standards
import tanks
from service import Service, Tally
from units import factor

REQUESTS = 2000
SEED = 20260101


def operations(units):
    # By operation, and where one has two kinds of check, by a second word.
    return {
        "ground-speed": rates.ground_speed,
        "application-rate": rates.application_rate,
        "area-check": rates.area_check,
        "course-length": rates.course_length,
        "convert": rates.Convert(units),
        "nozzle-flow": nozzles.nozzle_flow,
        "nozzle-acceptance": nozzles.nozzle_acceptance,
        "nozzle-acceptance sampling": sampling.sampling,
        "nozzle-acceptance outliers": sampling.outliers,
        "pressure-uniformity": nozzles.pressure_uniformity,
        "corrections": nozzles.corrections,
        "tank-loads": tanks.tank_loads,
        "pump-demand": tanks.pump_demand,
        "field-capacity": tanks.field_capacity,
        "meter-calibration": series.meter_calibration,
        "wear-forecast": series.wear_forecast,
        "pattern-uniformity": series.pattern_uniformity,
    }


def factors(units, acre):
    """The factors of /v1/units against pint, and which acre they mean."""
    wrong = [u["symbol"] for u in units if abs(u["factor"] / factor(u["symbol"]) - 1) > 1e-13
             or abs(u["exactFactor"]["numerator"] / u["exactFactor"]["denominator"] / factor(u["symbol"]) - 1) > 1e-13]
    if acre["name"] != "international" or abs(acre["squareMetres"] / 4046.8564224 - 1) > 1e-15:
        wrong.append("which acre")
    print("factors of units: %d against pint, the acre being the international one; wrong: %s" % (len(units), wrong or "none"))
    return bool(units) and not wrong


def main(address):
    service = Service(address)
    listed = service.get("/v1/units")
    good = standards.check() & factors(listed["units"], listed["acre"])
    print("%-26s %9s %9s %7s %12s %6s %7s" % ("operation", "requests", "numbers", "words", "worst", "wrong", "s"))
    for name, make in operations(listed["units"]).items():
        rng, tally, start = random.Random("%d %s" % (SEED, name)), Tally(), time.monotonic()
        count = max(REQUESTS, len(getattr(make, "pairs", [])))
        for _ in range(count):
            request, want = make(rng)
            tally.compare(service.post(name.split()[0], request), want, request)
        print("%-26s %9d %9d %7d %12.2e %6d %7.1f" % (
            name, tally.requests, tally.numbers, tally.words, tally.worst, len(tally.failures), time.monotonic() - start), flush=True)
        for failure in tally.failures[:5]:
            print("  " + failure)
        good &= not tally.failures and tally.numbers > 0
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
