package text

import (
	"math"
	"strconv"

	"golang.org/x/text/currency"
)

// Money words an amount, without its sign, as its currency is written: cents for most,
// none for some. What is less than the smallest coin keeps two digits, since the cost
// of a square foot is not nothing.
func (l Language) Money(amount float64, code string) string {
	places := 2
	if unit, err := currency.ParseISO(code); err == nil {
		places, _ = currency.Standard.Rounding(unit)
	}
	amount = math.Abs(amount)
	if amount > 0 && amount < math.Pow10(-places) {
		places = 1 - int(math.Floor(math.Log10(amount)))
	}
	return l.decimal(strconv.FormatFloat(amount, 'f', places, 64)) + " " + code
}
