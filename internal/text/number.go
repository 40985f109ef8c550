package text

import (
	"fmt"
	"math"
	"strings"

	"golang.org/x/text/number"
)

// A Figure is a number that a text quotes as the request writes it, with its unit
// where it has one.
type Figure struct{ Digits, Unit string }

// Number words a number for people, who read gauges and jugs: three significant
// digits, and whole ones from a hundred on.
func (l Language) Number(x float64) string {
	if math.Abs(x) >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return l.decimal(fmt.Sprintf("%.3g", x))
}

// decimal writes the decimal sign of the language into a number.
func (l Language) decimal(digits string) string {
	if l == Spanish {
		return strings.Replace(digits, ".", ",", 1)
	}
	return digits
}

// Figure words a number with its unit, in full.
func (l Language) Figure(f Figure) string {
	return l.Measured(l.decimal(f.Digits), f.Unit)
}

// Measured puts a unit behind a number: with a space, but 12.7% in English.
func (l Language) Measured(number, unit string) string {
	if l == English && unit == "%" {
		return number + unit
	}
	return strings.TrimSpace(number + " " + unit)
}

// worded puts the numbers among the arguments of a text into the language. Spanish
// groups no thousands: where a comma is the decimal sign in one country, the dot
// is in another, and 262.144 would be read as 262 and a bit.
func (l Language) worded(args []any) []any {
	words := make([]any, len(args))
	for i, a := range args {
		switch a := a.(type) {
		case Figure:
			words[i] = l.Figure(a)
		case int, int64:
			words[i] = a
			if l != English {
				words[i] = number.Decimal(a, number.NoSeparator())
			}
		default:
			words[i] = a
		}
	}
	return words
}

var unitNames = [...]*strings.Replacer{
	English: strings.NewReplacer("gal_us", "US gal", "fl_oz_us", "US fl oz", "pt_us", "US pt", "qt_us", "US qt", "gal_imp", "imp. gal", "fl_oz_imp", "imp. fl oz", "1000ft2", "1000 sq ft", "ft2", "sq ft", "m2", "m²"),
	Spanish: spanishUnits, PointSpanish: spanishUnits,
}

var spanishUnits = strings.NewReplacer("gal_us", "gal", "fl_oz_us", "oz fl", "pt_us", "pt", "qt_us", "qt", "gal_imp", "gal imp.", "fl_oz_imp", "oz fl imp.", "1000ft2", "1000 ft²", "ft2", "ft²", "m2", "m²")

// Unit words a unit symbol for people.
func (l Language) Unit(symbol string) string { return unitNames[l].Replace(symbol) }
