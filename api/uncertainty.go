package api

import (
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// UncertaintyAnswer is how well one member is known.
type UncertaintyAnswer struct {
	Standard         Quantity `json:"standard"`
	Expanded         Quantity `json:"expanded"`
	CoverageFactor   Number   `json:"coverageFactor"`
	DegreesOfFreedom Number   `json:"degreesOfFreedom,omitzero"`

	of *certainty.Uncertainty // for the working
}

// uncertain writes an uncertainty in the unit of its member; nothing where there is
// none.
func uncertain(u *certainty.Uncertainty, id unit.ID) (a UncertaintyAnswer) {
	if u.CoverageFactor == 0 {
		return a
	}
	return UncertaintyAnswer{
		Standard: in(u.Standard, id), Expanded: in(u.Expanded(), id),
		CoverageFactor: Number(u.CoverageFactor), DegreesOfFreedom: Number(u.DegreesOfFreedom),
		of: u,
	}
}

// ConformanceAnswer tells how surely a verdict holds.
type ConformanceAnswer struct {
	ConformanceProbability Quantity              `json:"conformanceProbability,omitzero"`
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
