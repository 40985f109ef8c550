package text

import (
	"math"
	"strconv"
	"strings"

	"golang.org/x/text/currency"
)

// Money words an amount that was computed, without its sign, as its currency is written:
// cents for most, none for some. What is less than the smallest coin keeps two digits,
// since the cost of a square foot is not nothing.
func (l Language) Money(amount float64, code string) string {
	places := coinPlaces(code)
	amount = math.Abs(amount)
	if amount > 0 && amount < math.Pow10(-places) {
		places = 1 - int(math.Floor(math.Log10(amount)))
	}
	return l.amount(amount, places, code)
}

// Price words an amount as it was given: as its currency is written, but never with fewer
// digits than it came with, which would make another price of it.
func (l Language) Price(amount float64, code string) string {
	_, fraction, _ := strings.Cut(strconv.FormatFloat(amount, 'f', -1, 64), ".")
	return l.amount(amount, max(coinPlaces(code), len(fraction)), code)
}

func (l Language) amount(amount float64, places int, code string) string {
	return l.decimal(strconv.FormatFloat(amount, 'f', places, 64)) + " " + code
}

// coinPlaces is how many decimal places a currency has.
func coinPlaces(code string) int {
	unit, err := currency.ParseISO(code)
	if err != nil {
		return 2
	}
	places, _ := currency.Standard.Rounding(unit)
	return places
}
