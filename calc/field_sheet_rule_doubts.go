package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// What a sheet is judged by is believed up to these: with more, whatever there is passes. Own
// judgement: the widest in use and half as much again.
const (
	mostTolerance  = 30 * unit.Percent  // of outputs, rates and runs
	mostShare      = 60 * unit.Percent  // outside, before a set is due
	mostDifference = 100 * unit.Percent // of the mean pressure
	mostScaleError = 15 * unit.Percent
)

var judgedByPlaces = placesOf(
	"output/tolerance/limit", "output/tolerance/rated/below", "output/tolerance/rated/above", "output/tolerance/mean/below", "output/tolerance/mean/above",
	"output/replaceAllAbove", "target/rateTolerance", "speed/runTolerance", "pressure/maxDifference",
)

// judgedBy asks about tolerances, shares, errors of scale and a density that nobody works by.
// More often than not a percentage was typed as a number, or the other way.
func (b *belief) judgedBy() {
	in := b.in
	atMost := func(x, most unit.Ratio, at finding.Place, rests part) {
		if !finding.AtMost(float64(x), float64(most)) {
			b.addRule(at, rests, Slip{SlipUnit, unit.IDPct, 0.01}, finding.AtMost(float64(x)/100, float64(most)))
		}
	}
	t := &in.Output.Tolerance
	atMost(t.Limit, mostTolerance, judgedByPlaces[0], partOutput)
	atMost(t.Rated.Below, mostTolerance, judgedByPlaces[1], partOutput)
	atMost(t.Rated.Above, mostTolerance, judgedByPlaces[2], partOutput)
	atMost(t.Mean.Below, mostTolerance, judgedByPlaces[3], partOutput)
	atMost(t.Mean.Above, mostTolerance, judgedByPlaces[4], partOutput)
	atMost(in.Output.ReplaceAllAbove, mostShare, judgedByPlaces[5], partOutput)
	atMost(in.Target.RateTolerance, mostTolerance, judgedByPlaces[6], partRate)
	atMost(in.Speed.RunTolerance, mostTolerance, judgedByPlaces[7], partSpeed|partRate)
	for i := range in.Measuring.Instruments {
		atMost(in.Measuring.Instruments[i].ScaleError, mostScaleError, finding.Item("instruments", i).Member("scaleError"), everyPart)
	}
	if p := in.Pressure; b.r.Pressure != nil && (p.MaxDifference != 0 || p.MaxShare != 0) {
		share := unit.Ratio(b.r.Pressure.MaxDifference / b.r.Pressure.Mean)
		atMost(share, mostDifference, judgedByPlaces[8], partPressure|partOutput)
	}
	if rd := float64(in.RelativeDensity); rd != 0 && !between(rd, float64(leastDensity), float64(mostDensity)) {
		b.addRule(finding.Member("relativeDensity"), partRate, Slip{SlipUnit, unit.IDOne, 100}, between(100*rd, float64(leastDensity), float64(mostDensity)))
	}
}

// addRule asks about what a sheet is judged by, with a slip where that makes it believable.
func (b *belief) addRule(at finding.Place, rests part, s Slip, believable bool) {
	if !believable || at.Part() == "pressure" {
		s = Slip{}
	}
	b.add(Doubt{Entry: at, Why: DoubtRule, Slip: s, rests: rests})
}

// tank asks about the volume that the tank lost, where a slip explains that it says another
// rate.
func (b *belief) tank() {
	a := b.r.AreaCheck
	if a == nil || a.Verdict != finding.Outside || !apart(float64(a.ApplicationRate), float64(a.Expected)) || len(b.r.Doubts) >= mostDoubts {
		return
	}
	at := finding.Member("areaCheck").Member("volumeUsed")
	if s := likeliestSlip(ofVolume, b.typed(at), float64(a.Expected/a.ApplicationRate)); s.Factor != 0 && b.add(Doubt{Entry: at, Why: DoubtTank, Slip: s}) {
		b.r.Doubts = append(b.r.Doubts, b.found[len(b.found)-1])
	}
}
