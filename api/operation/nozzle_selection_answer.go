package operation

import (
	"cmp"
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// NozzleSelectionAnswer is the answer of POST /v1/nozzle-selection.
type NozzleSelectionAnswer struct {
	TargetApplicationRate   wire.Quantity          `json:"targetApplicationRate"`
	GroundSpeed             wire.Quantity          `json:"groundSpeed"`
	SpeedRange              wire.Range             `json:"speedRange,omitzero"`
	SprayedWidthPerNozzle   wire.Quantity          `json:"sprayedWidthPerNozzle"`
	PressureRange           wire.Range             `json:"pressureRange"`
	RequiredNozzleFlowRate  wire.Quantity          `json:"requiredNozzleFlowRate"`
	RequiredNozzleFlowRates wire.Range             `json:"requiredNozzleFlowRates,omitzero"`
	WaterEquivalentFlowRate wire.Quantity          `json:"waterEquivalentFlowRate,omitzero"`
	TotalFlowRate           wire.Quantity          `json:"totalFlowRate,omitzero"`
	SizeRating              calc.SizeRating        `json:"sizeRating,omitzero"`
	Decision                calc.SelectionDecision `json:"decision"`
	Reason                  calc.SelectionReason   `json:"reason,omitzero"`
	DecisionDetail          string                 `json:"decisionDetail"`
	WouldFit                *WouldFitAnswer        `json:"wouldFit,omitzero"`
	Candidates              []CandidateAnswer      `json:"candidates"`
	Warnings                []Warning              `json:"warnings,omitzero"`
	Cautions                []Notice               `json:"cautions"`
	working.Explained
}

// CandidateAnswer is one nozzle and what it would do.
type CandidateAnswer struct {
	Size                calc.SizeName `json:"size,omitzero"`
	Color               string        `json:"color,omitzero"`
	Label               string        `json:"label,omitzero"`
	Pointer             string        `json:"pointer,omitzero"`
	RatedFlowRate       wire.Quantity `json:"ratedFlowRate"`
	RatedPressure       wire.Quantity `json:"ratedPressure"`
	SprayPressure       wire.Quantity `json:"sprayPressure"`
	SprayPressures      wire.Range    `json:"sprayPressures,omitzero"`
	PressureRange       wire.Range    `json:"pressureRange,omitzero"`
	WithinRange         bool          `json:"withinRange"`
	SpeedWindow         wire.Range    `json:"speedWindow,omitzero"`
	DropletClass        string        `json:"dropletClass"`
	DropletClassAllowed *bool         `json:"dropletClassAllowed,omitzero"`
	Fits                bool          `json:"fits"`
	Notes               []Notice      `json:"notes,omitzero"`
}

// WouldFitAnswer is the speed at which the nearest nozzle fits, and the pressure
// that it needs at the speed wanted.
type WouldFitAnswer struct {
	Size                calc.SizeName `json:"size,omitzero"`
	Label               string        `json:"label,omitzero"`
	Pointer             string        `json:"pointer,omitzero"`
	GroundSpeed         wire.Quantity `json:"groundSpeed"`
	SprayPressure       wire.Quantity `json:"sprayPressure"`
	NeededPressure      wire.Quantity `json:"neededPressure"`
	DropletClass        string        `json:"dropletClass"`
	DropletClassAllowed *bool         `json:"dropletClassAllowed,omitzero"`
	Detail              string        `json:"detail"`
}

func (r *NozzleSelectionRequest) answer(ctx context.Context, x calc.NozzleSelectionResult) NozzleSelectionAnswer {
	units, lang := r.units(), text.From(ctx)
	a := NozzleSelectionAnswer{
		TargetApplicationRate:  r.TargetApplicationRate,
		GroundSpeed:            r.GroundSpeed.Or(wire.In(x.GroundSpeed, units.speed)),
		SpeedRange:             r.SpeedRange,
		SprayedWidthPerNozzle:  r.SprayedWidthPerNozzle.Or(wire.In(x.SprayedWidthPerNozzle, units.width)),
		PressureRange:          r.PressureRange,
		RequiredNozzleFlowRate: wire.In(x.RequiredNozzleFlowRate, units.flow),
		Decision:               x.Decision,
		Reason:                 x.Reason,
		DecisionDetail:         selectionDetail(lang, &x),
		Candidates:             make([]CandidateAnswer, len(x.Candidates)),
		Warnings:               warnings(ctx, x.Warnings),
	}
	if !r.SpeedRange.IsZero() {
		q := x.RequiredNozzleFlowRates
		a.RequiredNozzleFlowRates = wire.Range{Low: wire.In(q.Low, units.flow), High: wire.In(q.High, units.flow)}
	}
	if x.WaterEquivalentFlowRate != 0 {
		a.WaterEquivalentFlowRate = wire.In(x.WaterEquivalentFlowRate, units.flow)
	}
	if x.TotalFlowRate != 0 {
		a.TotalFlowRate = wire.In(x.TotalFlowRate, units.flow)
	}
	if len(r.Shelf) == 0 {
		a.SizeRating = cmp.Or(r.SizeRating, calc.ISO3Bar)
	}
	a.Cautions = cautions(ctx, selectionCautions(len(r.Shelf) == 0, len(r.DropletChart) > 0)...)
	for i := range x.Candidates {
		a.Candidates[i] = r.candidate(lang, &x.Candidates[i], units)
	}
	if w := x.WouldFit; w != nil {
		nearest := &a.Candidates[0]
		key, fit := "selection.would_fit", &WouldFitAnswer{
			Size: nearest.Size, Label: nearest.Label, Pointer: nearest.Pointer,
			GroundSpeed: wire.In(w.GroundSpeed, units.speed), SprayPressure: wire.In(w.SprayPressure, units.pressure), NeededPressure: wire.In(w.NeededPressure, units.pressure),
			DropletClass: dropletClassWord(w.DropletClass), DropletClassAllowed: within(w.Droplets),
		}
		if !r.SpeedRange.IsZero() {
			key = "selection.would_fit_range"
		}
		fit.Detail = text.Of(lang, key, inWords(lang, fit.GroundSpeed), inWords(lang, fit.SprayPressure), inWords(lang, fit.NeededPressure))
		a.WouldFit = fit
	}
	return a
}

func selectionDetail(lang text.Language, x *calc.NozzleSelectionResult) string {
	if x.Decision == calc.NoneFits {
		return text.Coded(lang, "none_fits", string(x.Reason))
	}
	return text.Coded(lang, "selection", string(x.Decision))
}

func (r *NozzleSelectionRequest) candidate(lang text.Language, c *calc.Candidate, units *resultUnits) CandidateAnswer {
	a := CandidateAnswer{
		SprayPressure:       wire.In(c.SprayPressure, units.pressure),
		WithinRange:         c.WithinRange,
		DropletClass:        dropletClassWord(c.DropletClass),
		DropletClassAllowed: within(c.Droplets),
		Fits:                c.Fits,
	}
	if c.Shelf >= 0 {
		s := &r.Shelf[c.Shelf]
		a.Label, a.Pointer = s.Label, wire.Pointer(finding.Item("shelf", c.Shelf))
		a.RatedFlowRate, a.RatedPressure = s.RatedFlowRate, s.RatedPressure
	} else {
		rated := (&NozzleRequest{Size: c.Size, SizeRating: r.SizeRating}).answer(0)
		a.Size, a.Color = c.Size, colorOf(c.Size)
		a.RatedFlowRate, a.RatedPressure = rated.RatedFlowRate, rated.RatedPressure
	}
	if !r.SpeedRange.IsZero() {
		a.SprayPressures = pressures(c.SprayPressures, units.pressure)
	}
	if c.PressureRange != (calc.PressureRange{}) {
		a.SpeedWindow = wire.Range{Low: wire.In(c.SpeedWindow.Low, units.speed), High: wire.In(c.SpeedWindow.High, units.speed)}
		a.PressureRange = r.PressureRange
		if c.PressureRange != pressureRange(r.PressureRange) {
			a.PressureRange = pressures(c.PressureRange, units.pressure)
		}
	}
	for _, code := range c.Notes {
		a.Notes = append(a.Notes, Notice{code, text.Of(lang, "note."+code)})
	}
	return a
}

func pressures(r calc.PressureRange, u unit.ID) wire.Range {
	return wire.Range{Low: wire.In(r.Low, u), High: wire.In(r.High, u)}
}
