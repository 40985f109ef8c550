package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// PatternUniformityAnswer is the answer of POST /v1/pattern-uniformity.
type PatternUniformityAnswer struct {
	MaxCoefficientOfVariation wire.Quantity          `json:"maxCoefficientOfVariation"`
	MaxPlaceDeviation         wire.Quantity          `json:"maxPlaceDeviation"`
	WithinTolerance           *bool                  `json:"withinTolerance,omitzero"`
	Mean                      wire.Quantity          `json:"mean,omitzero"`
	StandardDeviation         wire.Quantity          `json:"standardDeviation,omitzero"`
	CoefficientOfVariation    wire.Quantity          `json:"coefficientOfVariation,omitzero"`
	PlacesOutside             *int                   `json:"placesOutside,omitzero"`
	WorstPlace                *WorstPlaceAnswer      `json:"worstPlace,omitzero"`
	Readings                  []PatternReadingAnswer `json:"readings,omitzero"`
	Boom                      *BoomPatternAnswer     `json:"boom,omitzero"`
	Spacings                  []SpacingAnswer        `json:"spacings,omitzero"`
	BestSpacing               *SpacingAnswer         `json:"bestSpacing,omitzero"`
	Warnings                  []Warning              `json:"warnings,omitzero"`
	NextSteps                 []Notice               `json:"nextSteps,omitzero"`
	Cautions                  []Notice               `json:"cautions"`
	working.Explained
}

// WorstPlaceAnswer is the cup farthest from the mean.
type WorstPlaceAnswer struct {
	Index     int                `json:"index"`
	Label     string             `json:"label,omitzero"`
	Position  certainty.Position `json:"position,omitzero"`
	Distance  wire.Quantity      `json:"distance,omitzero"`
	Deviation wire.Quantity      `json:"deviation"`
}

// PatternReadingAnswer repeats a reading and holds it against the mean.
type PatternReadingAnswer struct {
	PatternReadingRequest
	Deviation       wire.Quantity `json:"deviation"`
	WithinTolerance bool          `json:"withinTolerance"`
}

// BoomPatternAnswer is the pattern overlapped to a boom.
type BoomPatternAnswer struct {
	SpacingAnswer
	HighestDeviation wire.Quantity `json:"highestDeviation"`
	LowestDeviation  wire.Quantity `json:"lowestDeviation"`
}

// SpacingAnswer is how even a boom of one nozzle spacing is.
type SpacingAnswer struct {
	NozzleSpacing          wire.Quantity `json:"nozzleSpacing"`
	CoefficientOfVariation wire.Quantity `json:"coefficientOfVariation"`
	WithinTolerance        bool          `json:"withinTolerance"`
}

func (r *PatternUniformityRequest) answer(ctx context.Context, x calc.PatternUniformityResult) PatternUniformityAnswer {
	units := r.units()
	a := PatternUniformityAnswer{
		MaxCoefficientOfVariation: percent(x.MaxCoefficientOfVariation),
		MaxPlaceDeviation:         percent(x.MaxPlaceDeviation),
		WithinTolerance:           within(x.Even),
		Warnings:                  warnings(ctx, x.Warnings),
		Cautions:                  catchCautions.in(ctx),
	}
	if x.Even != finding.NotJudged {
		r.rowAnswer(&a, x)
	}
	spacing := func(b calc.BoomPattern) SpacingAnswer {
		return SpacingAnswer{wire.In(b.NozzleSpacing, units.width), percent(b.CoefficientOfVariation), b.Even == finding.Within}
	}
	if x.Boom.Even != finding.NotJudged {
		a.Boom = &BoomPatternAnswer{spacing(x.Boom), percent(x.Boom.Highest), percent(x.Boom.Lowest)}
		a.Boom.NozzleSpacing = r.NozzleSpacing
	}
	for _, b := range x.Spacings {
		a.Spacings = append(a.Spacings, spacing(b))
	}
	if x.BestFound {
		a.BestSpacing = &a.Spacings[x.Best]
	}
	if x.Even == finding.Outside {
		a.NextSteps = nextSteps(ctx, "mend_pattern")
	}
	return a
}

// rowAnswer adds what the row of cups showed. Mean and deviation are jug readings:
// they come in the unit of the first.
func (r *PatternUniformityRequest) rowAnswer(a *PatternUniformityAnswer, x calc.PatternUniformityResult) {
	jug, worst := r.Readings[0].Volume.Unit, &r.Readings[x.Worst]
	a.Mean, a.StandardDeviation = wire.In(x.Mean, jug), wire.In(x.StandardDeviation, jug)
	a.CoefficientOfVariation = percent(x.CoefficientOfVariation)
	a.PlacesOutside = &x.PlacesOutside
	a.WorstPlace = &WorstPlaceAnswer{
		Index: x.Worst, Label: worst.Label, Position: worst.Position, Deviation: percent(x.Places[x.Worst].Deviation),
	}
	if r.Spacing.Given() {
		a.WorstPlace.Distance = wire.In(x.WorstDistance, r.Spacing.Unit)
	}
	a.Readings = make([]PatternReadingAnswer, len(x.Places))
	for i, p := range x.Places {
		a.Readings[i] = PatternReadingAnswer{r.Readings[i], percent(p.Deviation), p.Even == finding.Within}
	}
}
