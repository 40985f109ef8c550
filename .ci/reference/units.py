"""SI factors of the wire's unit symbols, from the definitions of pint.

pint's acre is the US survey acre. wetrun's is the international one, 43 560 ft2 of
0.3048 m, so it is composed here from pint's foot and not taken from pint.
"""

import pint

_ureg = pint.UnitRegistry()
_NAMES = {
    "ft": "foot", "in": "inch", "yd": "yard", "mi": "mile", "m": "meter", "cm": "centimeter", "mm": "millimeter",
    "km": "kilometer", "s": "second", "min": "minute", "h": "hour", "mph": "mph",
    "fl_oz_us": "fluid_ounce", "pt_us": "pint", "qt_us": "quart", "gal_us": "gallon",
    "gal_imp": "imperial_gallon", "fl_oz_imp": "imperial_fluid_ounce", "mL": "milliliter", "L": "liter",
    "psi": "psi", "bar": "bar", "kPa": "kilopascal", "acre": "(43560*foot**2)", "ft2": "foot**2",
    "1000ft2": "(1000*foot**2)", "ha": "hectare", "m2": "meter**2", "m3": "meter**3",
    "lb": "pound", "oz": "ounce", "g": "gram", "kg": "kilogram", "%": "0.01", "1": "1", "rpm": "count/minute",
}


def factor(symbol):
    """The SI value of one unit of a symbol."""
    if symbol not in _cache:
        over, _, under = symbol.partition("/")
        amount = _ureg.Quantity(_ureg(_NAMES[over])) / _ureg(_NAMES[under or "1"])
        _cache[symbol] = float(amount.to_base_units().magnitude)
    return _cache[symbol]


_cache = {}

LENGTHS = ["ft", "in", "yd", "m", "cm"]
TIMES = ["s", "min"]
SPEEDS = ["mph", "ft/min", "km/h", "m/s", "m/min"]
VOLUMES = ["fl_oz_us", "pt_us", "qt_us", "gal_us", "gal_imp", "fl_oz_imp", "mL", "L"]
FLOWS = ["gal_us/min", "fl_oz_us/min", "gal_imp/min", "L/min", "mL/min"]
PRESSURES = ["psi", "bar", "kPa"]
AREAS = ["acre", "ft2", "ha", "m2"]
RATES = ["gal_us/acre", "fl_oz_us/acre", "pt_us/acre", "qt_us/acre", "gal_imp/acre", "L/acre", "L/ha", "mL/ha",
         "gal_us/1000ft2", "fl_oz_us/1000ft2"]
MASS_RATES = ["lb/acre", "oz/acre", "kg/ha", "g/ha"]
DENSITIES = ["lb/gal_us", "oz/gal_us", "g/L", "kg/L", "kg/m3"]
CONCENTRATIONS = ["fl_oz_us/gal_us", "mL/L", "%"]
RATIOS = ["%", "1"]


def draw(rng, symbols, low, high):
    """A random quantity between two SI values: as JSON, and its SI value."""
    symbol = rng.choice(symbols)
    value = float("%.6g" % (rng.uniform(low, high) / factor(symbol)))
    return {"value": value, "unit": symbol}, value * factor(symbol)
