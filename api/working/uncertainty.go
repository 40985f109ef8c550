package working

import (
	"wetrun/api/wire"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// UncertaintyAnswer is how well one member is known, in the terms of the GUM (JCGM 100).
type UncertaintyAnswer struct {
	Standard         wire.Quantity `json:"standard"`
	Expanded         wire.Quantity `json:"expanded"`
	CoverageFactor   wire.Number   `json:"coverageFactor"`
	DegreesOfFreedom wire.Number   `json:"degreesOfFreedom,omitzero"`

	source *certainty.Uncertainty // for the working; nil where there is none
}

// Source is the uncertainty that the answer tells of; nil where there is none.
func (a *UncertaintyAnswer) Source() *certainty.Uncertainty { return a.source }

// UncertaintyIn is an uncertainty in the unit of its member; the zero answer, which is left
// out, where there is none.
func UncertaintyIn(u *certainty.Uncertainty, id unit.ID) (a UncertaintyAnswer) {
	if u.CoverageFactor == 0 {
		return a
	}
	return UncertaintyAnswer{
		Standard: wire.In(u.Standard, id), Expanded: wire.In(u.Expanded(), id),
		CoverageFactor: wire.Number(u.CoverageFactor), DegreesOfFreedom: wire.Number(u.DegreesOfFreedom),
		source: u,
	}
}

// ConformanceAnswer is how surely a verdict holds (JCGM 106).
type ConformanceAnswer struct {
	ConformanceProbability wire.Quantity         `json:"conformanceProbability,omitzero"`
	Conformance            certainty.Conformance `json:"conformance,omitzero"`
	ConformanceDetail      string                `json:"conformanceDetail,omitzero"`
	MeasureAgain           *MeasureAgainAnswer   `json:"measureAgain,omitzero"`
}

// MeasureAgainAnswer is what would settle a verdict that is too close.
type MeasureAgainAnswer struct {
	Measurement certainty.Measurement       `json:"measurement"`
	How         certainty.HowToMeasureAgain `json:"how"`
	Instrument  string                      `json:"instrument,omitzero"`
	More        int                         `json:"more,omitzero"`
}
