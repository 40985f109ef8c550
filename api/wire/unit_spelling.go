package wire

import (
	"slices"
	"strings"

	"wetrun/calc/unit"
)

// Spellings are what people write for a unit, in lower case, with the symbols or
// parts of symbols that it may mean. Symbols themselves are not here.
var Spellings = map[string][]string{
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

// UnitError says what is wrong with a symbol and which one was probably meant.
func UnitError(symbol string, id unit.ID, kinds kindSet) FieldError {
	switch could := meant(symbol, kinds); len(could) {
	case 0:
	case 1:
		return FieldError{Code: "misspelt_unit", Allowed: could, Args: []any{could[0]}}
	default:
		return FieldError{Code: "ambiguous_unit", Allowed: could, Args: []any{Words(could)}}
	}
	allowed := kinds.symbols()
	if id != unit.None {
		return FieldError{Code: "wrong_quantity", Allowed: allowed, Args: []any{Words(allowed)}}
	}
	if near := nearest(symbol, allowed); near != "" {
		return FieldError{Code: "misspelt_unit", Allowed: []string{near}, Args: []any{near}}
	}
	return FieldError{Code: "unknown_unit", Allowed: allowed, Args: []any{Words(allowed)}}
}

// meant returns the symbols of kinds that a spelling could stand for, as a whole or
// in its parts: gal/ac is gal_us/acre or gal_imp/acre.
func meant(symbol string, kinds kindSet) (could []string) {
	add := func(s string) {
		id := unit.Lookup(s)
		if id != unit.None && kinds&(1<<id.Kind()) != 0 && !slices.Contains(could, s) {
			could = append(could, s)
		}
	}
	for _, s := range spelled(symbol) {
		add(s)
	}
	if above, below, compound := strings.Cut(symbol, "/"); compound {
		for _, a := range spelled(above) {
			for _, b := range spelled(below) {
				add(a + "/" + b)
			}
		}
	}
	return could
}

// spelled is what one spelling may mean, or the spelling itself. A long one is not
// looked at, so the work is bounded.
func spelled(s string) []string {
	const longest = 10
	if len(s) <= longest {
		if known, ok := Spellings[strings.ToLower(s)]; ok {
			return known
		}
	}
	return []string{s}
}
