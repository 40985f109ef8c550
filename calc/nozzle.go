package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Nozzle is what its maker or its ISO 10625 size says of it: the rated pair, or
// a size, or the chart of the maker's sheet.
type Nozzle struct {
	RatedFlowRate unit.FlowRate // of water
	RatedPressure unit.Pressure
	Size          SizeName   // ISO 10625, such as "02"
	SizeRating    SizeRating // which table the size is read in
	// FlowChart holds at least two points whose pressures rise. Flows between them
	// and outside them: see FlowAt.
	FlowChart []FlowPoint
	// PressureRange is the nozzle's own working range. Zero when not known.
	PressureRange PressureRange
}

// A PressureRange is a lowest and a highest pressure; both zero when not known.
type PressureRange struct{ Low, High unit.Pressure }

// SizeRating tells the pressure at which a size means its flow. The two differ by
// 1.3 % at every size, so they are never treated as one.
type SizeRating string

// The ratings of ISO 10625 sizes. One that is not given stands for ISO3Bar.
const (
	ISO3Bar SizeRating = "iso_3_bar" // round litres per minute at 3 bar
	US40PSI SizeRating = "us_40_psi" // round US gallons per minute at 40 psi
)

var sizeRatings = []SizeRating{ISO3Bar, US40PSI}

// Words lists the ratings.
func (SizeRating) Words() []string { return finding.WordsOf(sizeRatings) }

// CodeUnknownSize is the violation for a size that ISO 10625 does not list.
const CodeUnknownSize = "unknown_size"

// given tells whether the nozzle says anything about its flow.
func (n Nozzle) given() bool {
	return n.RatedFlowRate != 0 || n.RatedPressure != 0 || n.Size != "" || len(n.FlowChart) > 0
}

// silent tells whether the nozzle says nothing but its pressure range.
func (n Nozzle) silent() bool { return !n.given() && n.SizeRating == "" }

// Rating returns the rated flow of water and the pressure it is rated at, from
// the pair or from the size; of a flow chart its first point, see RatingNear. It
// is an error to give none of the three, half of the pair, two of the three, a
// chart of one point or whose pressures do not rise, or an unknown size; codes
// required, conflict, too_few, not_rising, unknown_size.
func (n Nozzle) Rating() (unit.FlowRate, unit.Pressure, error) {
	v := n.check()
	if len(v) > 0 {
		return 0, 0, v
	}
	q, p := n.rating()
	return q, p, nil
}

// RatingNear is Rating for a nozzle that works at p. A flow chart has no one rating:
// its point nearest to p by ratio stands for it, the first point where p is zero.
// Calculations never use that point; it is what a reader of the sheet looks for.
func (n Nozzle) RatingNear(p unit.Pressure) (unit.FlowRate, unit.Pressure, error) {
	if len(n.FlowChart) == 0 {
		return n.Rating()
	}
	if v := n.check(); len(v) > 0 {
		return 0, 0, v
	}
	x := n.nearestPoint(p)
	return x.FlowRate, x.Pressure, nil
}

// FlowAt returns the flow of water at a working pressure: the rated one moved by
// the square-root law, or that of the flow chart, by the power law through the two
// points that p lies between and by the square-root law outside. The nozzle must
// be one that Rating accepts.
func (n Nozzle) FlowAt(p unit.Pressure) unit.FlowRate {
	if len(n.FlowChart) > 0 {
		return n.chartFlow(p)
	}
	flow, rated := n.rating()
	return FlowAtPressure(flow, rated, p, SquareRoot)
}

// WarnFarFromRating is the warning for a pressure beyond twice or half of the one that a
// nozzle is rated at, to which its flow was moved. The ratio is that of predictions: own
// judgement, no published source.
const WarnFarFromRating = "far_from_rating"

// farFromRating tells whether a pressure is one to warn of; never with a flow chart, of
// whose ends WarnOutsideFlowChart speaks.
func (n Nozzle) farFromRating(p unit.Pressure) bool {
	if p == 0 || !n.given() || len(n.FlowChart) > 0 {
		return false
	}
	_, rated := n.rating()
	return farApart(rated, p)
}

// farApart tells whether one pressure is more than farRatio times the other.
func farApart(a, b unit.Pressure) bool {
	return !finding.AtMost(float64(a/b), farRatio) || !finding.AtMost(float64(b/a), farRatio)
}

// move brings a flow caught at one pressure to another, as the nozzle's own flow
// changes between them; by the square-root law without a chart.
func (n Nozzle) move(q unit.FlowRate, from, to unit.Pressure) unit.FlowRate {
	if len(n.FlowChart) == 0 || from == to {
		return FlowAtPressure(q, from, to, SquareRoot)
	}
	return q * unit.FlowRate(n.chartFlow(to)/n.chartFlow(from))
}

func (n Nozzle) rating() (unit.FlowRate, unit.Pressure) {
	if len(n.FlowChart) > 0 {
		return n.FlowChart[0].FlowRate, n.FlowChart[0].Pressure
	}
	for i := range nozzleSizes {
		if nozzleSizes[i].Size == n.Size {
			if n.SizeRating == US40PSI {
				return nozzleSizes[i].At40, 40 * unit.PoundPerSquareInch
			}
			return nozzleSizes[i].At3Bar, 3 * unit.Bar
		}
	}
	return n.RatedFlowRate, n.RatedPressure
}

func (n Nozzle) check() finding.Invalid {
	var v finding.Invalid
	if n.Size != "" {
		if n.RatedFlowRate != 0 || n.RatedPressure != 0 {
			v.Conflict(finding.Member("size"), n.ratingHalf())
		}
		if q, _ := (Nozzle{Size: n.Size}).rating(); q == 0 {
			v.Add(finding.Member("size"), CodeUnknownSize)
		}
	} else if len(n.FlowChart) == 0 || n.RatedFlowRate != 0 || n.RatedPressure != 0 {
		n.checkRating(&v)
	}
	if len(n.FlowChart) > 0 {
		if n.Size != "" || n.RatedFlowRate != 0 || n.RatedPressure != 0 {
			v.Conflict(finding.Member("flowChart"), n.otherForm())
		}
		v = append(v, n.checkChart()...)
	}
	if finding.NotAmong(n.SizeRating, sizeRatings) {
		v.Add(finding.Member("sizeRating"), finding.CodeNotAllowed)
	}
	return append(v, n.PressureRange.check().Under(finding.Member("pressureRange"))...)
}

// checkRating looks at a rating that is given as flow and pressure: each needs the
// other, and a size stands in for both.
func (n Nozzle) checkRating(v *finding.Invalid) {
	switch {
	case n.RatedFlowRate == 0 && n.RatedPressure == 0:
		v.RequiredUnless(finding.Member("ratedFlowRate"), finding.Member("size"))
		v.RequiredUnless(finding.Member("ratedPressure"), finding.Member("size"))
	default:
		v.PositiveFor(float64(n.RatedFlowRate), finding.Member("ratedFlowRate"), finding.Member("ratedPressure"))
		v.PositiveFor(float64(n.RatedPressure), finding.Member("ratedPressure"), finding.Member("ratedFlowRate"))
	}
}

// ratingHalf is the half of the rating that is given.
func (n Nozzle) ratingHalf() finding.Place {
	if n.RatedFlowRate != 0 {
		return finding.Member("ratedFlowRate")
	}
	return finding.Member("ratedPressure")
}

// otherForm is what a flow chart stands beside though it says the same.
func (n Nozzle) otherForm() finding.Place {
	if n.Size != "" {
		return finding.Member("size")
	}
	return n.ratingHalf()
}

var nozzlePressureRange = finding.Member("nozzle").Member("pressureRange")

func (r PressureRange) check() finding.Invalid {
	var v finding.Invalid
	if r == (PressureRange{}) {
		return nil
	}
	v.Positive(float64(r.Low), finding.Member("low"))
	v.Positive(float64(r.High), finding.Member("high"))
	if len(v) == 0 && r.Low > r.High {
		v.Add(finding.Member("low"), finding.CodeRangeInverted)
	}
	return v
}

// holds judges whether a pressure lies in the range; NotJudged when the range is
// not known.
func (r PressureRange) holds(p unit.Pressure) finding.Verdict {
	if r == (PressureRange{}) {
		return finding.NotJudged
	}
	if finding.AtMost(float64(r.Low/p), 1) && finding.AtMost(float64(p/r.High), 1) {
		return finding.Within
	}
	return finding.Outside
}
