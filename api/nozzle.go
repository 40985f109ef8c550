package api

import (
	"wetrun/calc"
	"wetrun/calc/unit"
)

// NozzleRequest says what a nozzle gives: a rated flow at a rated pressure, or a
// size of ISO 10625.
type NozzleRequest struct {
	RatedFlowRate Quantity `json:"ratedFlowRate,omitzero"`
	RatedPressure Quantity `json:"ratedPressure,omitzero"`
	Size          string   `json:"size,omitzero"`
	SizeRating    string   `json:"sizeRating,omitzero"`
	PressureRange Range    `json:"pressureRange,omitzero"`
}

// NozzleResponse is the rating that a calculation used.
type NozzleResponse struct {
	RatedFlowRate Quantity `json:"ratedFlowRate"`
	RatedPressure Quantity `json:"ratedPressure"`
	Size          string   `json:"size,omitzero"`
	SizeRating    string   `json:"sizeRating,omitzero"`
}

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
	nested("pressureRange", func(n *NozzleRequest) *Range { return &n.PressureRange }, pressureRangeTable),
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
	rating := calc.ISO3Bar
	if n.SizeRating == ratingUS40PSI {
		rating = calc.US40PSI
	}
	return calc.Nozzle{
		RatedFlowRate: unit.FlowRate(n.RatedFlowRate.si()),
		RatedPressure: unit.Pressure(n.RatedPressure.si()),
		Size:          n.Size,
		SizeRating:    rating,
		PressureRange: pressureRange(n.PressureRange),
	}
}

// unread reports a sizeRating that no size is read by. calc cannot tell: there a
// size that says nothing of its rating has the first one.
func (n *NozzleRequest) unread(field string) calc.Invalid {
	switch {
	case n.SizeRating == "" || n.Size != "":
		return nil
	case n.RatedFlowRate.given() || n.RatedPressure.given():
		rated := "RatedFlowRate"
		if !n.RatedFlowRate.given() {
			rated = "RatedPressure"
		}
		return calc.Invalid{{Field: field + ".SizeRating", Code: calc.CodeConflict, Because: field + "." + rated}}
	}
	return calc.Invalid{{Field: field + ".Size", Code: calc.CodeRequired, Because: field + ".SizeRating"}}
}

func pressureRange(r Range) calc.PressureRange {
	return calc.PressureRange{Low: unit.Pressure(r.Low.si()), High: unit.Pressure(r.High.si())}
}

// answer is the rating that calc used; nil when the nozzle has none. That of a
// size comes in the units in which its rating is round, whatever resultUnits says.
func (n *NozzleRequest) answer() *NozzleResponse {
	flow, pressure, err := n.input().Rating()
	switch {
	case err != nil:
		return nil
	case n.Size == "":
		return &NozzleResponse{RatedFlowRate: n.RatedFlowRate, RatedPressure: n.RatedPressure}
	case n.SizeRating == ratingUS40PSI:
		return &NozzleResponse{in(flow, unit.IDGalUsMin), in(pressure, unit.IDPsi), n.Size, ratingUS40PSI}
	}
	return &NozzleResponse{in(flow, unit.IDLMin), in(pressure, unit.IDBar), n.Size, ratingISO3Bar}
}
