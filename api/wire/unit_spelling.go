package wire

import (
	"slices"
	"strings"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// spellings are what people write for a unit, in lower case, with the symbols or
// parts of symbols that it may mean. Symbols themselves are not here.
var spellings = map[string][]string{
	"feet": {"ft"}, "foot": {"ft"}, "inch": {"in"}, "inches": {"in"}, "yard": {"yd"}, "yards": {"yd"},
	"mile": {"mi"}, "miles": {"mi"}, "meter": {"m"}, "meters": {"m"}, "metre": {"m"}, "metres": {"m"},
	"sec": {"s"}, "secs": {"s"}, "second": {"s"}, "seconds": {"s"}, "minute": {"min"}, "minutes": {"min"},
	"hr": {"h"}, "hrs": {"h"}, "hour": {"h"}, "hours": {"h"}, "kph": {"km/h"}, "kmh": {"km/h"}, "kmph": {"km/h"},
	"gal": {"gal_us", "gal_imp"}, "gallon": {"gal_us", "gal_imp"}, "gallons": {"gal_us", "gal_imp"},
	"fl_oz": {"fl_oz_us", "fl_oz_imp"}, "fl oz": {"fl_oz_us", "fl_oz_imp"}, "floz": {"fl_oz_us", "fl_oz_imp"},
	"oz": {"oz", "fl_oz_us", "fl_oz_imp"}, "ounce": {"oz", "fl_oz_us", "fl_oz_imp"}, "ounces": {"oz", "fl_oz_us", "fl_oz_imp"},
	"pt": {"pt_us"}, "pint": {"pt_us"}, "pints": {"pt_us"}, "qt": {"qt_us"}, "quart": {"qt_us"}, "quarts": {"qt_us"},
	"liter": {"L"}, "liters": {"L"}, "litre": {"L"}, "litres": {"L"}, "ml": {"mL"}, "cc": {"mL"}, "l": {"L"},
	"gpm": {"gal_us/min", "gal_imp/min"}, "gpa": {"gal_us/acre", "gal_imp/acre"}, "lpm": {"L/min"},
	"lbs": {"lb", "psi"}, "pound": {"lb"}, "pounds": {"lb"}, "psig": {"psi"}, "lb/in2": {"psi"},
	"ac": {"acre"}, "acres": {"acre"}, "hectare": {"ha"}, "hectares": {"ha"}, "percent": {"%"}, "pct": {"%"},
}

// WrongUnit is the error at a place whose unit does not measure what is wanted there.
func WrongUnit(p finding.Place, id unit.ID, wanted unit.Kind) FieldError {
	e := unitError(id.Symbol(), id, 1<<wanted)
	e.Pointer = Pointer(p)
	return e
}

// unitError says what is wrong with a symbol, of the unit id or of none, where one of
// kinds is wanted, and which one was probably meant.
func unitError(symbol string, id unit.ID, kinds KindSet) FieldError {
	switch symbols := meant(symbol, kinds); len(symbols) {
	case 0:
	case 1:
		return FieldError{Code: "misspelt_unit", Allowed: symbols, Args: []any{symbols[0]}}
	default:
		return FieldError{Code: "ambiguous_unit", Allowed: symbols, Args: []any{Enumeration(symbols)}}
	}
	allowed := kinds.symbols()
	if id != unit.None {
		return FieldError{Code: "wrong_quantity", Allowed: allowed, Args: []any{Enumeration(allowed)}}
	}
	if closest := nearest(symbol, allowed); closest != "" {
		return FieldError{Code: "misspelt_unit", Allowed: []string{closest}, Args: []any{closest}}
	}
	return FieldError{Code: "unknown_unit", Allowed: allowed, Args: []any{Enumeration(allowed)}}
}

// meant returns the symbols of kinds that a spelling could stand for, as a whole or
// in its parts: gal/ac is gal_us/acre or gal_imp/acre.
func meant(symbol string, kinds KindSet) (symbols []string) {
	add := func(s string) {
		if kinds.has(unit.Lookup(s)) && !slices.Contains(symbols, s) {
			symbols = append(symbols, s)
		}
	}
	for _, s := range spelled(symbol) {
		add(s)
	}
	if numerator, denominator, compound := strings.Cut(symbol, "/"); compound {
		for _, n := range spelled(numerator) {
			for _, d := range spelled(denominator) {
				add(n + "/" + d)
			}
		}
	}
	return symbols
}

// spelled is what one spelling may mean, or the spelling itself. A long one is not
// looked at, so the work is bounded.
func spelled(s string) []string {
	const longest = 10
	if len(s) <= longest {
		if known, ok := spellings[strings.ToLower(s)]; ok {
			return known
		}
	}
	return []string{s}
}
