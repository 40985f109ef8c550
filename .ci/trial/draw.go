package main

import (
	"math"
	"math/rand/v2"
)

// A draw is the chance of one sheet. It depends on the seed and the number of the sheet
// alone, so that the order of the work does not matter.
type draw struct{ *rand.Rand }

func drawOf(seed, sheet uint64) draw { return draw{rand.New(rand.NewPCG(seed, sheet))} }

func (d draw) between(a, b float64) float64 { return a + (b-a)*d.Float64() }

// scaled is drawn evenly by ratio.
func (d draw) scaled(a, b float64) float64 { return a * math.Exp(d.Float64()*math.Log(b/a)) }

func (d draw) chance(p float64) bool { return d.Float64() < p }

// normal is cut off at two standard deviations: a part that is farther off is thrown away
// before it is sold, a hand that is slower is seen.
func (d draw) normal(sd float64) float64 {
	for {
		if x := d.NormFloat64(); x > -2 && x < 2 {
			return x * sd
		}
	}
}

func (d draw) sign() float64 {
	if d.chance(0.5) {
		return -1
	}
	return 1
}

func pick[T any](d draw, from ...T) T { return from[d.IntN(len(from))] }
