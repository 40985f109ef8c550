package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// NozzleFlowRequest is the body of POST /v1/nozzle-flow.
type NozzleFlowRequest struct {
	MeasuringRequest
	Gauge         string              `json:"gauge,omitzero"`
	Catches       []CatchRequest      `json:"catches" validate:"required" len:"1..1000"`
	SprayPressure Quantity            `json:"sprayPressure,omitzero" is:"pressure"`
	PredictAt     []PredictionRequest `json:"predictAt,omitzero" len:"0..100"`
	Results
}

// PredictionRequest is a condition under which the flow of one nozzle is wanted.
type PredictionRequest struct {
	SprayPressure   Quantity `json:"sprayPressure,omitzero" is:"pressure"`
	RelativeDensity Quantity `json:"relativeDensity,omitzero" is:"ratio"`
	LiquidDensity   Quantity `json:"liquidDensity,omitzero" is:"density"`
}

// NozzleFlowAnswer is the answer.
type NozzleFlowAnswer struct {
	Catches            []CatchFlowAnswer      `json:"catches"`
	MeanNozzleFlowRate Quantity               `json:"meanNozzleFlowRate"`
	PressureExponent   PressureExponentAnswer `json:"pressureExponent"`
	Predicted          []PredictedAnswer      `json:"predicted,omitzero"`
	Uncertainty        *MeanFlowUncertainty   `json:"uncertainty,omitzero"`
	Warnings           []warning              `json:"warnings,omitzero"`
	Cautions           []notice               `json:"cautions"`
	Explained
}

// CatchFlowAnswer is the flow of one catch.
type CatchFlowAnswer struct {
	Label          string           `json:"label,omitzero"`
	FlowRate       Quantity         `json:"flowRate"`
	NozzleFlowRate Quantity         `json:"nozzleFlowRate"`
	Uncertainty    *FlowUncertainty `json:"uncertainty,omitzero"`
}

// PressureExponentAnswer is the n of q = k p^n, and where it is from.
type PressureExponentAnswer struct {
	Value  Number `json:"value"`
	Source string `json:"source"`
}

// PredictedAnswer repeats a condition and says what a nozzle gives then.
type PredictedAnswer struct {
	PredictionRequest
	NozzleFlowRate Quantity         `json:"nozzleFlowRate"`
	Uncertainty    *FlowUncertainty `json:"uncertainty,omitzero"`
}

// FlowUncertainty is how well the flow of one nozzle is known.
type FlowUncertainty struct {
	NozzleFlowRate UncertaintyAnswer `json:"nozzleFlowRate"`
}

// MeanFlowUncertainty is how well the mean is known.
type MeanFlowUncertainty struct {
	MeanNozzleFlowRate UncertaintyAnswer `json:"meanNozzleFlowRate"`
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
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *NozzleFlowRequest) input() calc.NozzleFlowInput {
	in := calc.NozzleFlowInput{
		Catches:       make([]calc.Catch, len(r.Catches)),
		SprayPressure: unit.Pressure(r.SprayPressure.si()),
		Gauge:         r.Gauge,
		PredictAt:     make([]calc.Prediction, len(r.PredictAt)),
	}
	for i := range r.Catches {
		in.Catches[i] = r.Catches[i].input()
	}
	for i, p := range r.PredictAt {
		in.PredictAt[i] = calc.Prediction{
			SprayPressure:   unit.Pressure(p.SprayPressure.si()),
			RelativeDensity: unit.Ratio(p.RelativeDensity.si()),
			LiquidDensity:   unit.Density(p.LiquidDensity.si()),
		}
	}
	return in
}

var flowCautions = cautionsOf("clean_water", "protective_equipment", "running_machine", "pressure_injects")

func nozzleFlowAnswer(ctx context.Context, r *NozzleFlowRequest, result calc.NozzleFlowResult) NozzleFlowAnswer {
	units := r.units()
	a := NozzleFlowAnswer{
		Catches:            make([]CatchFlowAnswer, len(r.Catches)),
		MeanNozzleFlowRate: in(result.MeanNozzleFlowRate, units.flow),
		PressureExponent:   PressureExponentAnswer{Number(result.Exponent), "square_root_law"},
		Warnings:           warnings(ctx, result.Warnings),
		Cautions:           flowCautions.in(ctx),
	}
	if result.ExponentFitted {
		a.PressureExponent.Source = "fitted"
	}
	for i, q := range result.FlowRates {
		a.Catches[i] = CatchFlowAnswer{
			Label:          r.Catches[i].Label,
			FlowRate:       in(q, units.flow),
			NozzleFlowRate: in(result.NozzleFlowRates[i], units.flow),
		}
	}
	for i, q := range result.Predicted {
		a.Predicted = append(a.Predicted, PredictedAnswer{PredictionRequest: r.PredictAt[i], NozzleFlowRate: in(q, units.flow)})
	}
	if u := result.Uncertainty; u != nil {
		a.Uncertainty = &MeanFlowUncertainty{uncertain(&u.MeanNozzleFlowRate, units.flow)}
		for i := range u.NozzleFlowRates {
			a.Catches[i].Uncertainty = &FlowUncertainty{uncertain(&u.NozzleFlowRates[i], units.flow)}
		}
		for i := range u.Predicted {
			a.Predicted[i].Uncertainty = &FlowUncertainty{uncertain(&u.Predicted[i], units.flow)}
		}
	}
	return a
}
