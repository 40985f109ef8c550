package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// PatternUniformityRequest is the body of POST /v1/pattern-uniformity.
type PatternUniformityRequest struct {
	Readings                  []PatternReadingRequest `json:"readings,omitzero"`
	Spacing                   Quantity                `json:"spacing,omitzero"`
	NozzlePattern             NozzlePatternRequest    `json:"nozzlePattern,omitzero"`
	NozzleSpacing             Quantity                `json:"nozzleSpacing,omitzero"`
	SpacingRange              SpacingRangeRequest     `json:"spacingRange,omitzero"`
	MaxCoefficientOfVariation Quantity                `json:"maxCoefficientOfVariation" validate:"required"`
	MaxPlaceDeviation         Quantity                `json:"maxPlaceDeviation" validate:"required"`
	Results
}

// PatternReadingRequest is what one cup of a row under the boom caught.
type PatternReadingRequest struct {
	Label    string   `json:"label,omitzero"`
	Position string   `json:"position,omitzero"`
	Volume   Quantity `json:"volume"`
}

// NozzlePatternRequest is what one nozzle alone gave into a row of cups.
type NozzlePatternRequest struct {
	CupSpacing Quantity   `json:"cupSpacing"`
	Volumes    []Quantity `json:"volumes"`
}

// SpacingRangeRequest asks for a table of nozzle spacings.
type SpacingRangeRequest struct {
	Low   Quantity `json:"low"`
	High  Quantity `json:"high"`
	Steps int      `json:"steps"`
}

// How much one request may hold. The two of one pattern bound its work, which
// goes with cups x cups x steps.
const (
	mostCups    = 1000
	mostPattern = 200
	mostSteps   = 100
)

var patternReadingTable = objectOf(
	label("label", func(r *PatternReadingRequest) *string { return &r.Label }, longestLabel),
	oneOf("position", func(r *PatternReadingRequest) *string { return &r.Position }, positions...),
	require(amount("volume", func(r *PatternReadingRequest) *Quantity { return &r.Volume }, unit.KindVolume)),
)

var nozzlePatternTable = objectOf(
	require(quantity("cupSpacing", func(p *NozzlePatternRequest) *Quantity { return &p.CupSpacing }, unit.KindLength)),
	require(amounts("volumes", func(p *NozzlePatternRequest) *[]Quantity { return &p.Volumes }, 2, mostPattern, unit.KindVolume)),
)

var spacingRangeTable = objectOf(
	require(quantity("low", func(r *SpacingRangeRequest) *Quantity { return &r.Low }, unit.KindLength)),
	require(quantity("high", func(r *SpacingRangeRequest) *Quantity { return &r.High }, unit.KindLength)),
	require(count("steps", func(r *SpacingRangeRequest) *int { return &r.Steps }, 2, mostSteps)),
)

var patternUniformityTable = objectOf(
	list("readings", func(r *PatternUniformityRequest) *[]PatternReadingRequest { return &r.Readings }, 2, mostCups, patternReadingTable),
	quantity("spacing", func(r *PatternUniformityRequest) *Quantity { return &r.Spacing }, unit.KindLength),
	nested("nozzlePattern", func(r *PatternUniformityRequest) *NozzlePatternRequest { return &r.NozzlePattern }, nozzlePatternTable),
	quantity("nozzleSpacing", func(r *PatternUniformityRequest) *Quantity { return &r.NozzleSpacing }, unit.KindLength),
	nested("spacingRange", func(r *PatternUniformityRequest) *SpacingRangeRequest { return &r.SpacingRange }, spacingRangeTable),
	quantity("maxCoefficientOfVariation", func(r *PatternUniformityRequest) *Quantity { return &r.MaxCoefficientOfVariation }, unit.KindRatio),
	quantity("maxPlaceDeviation", func(r *PatternUniformityRequest) *Quantity { return &r.MaxPlaceDeviation }, unit.KindRatio),
	results(func(r *PatternUniformityRequest) *Results { return &r.Results }),
	showing(func(r *PatternUniformityRequest) *Showing { return &r.Showing }),
)

func patternUniformity(ctx context.Context, r *PatternUniformityRequest) (PatternUniformityResponse, error) {
	result, err := calc.PatternUniformity(r.input())
	if err != nil {
		return PatternUniformityResponse{}, err
	}
	a := r.answer(ctx, result)
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *PatternUniformityRequest) input() calc.PatternUniformityInput {
	in := calc.PatternUniformityInput{
		Readings:      make([]calc.PatternReading, len(r.Readings)),
		Spacing:       unit.Length(r.Spacing.si()),
		NozzlePattern: calc.NozzlePattern{CupSpacing: unit.Length(r.NozzlePattern.CupSpacing.si())},
		NozzleSpacing: unit.Length(r.NozzleSpacing.si()),
		SpacingRange: calc.SpacingRange{
			Low: unit.Length(r.SpacingRange.Low.si()), High: unit.Length(r.SpacingRange.High.si()), Steps: r.SpacingRange.Steps,
		},
		MaxCoefficientOfVariation: unit.Ratio(r.MaxCoefficientOfVariation.si()),
		MaxPlaceDeviation:         unit.Ratio(r.MaxPlaceDeviation.si()),
	}
	for i, x := range r.Readings {
		in.Readings[i].Volume = unit.Volume(x.Volume.si())
	}
	for _, v := range r.NozzlePattern.Volumes {
		in.NozzlePattern.Volumes = append(in.NozzlePattern.Volumes, unit.Volume(v.si()))
	}
	return in
}
