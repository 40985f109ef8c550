package operation

import (
	"cmp"
	"slices"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// NozzleRequest says what a nozzle gives: a rated flow at a rated pressure, a size
// of ISO 10625, or the chart of the maker's sheet.
type NozzleRequest struct {
	RatedFlowRate wire.Quantity      `json:"ratedFlowRate,omitzero" is:"flow_rate"`
	RatedPressure wire.Quantity      `json:"ratedPressure,omitzero" is:"pressure"`
	Size          calc.SizeName      `json:"size,omitzero"`
	SizeRating    calc.SizeRating    `json:"sizeRating,omitzero"`
	FlowChart     []FlowPointRequest `json:"flowChart,omitzero" len:"2..50"`
	PressureRange wire.Range         `json:"pressureRange,omitzero" is:"pressure"`
}

// FlowPointRequest is one line of the maker's sheet.
type FlowPointRequest struct {
	Pressure wire.Quantity `json:"pressure" validate:"required" is:"pressure"`
	FlowRate wire.Quantity `json:"flowRate" validate:"required" is:"flow_rate"`
}

// NozzleAnswer is the rating that a calculation used. FromFlowChart marks that
// the pair is only the point of the chart nearest to the working pressure.
type NozzleAnswer struct {
	RatedFlowRate wire.Quantity   `json:"ratedFlowRate"`
	RatedPressure wire.Quantity   `json:"ratedPressure"`
	Size          calc.SizeName   `json:"size,omitzero"`
	SizeRating    calc.SizeRating `json:"sizeRating,omitzero"`
	FromFlowChart *bool           `json:"fromFlowChart,omitzero"`
}

// input is the nozzle as calc takes it.
func (n *NozzleRequest) input() calc.Nozzle {
	return calc.Nozzle{
		RatedFlowRate: unit.FlowRate(n.RatedFlowRate.SI()),
		RatedPressure: unit.Pressure(n.RatedPressure.SI()),
		Size:          n.Size,
		SizeRating:    n.SizeRating,
		FlowChart:     n.chart(),
		PressureRange: pressureRange(n.PressureRange),
	}
}

func (n *NozzleRequest) chart() []calc.FlowPoint {
	if len(n.FlowChart) == 0 {
		return nil
	}
	points := make([]calc.FlowPoint, len(n.FlowChart))
	for i, p := range n.FlowChart {
		points[i] = calc.FlowPoint{Pressure: unit.Pressure(p.Pressure.SI()), FlowRate: unit.FlowRate(p.FlowRate.SI())}
	}
	return points
}

// unusedSizeRating reports a sizeRating that no size is read by. calc does not: it looks at
// a nozzle only where one is given.
func (n *NozzleRequest) unusedSizeRating() finding.Invalid {
	beside := func(other string) finding.Invalid {
		return finding.Invalid{{Place: finding.Member("sizeRating"), Code: finding.CodeConflict, Because: finding.Member(other)}}
	}
	switch {
	case n.SizeRating == "" || n.Size != "":
		return nil
	case n.RatedFlowRate.Given():
		return beside("ratedFlowRate")
	case n.RatedPressure.Given():
		return beside("ratedPressure")
	case len(n.FlowChart) > 0:
		return beside("flowChart")
	}
	return finding.Invalid{{Place: finding.Member("size"), Code: finding.CodeRequired, Because: finding.Member("sizeRating")}}
}

func pressureRange(r wire.Range) calc.PressureRange {
	return calc.PressureRange{Low: unit.Pressure(r.Low.SI()), High: unit.Pressure(r.High.SI())}
}

// answer is the rating that calc used at a working pressure, zero when that is not
// known; nil when the nozzle has none. That of a size comes in the units in which
// its rating is round, whatever resultUnits says; a point of a chart as it was given.
func (n *NozzleRequest) answer(p unit.Pressure) *NozzleAnswer {
	if !n.RatedFlowRate.Given() && n.Size == "" && len(n.FlowChart) == 0 {
		return nil // without building the errors that say so
	}
	flow, pressure, err := n.input().RatingNear(p)
	switch {
	case err != nil:
		return nil
	case len(n.FlowChart) > 0:
		return n.chartAnswer(flow, pressure)
	case n.Size == "":
		return &NozzleAnswer{RatedFlowRate: n.RatedFlowRate, RatedPressure: n.RatedPressure}
	}
	flowUnit, pressureUnit := unit.IDLMin, unit.IDBar
	if n.SizeRating == calc.US40PSI {
		flowUnit, pressureUnit = unit.IDGalUsMin, unit.IDPsi
	}
	return &NozzleAnswer{RatedFlowRate: wire.In(flow, flowUnit), RatedPressure: wire.In(pressure, pressureUnit), Size: n.Size, SizeRating: cmp.Or(n.SizeRating, calc.ISO3Bar)}
}

// chartAnswer is the point of the chart that calc chose, as it was given.
func (n *NozzleRequest) chartAnswer(flow unit.FlowRate, pressure unit.Pressure) *NozzleAnswer {
	charted := true
	a := &NozzleAnswer{FromFlowChart: &charted}
	for _, p := range n.FlowChart {
		if p.Pressure.SI() == float64(pressure) && p.FlowRate.SI() == float64(flow) {
			a.RatedFlowRate, a.RatedPressure = p.FlowRate, p.Pressure
		}
	}
	return a
}

// chartPointAbove is the index of the upper one of the two points of the chart that a
// pressure lies between; 0 outside of it, and without one.
func (n *NozzleRequest) chartPointAbove(p unit.Pressure) int {
	return max(0, slices.IndexFunc(n.FlowChart, func(x FlowPointRequest) bool { return x.Pressure.SI() >= float64(p) }))
}

// workFlow adds the line of a nozzle's own flow of water at a pressure: of a member, or
// without one of a number between.
func (n *NozzleRequest) workFlow(w working.Working, member string, result, p wire.Quantity) {
	id, above := method.PressureLaw, n.chartPointAbove(unit.Pressure(p.SI()))
	if above > 0 {
		id = method.FlowChart
	}
	var l *working.Line
	if member == "" {
		l = w.Intermediate(id, result)
	} else {
		l = w.Line(id, member, result)
	}
	switch {
	case l == nil:
	case above > 0:
		low, high := n.FlowChart[above-1], n.FlowChart[above]
		l.With("q_1", low.FlowRate).With("q_2", high.FlowRate).With("p", p).With("p_1", low.Pressure).With("p_2", high.Pressure)
	default:
		flow, rated := n.rated(p)
		l.With("q_0", flow).With("p", p).With("p_0", rated).Number("n", calc.SquareRoot)
	}
}

// flowAt is what workFlow explains, where a line is wanted.
func (n *NozzleRequest) flowAt(w working.Working, p wire.Quantity, u unit.ID) wire.Quantity {
	if w.MethodsOnly {
		return wire.Quantity{}
	}
	own := n.input()
	return wire.In(own.FlowAt(unit.Pressure(p.SI())), u)
}

// rated is the rating that the square-root law goes from: of a chart the nearer end.
func (n *NozzleRequest) rated(p wire.Quantity) (flow, pressure wire.Quantity) {
	if points := n.FlowChart; len(points) > 0 {
		x := points[0]
		if p.SI() > x.Pressure.SI() {
			x = points[len(points)-1]
		}
		return x.FlowRate, x.Pressure
	}
	a := n.answer(unit.Pressure(p.SI()))
	return a.RatedFlowRate, a.RatedPressure
}
