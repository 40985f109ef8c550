package record

import "math"

// A Chart is a last column of a table that shows each catch against the range that is
// acceptable for it. It stands in the row of its numbers, so it needs no names of its own.
type Chart struct {
	Title  string               // what is drawn, and what the signs mean
	Number func(float64) string // writes a number as the page's language does
}

// A Point is one catch. A range of 0 to 0 stands for none; one with an end of 0 goes on to
// the end of the strip.
type Point struct {
	Value, Low, High float64
	Status           string // within, below, above
}

// The size of one strip, in its own units; the page scales it to the width of its column.
const (
	stripWidth  = 150.0
	stripHeight = 14.0
	stripMargin = 8.0 // room for a sign at either end
	ticksWanted = 4
)

// A Scale places values on a strip; the ends of it are round numbers.
type Scale struct{ Low, High, Step float64 }

// A placedPoint is one catch on the strip.
type placedPoint struct {
	Point
	X, Left, Width float64
	Ranged         bool
}

// scaleOf is a scale of round numbers that holds all points of the rows.
func scaleOf(rows []Row) Scale {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range rows {
		if r.Point == nil {
			continue
		}
		low, high = min(low, r.Point.Value), max(high, r.Point.Value)
		if r.Point.Low > 0 {
			low, high = min(low, r.Point.Low), max(high, r.Point.Low)
		}
		if r.Point.High > 0 {
			low, high = min(low, r.Point.High), max(high, r.Point.High)
		}
	}
	if low == high {
		low, high = low*0.9, high*1.1+math.SmallestNonzeroFloat64
	}
	step := roundStep((high - low) / ticksWanted)
	return Scale{math.Floor(low/step) * step, math.Ceil(high/step) * step, step}
}

// x is where a value lies on the strip.
func (s Scale) x(value float64) float64 {
	return tenth(stripMargin + (value-s.Low)/(s.High-s.Low)*(stripWidth-2*stripMargin))
}

// ticks are the round numbers of the scale.
func (s Scale) ticks() (all []float64) {
	for i := 0; ; i++ {
		v := s.Low + float64(i)*s.Step
		if v > s.High+s.Step/2 {
			return all
		}
		all = append(all, math.Round(v/s.Step)*s.Step)
	}
}

// mark places a catch.
func (s Scale) mark(p Point) placedPoint {
	m := placedPoint{Point: p, X: s.x(p.Value), Ranged: p.Low > 0 || p.High > 0}
	if m.Ranged {
		from, to := max(p.Low, s.Low), p.High
		if to == 0 {
			to = s.High
		}
		m.Left = s.x(from)
		m.Width = tenth(s.x(to) - m.Left)
	}
	return m
}

// roundStep is 1, 2 or 5 times a power of ten, and not below step.
func roundStep(step float64) float64 {
	if step <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(step)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= step*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }
