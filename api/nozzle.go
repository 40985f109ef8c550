package api

import (
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleRequest says what a nozzle gives: a rated flow at a rated pressure, a size
// of ISO 10625, or the chart of the maker's sheet.
type NozzleRequest struct {
	RatedFlowRate Quantity           `json:"ratedFlowRate,omitzero"`
	RatedPressure Quantity           `json:"ratedPressure,omitzero"`
	Size          string             `json:"size,omitzero"`
	SizeRating    string             `json:"sizeRating,omitzero"`
	FlowChart     []FlowPointRequest `json:"flowChart,omitzero"`
	PressureRange Range              `json:"pressureRange,omitzero"`
}

// FlowPointRequest is one line of the maker's sheet.
type FlowPointRequest struct {
	Pressure Quantity `json:"pressure"`
	FlowRate Quantity `json:"flowRate"`
}

// NozzleResponse is the rating that a calculation used. FromFlowChart marks that
// the pair is only the point of the chart nearest to the working pressure.
type NozzleResponse struct {
	RatedFlowRate Quantity `json:"ratedFlowRate"`
	RatedPressure Quantity `json:"ratedPressure"`
	Size          string   `json:"size,omitzero"`
	SizeRating    string   `json:"sizeRating,omitzero"`
	FromFlowChart *bool    `json:"fromFlowChart,omitzero"`
}

// How many points a flow chart has.
const leastPoints, mostPoints = 2, 50

// The ratings of ISO 10625 sizes, as on the wire.
const (
	ratingISO3Bar = "iso_3_bar"
	ratingUS40PSI = "us_40_psi"
)

var nozzleTable = objectOf(
	quantity("ratedFlowRate", func(n *NozzleRequest) *Quantity { return &n.RatedFlowRate }, unit.KindFlowRate),
	quantity("ratedPressure", func(n *NozzleRequest) *Quantity { return &n.RatedPressure }, unit.KindPressure),
	oneOf("size", func(n *NozzleRequest) *string { return &n.Size }, sizeNames()...),
	oneOf("sizeRating", func(n *NozzleRequest) *string { return &n.SizeRating }, ratingISO3Bar, ratingUS40PSI),
	list("flowChart", func(n *NozzleRequest) *[]FlowPointRequest { return &n.FlowChart }, leastPoints, mostPoints, flowPointTable),
	nested("pressureRange", func(n *NozzleRequest) *Range { return &n.PressureRange }, pressureRangeTable),
)

var flowPointTable = objectOf(
	require(quantity("pressure", func(p *FlowPointRequest) *Quantity { return &p.Pressure }, unit.KindPressure)),
	require(quantity("flowRate", func(p *FlowPointRequest) *Quantity { return &p.FlowRate }, unit.KindFlowRate)),
)

// pressureRangeTable and speedRangeTable read {low, high}.
var (
	pressureRangeTable = rangeTable(unit.KindPressure)
	speedRangeTable    = rangeTable(unit.KindSpeed)
)

func rangeTable(kind unit.Kind) *object[Range] {
	return objectOf(
		require(quantity("low", func(r *Range) *Quantity { return &r.Low }, kind)),
		require(quantity("high", func(r *Range) *Quantity { return &r.High }, kind)),
	)
}

func sizeNames() (names []string) {
	for _, s := range calc.NozzleSizes() {
		names = append(names, s.Size)
	}
	return names
}

// input is the nozzle as calc takes it.
func (n *NozzleRequest) input() calc.Nozzle {
	return calc.Nozzle{
		RatedFlowRate: unit.FlowRate(n.RatedFlowRate.si()),
		RatedPressure: unit.Pressure(n.RatedPressure.si()),
		Size:          n.Size,
		SizeRating:    sizeRating(n.SizeRating),
		FlowChart:     n.chart(),
		PressureRange: pressureRange(n.PressureRange),
	}
}

// sizeRating is how calc reads a size; ratingWord is the word that stands for what
// was left out.
func sizeRating(word string) calc.SizeRating {
	if word == ratingUS40PSI {
		return calc.US40PSI
	}
	return calc.ISO3Bar
}

func ratingWord(word string) string {
	if word == "" {
		return ratingISO3Bar
	}
	return word
}

func (n *NozzleRequest) chart() []calc.FlowPoint {
	if len(n.FlowChart) == 0 {
		return nil
	}
	points := make([]calc.FlowPoint, len(n.FlowChart))
	for i, p := range n.FlowChart {
		points[i] = calc.FlowPoint{Pressure: unit.Pressure(p.Pressure.si()), FlowRate: unit.FlowRate(p.FlowRate.si())}
	}
	return points
}

// unread reports a sizeRating that no size is read by. calc cannot tell: there a
// size that says nothing of its rating has the first one.
func (n *NozzleRequest) unread() finding.Invalid {
	switch {
	case n.SizeRating == "" || n.Size != "":
		return nil
	case n.RatedFlowRate.given() || n.RatedPressure.given() || len(n.FlowChart) > 0:
		other := "ratedFlowRate"
		switch {
		case n.RatedFlowRate.given():
		case n.RatedPressure.given():
			other = "ratedPressure"
		default:
			other = "flowChart"
		}
		return finding.Invalid{{Place: finding.Member("sizeRating"), Code: finding.CodeConflict, Because: finding.Member(other)}}
	}
	return finding.Invalid{{Place: finding.Member("size"), Code: finding.CodeRequired, Because: finding.Member("sizeRating")}}
}

func pressureRange(r Range) calc.PressureRange {
	return calc.PressureRange{Low: unit.Pressure(r.Low.si()), High: unit.Pressure(r.High.si())}
}

// answer is the rating that calc used at a working pressure, zero when that is not
// known; nil when the nozzle has none. That of a size comes in the units in which
// its rating is round, whatever resultUnits says; a point of a chart as it was given.
func (n *NozzleRequest) answer(p unit.Pressure) *NozzleResponse {
	if !n.RatedFlowRate.given() && n.Size == "" && len(n.FlowChart) == 0 {
		return nil // without building the errors that say so
	}
	flow, pressure, err := n.input().RatingNear(p)
	switch {
	case err != nil:
		return nil
	case len(n.FlowChart) > 0:
		return n.point(flow, pressure)
	case n.Size == "":
		return &NozzleResponse{RatedFlowRate: n.RatedFlowRate, RatedPressure: n.RatedPressure}
	}
	flowUnit, pressureUnit := unit.IDLMin, unit.IDBar
	if n.SizeRating == ratingUS40PSI {
		flowUnit, pressureUnit = unit.IDGalUsMin, unit.IDPsi
	}
	return &NozzleResponse{RatedFlowRate: in(flow, flowUnit), RatedPressure: in(pressure, pressureUnit), Size: n.Size, SizeRating: ratingWord(n.SizeRating)}
}

// point is the line of the sheet that calc chose.
func (n *NozzleRequest) point(flow unit.FlowRate, pressure unit.Pressure) *NozzleResponse {
	charted := true
	a := &NozzleResponse{FromFlowChart: &charted}
	for _, p := range n.FlowChart {
		if p.Pressure.si() == float64(pressure) && p.FlowRate.si() == float64(flow) {
			a.RatedFlowRate, a.RatedPressure = p.FlowRate, p.Pressure
		}
	}
	return a
}
