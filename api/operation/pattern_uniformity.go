package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// PatternUniformityRequest is the body of POST /v1/pattern-uniformity.
type PatternUniformityRequest struct {
	Readings                  []PatternReadingRequest `json:"readings,omitzero" len:"2..1000"`
	Spacing                   wire.Quantity           `json:"spacing,omitzero" is:"length"`
	NozzlePattern             NozzlePatternRequest    `json:"nozzlePattern,omitzero"`
	NozzleSpacing             wire.Quantity           `json:"nozzleSpacing,omitzero" is:"length"`
	SpacingRange              SpacingRangeRequest     `json:"spacingRange,omitzero"`
	MaxCoefficientOfVariation wire.Quantity           `json:"maxCoefficientOfVariation" validate:"required" is:"ratio"`
	MaxPlaceDeviation         wire.Quantity           `json:"maxPlaceDeviation" validate:"required" is:"ratio"`
	Results
}

// PatternReadingRequest is what one cup of a row under the boom caught.
type PatternReadingRequest struct {
	Label    string             `json:"label,omitzero"`
	Position certainty.Position `json:"position,omitzero"`
	Volume   wire.Quantity      `json:"volume" validate:"required" is:"volume" zero:"true"`
}

// NozzlePatternRequest is what one nozzle alone gave into a row of cups.
type NozzlePatternRequest struct {
	CupSpacing wire.Quantity   `json:"cupSpacing" validate:"required" is:"length"`
	Volumes    []wire.Quantity `json:"volumes" validate:"required" is:"volume" zero:"true" len:"2..200"`
}

// SpacingRangeRequest asks for a table of nozzle spacings.
type SpacingRangeRequest struct {
	Low   wire.Quantity `json:"low" validate:"required" is:"length"`
	High  wire.Quantity `json:"high" validate:"required" is:"length"`
	Steps int           `json:"steps" validate:"required" range:"2..100"`
}

func patternUniformity(ctx context.Context, r *PatternUniformityRequest) (PatternUniformityAnswer, error) {
	result, err := calc.PatternUniformity(r.input())
	if err != nil {
		return PatternUniformityAnswer{}, err
	}
	a := r.answer(ctx, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *PatternUniformityRequest) input() calc.PatternUniformityInput {
	in := calc.PatternUniformityInput{
		Readings:      make([]calc.PatternReading, len(r.Readings)),
		Spacing:       unit.Length(r.Spacing.SI()),
		NozzlePattern: calc.NozzlePattern{CupSpacing: unit.Length(r.NozzlePattern.CupSpacing.SI())},
		NozzleSpacing: unit.Length(r.NozzleSpacing.SI()),
		SpacingRange: calc.SpacingRange{
			Low: unit.Length(r.SpacingRange.Low.SI()), High: unit.Length(r.SpacingRange.High.SI()), Steps: r.SpacingRange.Steps,
		},
		MaxCoefficientOfVariation: unit.Ratio(r.MaxCoefficientOfVariation.SI()),
		MaxPlaceDeviation:         unit.Ratio(r.MaxPlaceDeviation.SI()),
	}
	for i, x := range r.Readings {
		in.Readings[i].Volume = unit.Volume(x.Volume.SI())
	}
	for _, v := range r.NozzlePattern.Volumes {
		in.NozzlePattern.Volumes = append(in.NozzlePattern.Volumes, unit.Volume(v.SI()))
	}
	return in
}
