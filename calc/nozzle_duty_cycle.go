package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// pulsing is what a nozzle gives that is open for a share of the time only, its duty cycle:
// so much of its rated flow, at the same pressure.
//
// Source: the flow is in proportion to the duty cycle, common practice, no published source.
func (n Nozzle) pulsing(duty unit.Ratio) Nozzle {
	if !n.given() {
		return n
	}
	if len(n.FlowChart) > 0 {
		points := make([]FlowPoint, len(n.FlowChart))
		for i, p := range n.FlowChart {
			points[i] = FlowPoint{p.Pressure, p.FlowRate * unit.FlowRate(duty)}
		}
		n.FlowChart = points
		return n
	}
	flow, pressure := n.rating()
	n.RatedFlowRate, n.RatedPressure, n.Size, n.SizeRating = flow*unit.FlowRate(duty), pressure, "", ""
	return n
}

// pulsing is a round of nozzles that pulse, as one of nozzles that give so much less.
func (in NozzleAcceptanceInput) pulsing() NozzleAcceptanceInput {
	if in.DutyCycle == 0 {
		return in
	}
	in.Nozzle = in.Nozzle.pulsing(in.DutyCycle)
	if in.mixedDrops() == 0 {
		return in
	}
	catches := make([]AcceptanceCatch, len(in.Catches))
	for i, c := range in.Catches {
		drop := make([]DropNozzle, len(c.NozzlesOnDrop))
		for j, d := range c.NozzlesOnDrop {
			drop[j] = DropNozzle{d.Nozzle.pulsing(in.DutyCycle), d.Count}
		}
		c.NozzlesOnDrop = drop
		catches[i] = c
	}
	in.Catches = catches
	return in
}

// checkDutyCycle checks a duty cycle, which is never above 1.
func checkDutyCycle(v *finding.Invalid, duty unit.Ratio, place finding.Place) {
	v.Optional(float64(duty), place)
	checkShare(v, duty, place)
}

// checkShare checks that a share is not above all there is.
func checkShare(v *finding.Invalid, share unit.Ratio, place finding.Place) {
	if finding.Valid(float64(share)) && !finding.AtMost(float64(share), 1) {
		v.Add(place, CodeOver100Percent)
	}
}
