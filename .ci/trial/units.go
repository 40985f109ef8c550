package main

import (
	"math"
	"strconv"
)

// The trial has factors of its own, from the exact definitions (in = 0.0254 m, US gal =
// 231 in3, acre = 43,560 ft2, psi = lbf/in2). Inside it is all in kPa, mL, mL/s, m, m/s,
// L/ha and shares.
const (
	inch  = 0.0254
	foot  = 0.3048
	mph   = 0.44704
	psi   = 6.894757293168361
	bar   = 100.0
	usGal = 3785.411784 // mL
	flOz  = usGal / 128
	acre  = 0.40468564224 // ha
)

var factors = map[string]float64{
	"ft": foot, "in": inch, "m": 1, "cm": 0.01,
	"s": 1, "min": 60,
	"mph": mph, "km/h": 1 / 3.6,
	"fl_oz_us": flOz, "mL": 1, "L": 1000,
	"gal_us/min": usGal / 60, "L/min": 1000.0 / 60, "mL/min": 1.0 / 60,
	"psi": psi, "bar": bar, "kPa": 1,
	"gal_us/acre": usGal / 1000 / acre, "L/ha": 1,
	"%": 0.01, "1": 1,
}

// A quantity is one as a crew writes it.
type quantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

// written is x as it is written in a unit, with so many digits that count.
func written(x float64, unit string, digits int) *quantity {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(x/factors[unit], 'g', digits, 64), 64)
	return &quantity{v, unit}
}

// inside is the quantity in the unit of the trial.
func (q *quantity) inside() float64 {
	if q == nil {
		return 0
	}
	return q.Value * factors[q.Unit]
}

// times is the quantity as it stands there after a slip by a factor.
func (q *quantity) times(f float64) *quantity {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(q.Value*f, 'g', 5, 64), 64)
	return &quantity{v, q.Unit}
}

// toMark is x as read to the nearest mark.
func toMark(x, mark float64) float64 { return math.Round(x/mark) * mark }
