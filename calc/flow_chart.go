package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A FlowPoint is one line of a maker's sheet: the flow of water of one nozzle at
// a pressure.
type FlowPoint struct {
	Pressure unit.Pressure
	FlowRate unit.FlowRate
}

// CodeNotRising is the violation for a point of a chart whose pressure is not
// above that of the point before it.
const CodeNotRising = "not_rising"

// Warning codes of a nozzle with a flow chart.
const (
	WarnOutsideFlowChart     = "outside_flow_chart"     // the square-root law from its nearest end was used
	WarnFlowChartImplausible = "flow_chart_implausible" // no nozzle changes its flow so between two points
)

// chartFlow is the flow at a pressure by the chart. Between two points it is the
// power law through both of them,
//
//	q = q1 (p / p1)^n,   n = ln(q2 / q1) / ln(p2 / p1)
//
// and at a point exactly that point. Outside the chart it is the square-root law
// from the nearest end. The chart has passed its check.
//
// Source: the power law is that of FlowAtPressure, with the exponent that the two
// points themselves have; reading a chart so is common practice, no published
// source.
func (n Nozzle) chartFlow(p unit.Pressure) unit.FlowRate {
	first, last := n.FlowChart[0], n.FlowChart[len(n.FlowChart)-1]
	switch {
	case p <= first.Pressure:
		return FlowAtPressure(first.FlowRate, first.Pressure, p, SquareRoot)
	case p >= last.Pressure:
		return FlowAtPressure(last.FlowRate, last.Pressure, p, SquareRoot)
	}
	i := 1
	for n.FlowChart[i].Pressure < p {
		i++
	}
	a, b := n.FlowChart[i-1], n.FlowChart[i]
	if p == b.Pressure {
		return b.FlowRate
	}
	// The same law, written so that it cannot leave the two flows.
	share := math.Log(float64(p/a.Pressure)) / math.Log(float64(b.Pressure/a.Pressure))
	return a.FlowRate * unit.FlowRate(math.Pow(float64(b.FlowRate/a.FlowRate), share))
}

// ChartPressure is the pressure at which the chart has a flow, the inverse of
// FlowAt, and the point above it: 0 below the chart, len(FlowChart) above it,
//
//	p = p1 (p2 / p1)^(ln(q / q1) / ln(q2 / q1))
//
// A chart whose flow falls somewhere may have a flow at several pressures: of those it
// is the one nearest to near, by ratio. The chart has passed its check.
func (n Nozzle) ChartPressure(q unit.FlowRate, near unit.Pressure) (found unit.Pressure, above int) {
	far := math.Inf(1)
	take := func(p unit.Pressure, i int) {
		if d := math.Abs(math.Log(float64(p / near))); d < far {
			found, above, far = p, i, d
		}
	}
	points := n.FlowChart
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if q < min(a.FlowRate, b.FlowRate) || q > max(a.FlowRate, b.FlowRate) || a.FlowRate == b.FlowRate {
			continue // a level stretch begins and ends at others
		}
		share := math.Log(float64(q/a.FlowRate)) / math.Log(float64(b.FlowRate/a.FlowRate))
		take(a.Pressure*unit.Pressure(math.Pow(float64(b.Pressure/a.Pressure), share)), i)
	}
	if first := points[0]; q <= first.FlowRate {
		take(PressureForFlow(first.FlowRate, first.Pressure, q, SquareRoot), 0)
	}
	if last := points[len(points)-1]; q >= last.FlowRate {
		take(PressureForFlow(last.FlowRate, last.Pressure, q, SquareRoot), len(points))
	}
	return found, above
}

// nearestPoint is the point of the chart nearest to a pressure by ratio, the lower
// one of two that are equally near; the first point where no pressure is known.
func (n Nozzle) nearestPoint(p unit.Pressure) FlowPoint {
	nearest, far := n.FlowChart[0], math.Inf(1)
	for _, x := range n.FlowChart {
		if d := math.Abs(math.Log(float64(x.Pressure / p))); d < far*(1-finding.Slack) {
			nearest, far = x, d
		}
	}
	return nearest
}

// chartHolds judges whether a pressure lies in the chart, its ends included;
// NotJudged without a chart.
func (n Nozzle) chartHolds(p unit.Pressure) finding.Verdict {
	if len(n.FlowChart) == 0 {
		return finding.NotJudged
	}
	return PressureRange{n.FlowChart[0].Pressure, n.FlowChart[len(n.FlowChart)-1].Pressure}.holds(p)
}

// warnChart reports a flow that falls, or hardly or too fast rises, from one point
// of the chart to the next: it is rather a slip of the pen than a nozzle. place is
// where the nozzle stands.
func (n Nozzle) warnChart(place finding.Place) (warnings []finding.Warning) {
	for i := 1; i < len(n.FlowChart); i++ {
		a, b := n.FlowChart[i-1], n.FlowChart[i]
		exponent := math.Log(float64(b.FlowRate/a.FlowRate)) / math.Log(float64(b.Pressure/a.Pressure))
		if !between(exponent, leastExponent, mostExponent) {
			warnings = append(warnings, finding.Warning{Place: place.Item("flowChart", i).Member("flowRate"), Code: WarnFlowChartImplausible})
		}
	}
	return warnings
}

func (n Nozzle) checkChart() finding.Invalid {
	var v finding.Invalid
	if len(n.FlowChart) == 1 {
		v.Add(finding.Member("flowChart"), finding.CodeTooFew)
	}
	for i, x := range n.FlowChart {
		v.PositiveIn(float64(x.Pressure), "flowChart", i, "pressure")
		v.PositiveIn(float64(x.FlowRate), "flowChart", i, "flowRate")
		if i > 0 && finding.Difference(float64(x.Pressure), float64(n.FlowChart[i-1].Pressure)) <= 0 {
			v.Add(finding.Item("flowChart", i).Member("pressure"), CodeNotRising)
		}
	}
	return v
}

// exponent is the n of q = k p^n about a pressure: that of the two points of a flow
// chart that it lies between, and a half outside the chart and without one. At a point
// of the chart it is that of the points below.
func (n Nozzle) exponent(p unit.Pressure) float64 {
	for i := 1; i < len(n.FlowChart); i++ {
		a, b := n.FlowChart[i-1], n.FlowChart[i]
		if a.Pressure < p && p <= b.Pressure {
			return math.Log(float64(b.FlowRate/a.FlowRate)) / math.Log(float64(b.Pressure/a.Pressure))
		}
	}
	return SquareRoot
}
