package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PressureUniformityRequest is the body of POST /v1/pressure-uniformity.
type PressureUniformityRequest struct {
	MeasuringRequest
	Readings       []ReadingRequest `json:"readings" validate:"required" len:"1..100"`
	CabPressure    wire.Quantity    `json:"cabPressure,omitzero" is:"pressure"`
	TargetPressure wire.Quantity    `json:"targetPressure,omitzero" is:"pressure"`
	MaxDifference  wire.Quantity    `json:"maxDifference,omitzero" is:"pressure,ratio"`
	PressureRange  wire.Range       `json:"pressureRange,omitzero" is:"pressure"`
	Results
}

// ReadingRequest is one gauge reading at the boom.
type ReadingRequest struct {
	Label    string             `json:"label,omitzero"`
	Position certainty.Position `json:"position,omitzero"`
	Pressure wire.Quantity      `json:"pressure" validate:"required" is:"pressure"`
	Gauge    string             `json:"gauge,omitzero"`
}

// PressureUniformityAnswer is the answer of POST /v1/pressure-uniformity.
type PressureUniformityAnswer struct {
	Highest         wire.Quantity `json:"highest"`
	Lowest          wire.Quantity `json:"lowest"`
	Mean            wire.Quantity `json:"mean"`
	Spread          wire.Quantity `json:"spread"`
	MaxDifference   wire.Quantity `json:"maxDifference"`
	WithinTolerance *bool         `json:"withinTolerance,omitzero"`
	working.ConformanceAnswer
	Uncertainty               *PressureUncertainty       `json:"uncertainty,omitzero"`
	FlowSpread                wire.Quantity              `json:"flowSpread"`
	FlowSpreadAtMaxDifference wire.Quantity              `json:"flowSpreadAtMaxDifference,omitzero"`
	CabOffset                 wire.Quantity              `json:"cabOffset,omitzero"`
	CabPressureForTarget      CabPressureForTargetAnswer `json:"cabPressureForTarget,omitzero"`
	Readings                  []ReadingAnswer            `json:"readings"`
	MeanWithinRange           *bool                      `json:"meanWithinRange,omitzero"`
	MeanConformance           *working.ConformanceAnswer `json:"meanConformance,omitzero"`
	Warnings                  []Warning                  `json:"warnings,omitzero"`
	NextSteps                 []Notice                   `json:"nextSteps,omitzero"`
	Cautions                  []Notice                   `json:"cautions"`
	working.Explained
}

// CabPressureForTargetAnswer is the cab reading that means the target, by either
// explanation of the offset.
type CabPressureForTargetAnswer struct {
	IfGaugeError wire.Quantity `json:"ifGaugeError,omitzero"`
	IfHoseLoss   wire.Quantity `json:"ifHoseLoss"`
}

// ReadingAnswer repeats a reading and holds it against the nozzle's range.
type ReadingAnswer struct {
	ReadingRequest
	WithinRange *bool               `json:"withinRange,omitzero"`
	Uncertainty *ReadingUncertainty `json:"uncertainty,omitzero"`
}

// ReadingUncertainty is how well one reading is known, by its gauge.
type ReadingUncertainty struct {
	Pressure working.UncertaintyAnswer `json:"pressure"`
}

// PressureUncertainty is how well the members of its names are known.
type PressureUncertainty struct {
	Mean       working.UncertaintyAnswer `json:"mean"`
	Spread     working.UncertaintyAnswer `json:"spread,omitzero"`
	FlowSpread working.UncertaintyAnswer `json:"flowSpread,omitzero"`
	CabOffset  working.UncertaintyAnswer `json:"cabOffset,omitzero"`
}

func pressureUniformity(ctx context.Context, r *PressureUniformityRequest) (PressureUniformityAnswer, error) {
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return PressureUniformityAnswer{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.PressureUniformity(in)
	if err != nil {
		return PressureUniformityAnswer{}, err
	}
	a := pressureUniformityAnswer(ctx, r, result)
	a.Warnings = append(a.Warnings, doubtful(ctx, "pressure", calc.FieldSheetInput{Pressure: in}, calc.FieldSheetResult{Pressure: &result}, func() *CalibrationsRequest {
		return &CalibrationsRequest{Pressure: PressureRequest{Readings: r.Readings, CabPressure: r.CabPressure, TargetPressure: r.TargetPressure}}
	})...)
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *PressureUniformityRequest) input() calc.PressureUniformityInput {
	readings := make([]unit.Pressure, len(r.Readings))
	var gauges []string
	var positions []certainty.Position
	for i, x := range r.Readings {
		if x.Position != "" && positions == nil {
			positions = make([]certainty.Position, len(r.Readings))
		}
		if positions != nil {
			positions[i] = x.Position
		}
		readings[i] = unit.Pressure(x.Pressure.SI())
		if x.Gauge != "" && gauges == nil {
			gauges = make([]string, len(r.Readings))
		}
		if gauges != nil {
			gauges[i] = x.Gauge
		}
	}
	in := calc.PressureUniformityInput{
		Readings:       readings,
		Gauges:         gauges,
		Positions:      positions,
		CabPressure:    unit.Pressure(r.CabPressure.SI()),
		TargetPressure: unit.Pressure(r.TargetPressure.SI()),
		PressureRange:  pressureRange(r.PressureRange),
	}
	if r.byShare() {
		in.MaxShare = unit.Ratio(r.MaxDifference.SI())
	} else {
		in.MaxDifference = unit.Pressure(r.MaxDifference.SI())
	}
	return in
}

// byShare tells that the largest difference is a share of the mean.
func (r *PressureUniformityRequest) byShare() bool {
	return r.MaxDifference.Given() && r.MaxDifference.Unit.Kind() == unit.KindRatio
}

func pressureUniformityAnswer(ctx context.Context, r *PressureUniformityRequest, result calc.PressureUniformityResult) PressureUniformityAnswer {
	units := r.units()
	a := PressureUniformityAnswer{
		Highest:         wire.In(result.Highest, units.pressure),
		Lowest:          wire.In(result.Lowest, units.pressure),
		Mean:            wire.In(result.Mean, units.pressure),
		Spread:          wire.In(result.Spread, units.pressure),
		MaxDifference:   wire.In(result.MaxDifference, units.pressure),
		WithinTolerance: within(result.Even),
		FlowSpread:      percent(result.FlowSpread),
		Readings:        make([]ReadingAnswer, len(r.Readings)),
		MeanWithinRange: within(result.MeanInRange),
		Warnings:        warnings(ctx, result.Warnings),
		NextSteps:       nextSteps(ctx, pressureSteps(result)...),
		Cautions:        catchCautions.in(ctx),
	}
	// A flow spread of nothing is still one, where the difference is one that the
	// mean can have.
	if result.MaxDifference < 2*result.Mean {
		a.FlowSpreadAtMaxDifference = percent(result.FlowAtMaxDifference)
	}
	if result.HasCab {
		a.CabOffset = wire.In(result.CabOffset, units.pressure)
	}
	if result.CabIfHoseLoss != 0 {
		a.CabPressureForTarget.IfHoseLoss = wire.In(result.CabIfHoseLoss, units.pressure)
	}
	if result.CabIfGaugeError != 0 {
		a.CabPressureForTarget.IfGaugeError = wire.In(result.CabIfGaugeError, units.pressure)
	}
	for i, x := range r.Readings {
		a.Readings[i].ReadingRequest = x
		if result.ReadingInRange != nil {
			a.Readings[i].WithinRange = within(result.ReadingInRange[i])
		}
	}
	if u := result.Uncertainty; u != nil {
		a.ConformanceAnswer = conformance(ctx, u.Even)
		a.Uncertainty = &PressureUncertainty{
			working.UncertaintyIn(&u.Mean, units.pressure), working.UncertaintyIn(&u.Spread, units.pressure), working.UncertaintyIn(&u.FlowSpread, unit.IDPct), working.UncertaintyIn(&u.CabOffset, units.pressure),
		}
		if result.MeanInRange != finding.NotJudged {
			mean := conformance(ctx, u.MeanInRange)
			a.MeanConformance = &mean
		}
		for i := range u.Readings {
			a.Readings[i].Uncertainty = &ReadingUncertainty{working.UncertaintyIn(&u.Readings[i], units.pressure)}
		}
	}
	return a
}

// pressureSteps are the codes of what to do about an uneven boom and about a cab
// gauge that shows something else.
func pressureSteps(result calc.PressureUniformityResult) (codes []string) {
	if result.Even == finding.Outside {
		codes = append(codes, "repair_boom")
	}
	if result.CabDiffers == finding.Outside {
		codes = append(codes, "check_cab_gauge")
	}
	return codes
}
