package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A LabeledNozzle is a nozzle that is at hand, all of one kind along the boom.
type LabeledNozzle struct {
	Label string // may be empty
	Nozzle
}

// NozzleChangeCost is what other nozzles all along the boom add to Plan.Size: as
// much as 65 % of speed. Own judgement, no published source.
const NozzleChangeCost = 0.5

// nozzle is one of the shelf, from 1, or the present one, 0.
func (in CorrectionsInput) nozzle(n int) LabeledNozzle {
	if n == 0 {
		return in.Nozzle
	}
	return in.Nozzles[n-1]
}

// flowRatio is what a nozzle of the shelf gives over what the present one gives at
// the measured pressure, both as rated and both by the same exponent,
//
//	(Q2 / p2^n) / (Q1 / p1^n)
//
// and by its chart at that pressure where a nozzle has one. A worn nozzle gives more
// than its rating: new ones are measured before they are trusted.
func (x *planner) flowRatio(n int) float64 {
	q1, p1 := x.knownFlow(0)
	q2, p2 := x.knownFlow(n)
	return float64(q2/q1) / power(float64(p2/p1), x.in.PressureExponent)
}

// knownFlow is a flow that a nozzle is known to give, and at which pressure.
func (x *planner) knownFlow(n int) (unit.FlowRate, unit.Pressure) {
	nozzle, p := x.in.nozzle(n).Nozzle, x.in.Measured.SprayPressure
	if len(nozzle.FlowChart) > 0 {
		return nozzle.chartFlow(p), p
	}
	return nozzle.rating()
}

// byChart tells whether the flow of a nozzle follows the pressure by its chart. The
// exponent that catches of the present one gave goes before its chart.
func (x *planner) byChart(n int) bool {
	return len(x.in.nozzle(n).FlowChart) > 0 && (n != 0 || !x.fittedExponent)
}

// pressureFactor is what another pressure than the measured one does to the flow of a nozzle.
func (x *planner) pressureFactor(n int, p float64) float64 {
	if x.byChart(n) {
		nozzle := x.in.nozzle(n).Nozzle
		return float64(nozzle.chartFlow(unit.Pressure(p)) / nozzle.chartFlow(x.in.Measured.SprayPressure))
	}
	return power(p/x.now.pressure, x.in.PressureExponent)
}

// pressureFor is the pressure at which a nozzle gives a flow that is to the one at the
// measured pressure as target to rate.
func (x *planner) pressureFor(n int, rate, target float64) float64 {
	p := x.in.Measured.SprayPressure
	if x.byChart(n) {
		nozzle := x.in.nozzle(n).Nozzle
		needed, _ := nozzle.ChartPressure(nozzle.chartFlow(p)*unit.FlowRate(target/rate), p)
		return float64(needed)
	}
	// The rate is to the flow as a constant, so the flow law serves for it.
	return float64(PressureForFlow(unit.FlowRate(rate), p, unit.FlowRate(target), x.in.PressureExponent))
}

// warnCharts reports charts that are rather slips of the pen, and one of the present
// nozzle that says nothing of the measured pressure.
func (x *planner) warnCharts() {
	x.r.Warnings = append(x.r.Warnings, x.in.Nozzle.warnChart(finding.Member("nozzle"))...)
	for n := range x.in.Nozzles {
		x.r.Warnings = append(x.r.Warnings, x.in.Nozzles[n].warnChart(finding.Item("nozzles", n))...)
	}
	x.r.Warnings = append(x.r.Warnings, x.warnOutsideChart(x.now)...)
}

// warnOutsideChart reports a pressure of which the chart of its nozzle says
// nothing.
func (x *planner) warnOutsideChart(s machineState) []finding.Warning {
	if !x.byChart(s.nozzle) || s.pressure == 0 || x.in.nozzle(s.nozzle).chartHolds(unit.Pressure(s.pressure)) != finding.Outside {
		return nil
	}
	place := finding.Member("nozzle").Member("flowChart")
	if s.nozzle != 0 {
		place = finding.Item("nozzles", s.nozzle-1).Member("flowChart")
	}
	return []finding.Warning{{Place: place, Code: WarnOutsideFlowChart}}
}

// isPresent tells whether a nozzle of the shelf is the present one: by their labels, or
// where one has none by what they are.
func (x *planner) isPresent(n int) bool {
	a, b := x.in.Nozzle, x.in.nozzle(n)
	if a.Label != "" && b.Label != "" {
		return a.Label == b.Label
	}
	return a.PressureRange == b.PressureRange && finding.Difference(x.flowRatio(n), 1) == 0
}

// checkNozzles checks the shelf. With one the present nozzle has to be known too.
func (in CorrectionsInput) checkNozzles(v *finding.Invalid) {
	if len(in.Nozzles) > 0 || in.Nozzle.given() || in.Nozzle.SizeRating != "" {
		*v = append(*v, in.Nozzle.check().Under(finding.Member("nozzle"))...)
	} else {
		*v = append(*v, in.Nozzle.PressureRange.check().Under(nozzlePressureRange)...)
	}
	for i, n := range in.Nozzles {
		for _, x := range n.check() {
			v.Add(x.Place.Under(finding.Item("nozzles", i)), x.Code)
		}
		for j := range i {
			if n.Label != "" && in.Nozzles[j].Label == n.Label {
				v.Add(finding.Item("nozzles", i).Member("label"), CodeDuplicateLabel)
				break
			}
		}
	}
}

// byNozzle looks at the nozzles of the shelf where the pressure is not known. None
// is a plan then: it may not work at it.
func (x *planner) byNozzle() {
	for n := 1; n <= len(x.in.Nozzles); n++ {
		if !x.isPresent(n) {
			x.r.Rejected = append(x.r.Rejected, Rejection{
				Change: ChangeNozzle, Changes: setOf(ChangeNozzle), Reason: ReasonPressureNotMeasured, Nozzle: n,
			})
		}
	}
}

// flowOf is what another nozzle does to the flow of the boom, less 1.
func (x *planner) flowOf(n int) unit.Ratio { return unit.Ratio(finding.Difference(x.flowRatio(n), 1)) }
