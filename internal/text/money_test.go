package text

import "testing"

// TestMoney: the minor units of ISO 4217 (list one: USD 2, CLP 0, KWD 3); XQQ is none
// of its codes.
func TestMoney(t *testing.T) {
	for _, c := range []struct {
		amount  float64
		code    string
		english string
		spanish string
	}{
		{5.89443, "USD", "5.89 USD", "5,89 USD"},
		{-0.0834, "USD", "0.08 USD", "0,08 USD"},
		{12.5, "USD", "12.50 USD", "12,50 USD"},
		{471.555, "EUR", "471.56 EUR", "471,56 EUR"},
		{0, "USD", "0.00 USD", "0,00 USD"},
		{0.01, "USD", "0.01 USD", "0,01 USD"},
		{0.00346, "USD", "0.0035 USD", "0,0035 USD"},
		{-0.000099, "USD", "0.000099 USD", "0,000099 USD"},
		{1234.6, "CLP", "1235 CLP", "1235 CLP"},
		{0.25, "CLP", "0.25 CLP", "0,25 CLP"},
		{1.23456, "KWD", "1.235 KWD", "1,235 KWD"},
		{3, "XQQ", "3.00 XQQ", "3,00 XQQ"},
	} {
		if got := English.Money(c.amount, c.code); got != c.english {
			t.Errorf("%v: %s, want %s", c.amount, got, c.english)
		}
		if got := Spanish.Money(c.amount, c.code); got != c.spanish {
			t.Errorf("%v: %s, want %s", c.amount, got, c.spanish)
		}
	}
}

// TestPriceIsAsItWasGiven: no digit of it is lost, and cents stand where there are any.
func TestPriceIsAsItWasGiven(t *testing.T) {
	for _, c := range []struct {
		amount float64
		code   string
		want   string
	}{
		{0.125, "USD", "0,125 USD"}, {25.5, "USD", "25,50 USD"}, {25, "USD", "25,00 USD"}, {1200, "CLP", "1200 CLP"}, {1200.5, "CLP", "1200,5 CLP"}, {1e-9, "USD", "0,000000001 USD"},
	} {
		if got := Spanish.Price(c.amount, c.code); got != c.want {
			t.Errorf("%v: %s, want %s", c.amount, got, c.want)
		}
	}
}
