package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PressureUniformityRequest is the body of POST /v1/pressure-uniformity.
type PressureUniformityRequest struct {
	MeasuringRequest
	Readings       []ReadingRequest `json:"readings" validate:"required" len:"1..100"`
	CabPressure    Quantity         `json:"cabPressure,omitzero" is:"pressure"`
	TargetPressure Quantity         `json:"targetPressure,omitzero" is:"pressure"`
	MaxDifference  Quantity         `json:"maxDifference,omitzero" is:"pressure"`
	PressureRange  Range            `json:"pressureRange,omitzero" is:"pressure"`
	Results
}

// ReadingRequest is one gauge reading at the boom.
type ReadingRequest struct {
	Label    string             `json:"label,omitzero"`
	Position certainty.Position `json:"position,omitzero"`
	Pressure Quantity           `json:"pressure" validate:"required" is:"pressure"`
	Gauge    string             `json:"gauge,omitzero"`
}

// PressureUniformityAnswer is the answer.
type PressureUniformityAnswer struct {
	Highest         Quantity `json:"highest"`
	Lowest          Quantity `json:"lowest"`
	Mean            Quantity `json:"mean"`
	Spread          Quantity `json:"spread"`
	MaxDifference   Quantity `json:"maxDifference"`
	WithinTolerance *bool    `json:"withinTolerance,omitzero"`
	ConformanceAnswer
	Uncertainty               *PressureUncertainty       `json:"uncertainty,omitzero"`
	FlowSpread                Quantity                   `json:"flowSpread"`
	FlowSpreadAtMaxDifference Quantity                   `json:"flowSpreadAtMaxDifference,omitzero"`
	CabOffset                 Quantity                   `json:"cabOffset,omitzero"`
	CabPressureForTarget      CabPressureForTargetAnswer `json:"cabPressureForTarget,omitzero"`
	Readings                  []ReadingAnswer            `json:"readings"`
	MeanWithinRange           *bool                      `json:"meanWithinRange,omitzero"`
	MeanConformance           *ConformanceAnswer         `json:"meanConformance,omitzero"`
	Warnings                  []warning                  `json:"warnings,omitzero"`
	NextSteps                 []notice                   `json:"nextSteps,omitzero"`
	Cautions                  []notice                   `json:"cautions"`
	Explained
}

// CabPressureForTargetAnswer is the cab reading that means the target, by either
// explanation of the offset.
type CabPressureForTargetAnswer struct {
	IfGaugeError Quantity `json:"ifGaugeError,omitzero"`
	IfHoseLoss   Quantity `json:"ifHoseLoss"`
}

// ReadingAnswer repeats a reading and holds it against the nozzle's range.
type ReadingAnswer struct {
	ReadingRequest
	WithinRange *bool               `json:"withinRange,omitzero"`
	Uncertainty *ReadingUncertainty `json:"uncertainty,omitzero"`
}

// ReadingUncertainty is how well one reading is known, by its gauge.
type ReadingUncertainty struct {
	Pressure UncertaintyAnswer `json:"pressure"`
}

// PressureUncertainty is how well the members of its names are known.
type PressureUncertainty struct {
	Mean       UncertaintyAnswer `json:"mean"`
	Spread     UncertaintyAnswer `json:"spread,omitzero"`
	FlowSpread UncertaintyAnswer `json:"flowSpread,omitzero"`
	CabOffset  UncertaintyAnswer `json:"cabOffset,omitzero"`
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
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *PressureUniformityRequest) input() calc.PressureUniformityInput {
	readings := make([]unit.Pressure, len(r.Readings))
	var gauges []string
	for i, x := range r.Readings {
		readings[i] = unit.Pressure(x.Pressure.si())
		if x.Gauge != "" && gauges == nil {
			gauges = make([]string, len(r.Readings))
		}
		if gauges != nil {
			gauges[i] = x.Gauge
		}
	}
	return calc.PressureUniformityInput{
		Readings:       readings,
		Gauges:         gauges,
		MaxDifference:  unit.Pressure(r.MaxDifference.si()),
		CabPressure:    unit.Pressure(r.CabPressure.si()),
		TargetPressure: unit.Pressure(r.TargetPressure.si()),
		PressureRange:  pressureRange(r.PressureRange),
	}
}

var pressureCautions = cautionsOf("pressure_injects", "running_machine", "clean_water", "protective_equipment", "local_rules")

func pressureUniformityAnswer(ctx context.Context, r *PressureUniformityRequest, result calc.PressureUniformityResult) PressureUniformityAnswer {
	units := r.units()
	a := PressureUniformityAnswer{
		Highest:         in(result.Highest, units.pressure),
		Lowest:          in(result.Lowest, units.pressure),
		Mean:            in(result.Mean, units.pressure),
		Spread:          in(result.Spread, units.pressure),
		MaxDifference:   in(result.MaxDifference, units.pressure),
		WithinTolerance: within(result.Even),
		FlowSpread:      percent(result.FlowSpread),
		Readings:        make([]ReadingAnswer, len(r.Readings)),
		MeanWithinRange: within(result.MeanInRange),
		Warnings:        warnings(ctx, result.Warnings),
		NextSteps:       nextSteps(ctx, pressureSteps(result)...),
		Cautions:        pressureCautions.in(ctx),
	}
	// A flow spread of nothing is still one, where the difference is one that the
	// mean can have.
	if result.MaxDifference < 2*result.Mean {
		a.FlowSpreadAtMaxDifference = percent(result.FlowAtMaxDifference)
	}
	if result.HasCab {
		a.CabOffset = in(result.CabOffset, units.pressure)
	}
	if result.CabIfHoseLoss != 0 {
		a.CabPressureForTarget.IfHoseLoss = in(result.CabIfHoseLoss, units.pressure)
	}
	if result.CabIfGaugeError != 0 {
		a.CabPressureForTarget.IfGaugeError = in(result.CabIfGaugeError, units.pressure)
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
			uncertain(&u.Mean, units.pressure), uncertain(&u.Spread, units.pressure), uncertain(&u.FlowSpread, unit.IDPct), uncertain(&u.CabOffset, units.pressure),
		}
		if result.MeanInRange != finding.NotJudged {
			mean := conformance(ctx, u.MeanInRange)
			a.MeanConformance = &mean
		}
		for i := range u.Readings {
			a.Readings[i].Uncertainty = &ReadingUncertainty{uncertain(&u.Readings[i], units.pressure)}
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
