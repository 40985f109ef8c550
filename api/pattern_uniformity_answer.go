package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// PatternUniformityResponse is the answer.
type PatternUniformityResponse struct {
	MaxCoefficientOfVariation Quantity                 `json:"maxCoefficientOfVariation"`
	MaxPlaceDeviation         Quantity                 `json:"maxPlaceDeviation"`
	WithinTolerance           *bool                    `json:"withinTolerance,omitzero"`
	Mean                      Quantity                 `json:"mean,omitzero"`
	StandardDeviation         Quantity                 `json:"standardDeviation,omitzero"`
	CoefficientOfVariation    Quantity                 `json:"coefficientOfVariation,omitzero"`
	PlacesOutside             *int                     `json:"placesOutside,omitzero"`
	WorstPlace                *WorstPlaceResponse      `json:"worstPlace,omitzero"`
	Readings                  []PatternReadingResponse `json:"readings,omitzero"`
	Boom                      *BoomPatternResponse     `json:"boom,omitzero"`
	Spacings                  []SpacingResponse        `json:"spacings,omitzero"`
	BestSpacing               *SpacingResponse         `json:"bestSpacing,omitzero"`
	Warnings                  []warning                `json:"warnings,omitzero"`
	NextSteps                 []notice                 `json:"nextSteps,omitzero"`
	Cautions                  []notice                 `json:"cautions"`
	Explained
}

// WorstPlaceResponse is the cup farthest from the mean.
type WorstPlaceResponse struct {
	Index     int                `json:"index"`
	Label     string             `json:"label,omitzero"`
	Position  certainty.Position `json:"position,omitzero"`
	Distance  Quantity           `json:"distance,omitzero"`
	Deviation Quantity           `json:"deviation"`
}

// PatternReadingResponse repeats a reading and holds it against the mean.
type PatternReadingResponse struct {
	PatternReadingRequest
	Deviation       Quantity `json:"deviation"`
	WithinTolerance bool     `json:"withinTolerance"`
}

// BoomPatternResponse is the pattern overlapped to a boom.
type BoomPatternResponse struct {
	SpacingResponse
	HighestDeviation Quantity `json:"highestDeviation"`
	LowestDeviation  Quantity `json:"lowestDeviation"`
}

// SpacingResponse is how even a boom of one nozzle spacing is.
type SpacingResponse struct {
	NozzleSpacing          Quantity `json:"nozzleSpacing"`
	CoefficientOfVariation Quantity `json:"coefficientOfVariation"`
	WithinTolerance        bool     `json:"withinTolerance"`
}

var patternCautions = cautionsOf("clean_water", "protective_equipment", "running_machine", "pressure_injects", "local_rules")

func (r *PatternUniformityRequest) answer(ctx context.Context, x calc.PatternUniformityResult) PatternUniformityResponse {
	units := r.units()
	a := PatternUniformityResponse{
		MaxCoefficientOfVariation: percent(x.MaxCoefficientOfVariation),
		MaxPlaceDeviation:         percent(x.MaxPlaceDeviation),
		WithinTolerance:           within(x.Even),
		Warnings:                  warnings(ctx, x.Warnings),
		Cautions:                  patternCautions.in(ctx),
	}
	if x.Even != finding.NotJudged {
		r.rowAnswer(&a, x)
	}
	spacing := func(b calc.BoomPattern) SpacingResponse {
		return SpacingResponse{in(b.NozzleSpacing, units.width), percent(b.CoefficientOfVariation), b.Even == finding.Within}
	}
	if x.Boom.Even != finding.NotJudged {
		a.Boom = &BoomPatternResponse{spacing(x.Boom), percent(x.Boom.Highest), percent(x.Boom.Lowest)}
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
func (r *PatternUniformityRequest) rowAnswer(a *PatternUniformityResponse, x calc.PatternUniformityResult) {
	jug, worst := r.Readings[0].Volume.Unit, &r.Readings[x.Worst]
	a.Mean, a.StandardDeviation = in(x.Mean, jug), in(x.StandardDeviation, jug)
	a.CoefficientOfVariation = percent(x.CoefficientOfVariation)
	a.PlacesOutside = &x.PlacesOutside
	a.WorstPlace = &WorstPlaceResponse{
		Index: x.Worst, Label: worst.Label, Position: worst.Position, Deviation: percent(x.Places[x.Worst].Deviation),
	}
	if r.Spacing.given() {
		a.WorstPlace.Distance = in(x.WorstDistance, r.Spacing.Unit)
	}
	a.Readings = make([]PatternReadingResponse, len(x.Places))
	for i, p := range x.Places {
		a.Readings[i] = PatternReadingResponse{r.Readings[i], percent(p.Deviation), p.Even == finding.Within}
	}
}
