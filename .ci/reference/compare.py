"""compare ADDRESS: holds a running service against answers that numpy, scipy and pint
compute, from the formulae as published and from exact definitions of units, for
random requests of each operation. Exits 1 on any disagreement.
"""

import random
import sys
import time

sys.dont_write_bytecode = True

import acceptance
import nozzles
import rates
import sampling
import series
import sheets
import standards
import tanks
import uncertainty
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
        "nozzle-acceptance decisions": acceptance.decisions,
        "nozzle-acceptance sampling": sampling.sampling,
        "nozzle-acceptance outliers": sampling.outliers,
        "nozzle-selection": nozzles.nozzle_selection,
        "pressure-uniformity": nozzles.pressure_uniformity,
        "corrections": nozzles.corrections,
        "tank-loads": tanks.tank_loads,
        "tank-rinse": tanks.tank_rinse,
        "pump-demand": tanks.pump_demand,
        "field-capacity": tanks.field_capacity,
        "meter-calibration": series.meter_calibration,
        "wear-forecast": series.wear_forecast,
        "pattern-uniformity": series.pattern_uniformity,
        "ground-speed uncertainty": uncertainty.ground_speed,
        "nozzle-flow uncertainty": uncertainty.nozzle_flow,
        "pressure-uniformity uncertainty": uncertainty.pressure_uniformity,
        "nozzle-acceptance uncertainty": uncertainty.nozzle_acceptance,
        "application-rate uncertainty": sheets.application_rate,
        "area-check uncertainty": sheets.area_check,
        "calibrations uncertainty": sheets.calibration,
        "calibrations caught again": acceptance.again,
    }


def factors(units, acre):
    """The factors of /v1/units against pint, and which acre they mean."""
    wrong = [u["symbol"] for u in units if abs(u["factor"] / factor(u["symbol"]) - 1) > 1e-13
             or abs(u["exactFactor"]["numerator"] / u["exactFactor"]["denominator"] / factor(u["symbol"]) - 1) > 1e-13]
    if acre["name"] != "international" or abs(acre["squareMetres"] / 4046.8564224 - 1) > 1e-15:
        wrong.append("which acre")
    print("factors of units: %d against pint, the acre being the international one; wrong: %s" % (len(units), wrong or "none"))
    return bool(units) and not wrong


def main(address, only=""):
    service = Service(address)
    listed = service.get("/v1/units")
    good = standards.check() & factors(listed["units"], listed["acre"])
    print("%-31s %8s %8s %7s %6s %9s %5s %5s" % ("operation", "requests", "refused", "numbers", "words", "worst", "wrong", "s"))
    checks = operations(listed["units"])
    unchecked = {path.split("/")[-1] for path, item in service.get("/openapi.json")["paths"].items() if "post" in item}
    unchecked -= {"batch"} | {name.split()[0] for name in checks}  # a batch is lines of the others
    if unchecked:
        print("no check of " + ", ".join(sorted(unchecked)))
        good = False
    picked = [name for name in checks if only in name]
    for name in picked:
        make = checks[name]
        rng, tally, start = random.Random("%d %s" % (SEED, name)), Tally(), time.monotonic()
        for _ in range(getattr(make, "requests", REQUESTS)):
            request, want = make(rng)
            tally.compare(service.post(name.split()[0], request), want, request)
        print("%-31s %8d %8d %7d %6d %9.2e %5d %5.1f" % (
            name, tally.requests, tally.refused, tally.numbers, tally.words, tally.worst, len(tally.failures), time.monotonic() - start), flush=True)
        for failure in tally.failures[:5]:
            print("  " + failure)
        good &= not tally.failures and tally.numbers > 0
    return 0 if good and picked else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
