package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// NozzleFlowRequest is the body of POST /v1/nozzle-flow.
type NozzleFlowRequest struct {
	MeasuringRequest
	Gauge         string              `json:"gauge,omitzero"`
	Catches       []CatchRequest      `json:"catches" validate:"required" len:"1..1000"`
	SprayPressure wire.Quantity       `json:"sprayPressure,omitzero" is:"pressure"`
	PredictAt     []PredictionRequest `json:"predictAt,omitzero" len:"0..100"`
	Results
}

// PredictionRequest is a condition under which the flow of one nozzle is wanted.
type PredictionRequest struct {
	SprayPressure   wire.Quantity `json:"sprayPressure,omitzero" is:"pressure"`
	RelativeDensity wire.Quantity `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity   wire.Quantity `json:"liquidDensity,omitzero" is:"density"`
}

// NozzleFlowAnswer is the answer of POST /v1/nozzle-flow.
type NozzleFlowAnswer struct {
	Catches            []CatchFlowAnswer      `json:"catches"`
	MeanNozzleFlowRate wire.Quantity          `json:"meanNozzleFlowRate"`
	PressureExponent   PressureExponentAnswer `json:"pressureExponent"`
	Predicted          []PredictedAnswer      `json:"predicted,omitzero"`
	Uncertainty        *MeanFlowUncertainty   `json:"uncertainty,omitzero"`
	Warnings           []Warning              `json:"warnings,omitzero"`
	Cautions           []Notice               `json:"cautions"`
	working.Explained
}

// CatchFlowAnswer is the flow of one catch.
type CatchFlowAnswer struct {
	Label          string           `json:"label,omitzero"`
	FlowRate       wire.Quantity    `json:"flowRate"`
	NozzleFlowRate wire.Quantity    `json:"nozzleFlowRate"`
	Uncertainty    *FlowUncertainty `json:"uncertainty,omitzero"`
}

// PressureExponentAnswer is the n of q = k p^n, and where it is from.
type PressureExponentAnswer struct {
	Value  wire.Number `json:"value"`
	Source string      `json:"source"`
}

// PredictedAnswer repeats a condition and says what a nozzle gives then.
type PredictedAnswer struct {
	PredictionRequest
	NozzleFlowRate wire.Quantity    `json:"nozzleFlowRate"`
	Uncertainty    *FlowUncertainty `json:"uncertainty,omitzero"`
}

// FlowUncertainty is how well the flow of one nozzle is known.
type FlowUncertainty struct {
	NozzleFlowRate working.UncertaintyAnswer `json:"nozzleFlowRate"`
}

// MeanFlowUncertainty is how well the mean is known.
type MeanFlowUncertainty struct {
	MeanNozzleFlowRate working.UncertaintyAnswer `json:"meanNozzleFlowRate"`
}

func nozzleFlow(ctx context.Context, r *NozzleFlowRequest) (NozzleFlowAnswer, error) {
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return NozzleFlowAnswer{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.NozzleFlow(in)
	if err != nil {
		return NozzleFlowAnswer{}, err
	}
	a := nozzleFlowAnswer(ctx, r, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *NozzleFlowRequest) input() calc.NozzleFlowInput {
	in := calc.NozzleFlowInput{
		Catches:       make([]calc.Catch, len(r.Catches)),
		SprayPressure: unit.Pressure(r.SprayPressure.SI()),
		Gauge:         r.Gauge,
		PredictAt:     make([]calc.Prediction, len(r.PredictAt)),
	}
	for i := range r.Catches {
		in.Catches[i] = r.Catches[i].input()
	}
	for i, p := range r.PredictAt {
		in.PredictAt[i] = calc.Prediction{
			SprayPressure:   unit.Pressure(p.SprayPressure.SI()),
			RelativeDensity: unit.Ratio(p.RelativeDensity.SI()),
			LiquidDensity:   unit.Density(p.LiquidDensity.SI()),
		}
	}
	return in
}

func nozzleFlowAnswer(ctx context.Context, r *NozzleFlowRequest, result calc.NozzleFlowResult) NozzleFlowAnswer {
	units := r.units()
	a := NozzleFlowAnswer{
		Catches:            make([]CatchFlowAnswer, len(r.Catches)),
		MeanNozzleFlowRate: wire.In(result.MeanNozzleFlowRate, units.flow),
		PressureExponent:   PressureExponentAnswer{wire.Number(result.Exponent), "square_root_law"},
		Warnings:           warnings(ctx, result.Warnings),
		Cautions:           catchCautions.in(ctx),
	}
	if result.ExponentFitted {
		a.PressureExponent.Source = "fitted"
	}
	for i, q := range result.FlowRates {
		a.Catches[i] = CatchFlowAnswer{
			Label:          r.Catches[i].Label,
			FlowRate:       wire.In(q, units.flow),
			NozzleFlowRate: wire.In(result.NozzleFlowRates[i], units.flow),
		}
	}
	for i, q := range result.Predicted {
		a.Predicted = append(a.Predicted, PredictedAnswer{PredictionRequest: r.PredictAt[i], NozzleFlowRate: wire.In(q, units.flow)})
	}
	if u := result.Uncertainty; u != nil {
		a.Uncertainty = &MeanFlowUncertainty{working.UncertaintyIn(&u.MeanNozzleFlowRate, units.flow)}
		for i := range u.NozzleFlowRates {
			a.Catches[i].Uncertainty = &FlowUncertainty{working.UncertaintyIn(&u.NozzleFlowRates[i], units.flow)}
		}
		for i := range u.Predicted {
			a.Predicted[i].Uncertainty = &FlowUncertainty{working.UncertaintyIn(&u.Predicted[i], units.flow)}
		}
	}
	return a
}
