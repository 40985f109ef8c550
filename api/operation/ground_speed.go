package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// GroundSpeedRequest is the body of POST /v1/ground-speed.
type GroundSpeedRequest struct {
	MeasuringRequest
	Runs              []RunRequest  `json:"runs" validate:"required" len:"1..100"`
	RunTolerance      wire.Quantity `json:"runTolerance,omitzero" is:"ratio"`
	TargetGroundSpeed wire.Quantity `json:"targetGroundSpeed,omitzero" is:"speed"`
	Results
}

// RunRequest is one timed run.
type RunRequest struct {
	Label        string         `json:"label,omitzero"`
	Direction    calc.Direction `json:"direction,omitzero"`
	CourseLength wire.Quantity  `json:"courseLength" validate:"required" is:"length"`
	Time         wire.Quantity  `json:"time" validate:"required" is:"time"`
	Tape         string         `json:"tape,omitzero"`
	Stopwatch    string         `json:"stopwatch,omitzero"`
}

// GroundSpeedAnswer is the answer of POST /v1/ground-speed.
type GroundSpeedAnswer struct {
	GroundSpeed     wire.Quantity `json:"groundSpeed"`
	Runs            []RunAnswer   `json:"runs"`
	TotalLength     wire.Quantity `json:"totalLength"`
	TotalTime       wire.Quantity `json:"totalTime"`
	RunTolerance    wire.Quantity `json:"runTolerance"`
	Spread          wire.Quantity `json:"spread,omitzero"`
	WithinTolerance *bool         `json:"withinTolerance,omitzero"`
	working.ConformanceAnswer
	Uncertainty *GroundSpeedUncertainty `json:"uncertainty,omitzero"`
	Cautions    []Notice                `json:"cautions,omitzero"`
	Warnings    []Warning               `json:"warnings,omitzero"`
	working.Explained
}

// RunAnswer is the speed of one run.
type RunAnswer struct {
	Label       string          `json:"label,omitzero"`
	GroundSpeed wire.Quantity   `json:"groundSpeed"`
	TargetTime  wire.Quantity   `json:"targetTime,omitzero"`
	Uncertainty *RunUncertainty `json:"uncertainty,omitzero"`
}

// RunUncertainty is how well the speed of one run is known, by its instruments.
type RunUncertainty struct {
	GroundSpeed working.UncertaintyAnswer `json:"groundSpeed"`
}

// GroundSpeedUncertainty is how well the members of its names are known.
type GroundSpeedUncertainty struct {
	GroundSpeed working.UncertaintyAnswer  `json:"groundSpeed"`
	Spread      *working.UncertaintyAnswer `json:"spread,omitzero"`
}

func groundSpeed(ctx context.Context, r *GroundSpeedRequest) (GroundSpeedAnswer, error) {
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return GroundSpeedAnswer{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.GroundSpeed(in)
	if err != nil {
		return GroundSpeedAnswer{}, err
	}
	a := groundSpeedAnswer(ctx, r, result)
	a.Cautions = speedCautions.in(ctx)
	a.Warnings = append(a.Warnings, doubtful(ctx, "speed", calc.FieldSheetInput{Speed: in}, calc.FieldSheetResult{Speed: &result}, func() *CalibrationsRequest {
		return &CalibrationsRequest{Speed: SpeedRequest{Runs: r.Runs}}
	})...)
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *GroundSpeedRequest) input() calc.GroundSpeedInput {
	runs := make([]calc.Run, len(r.Runs))
	for i, x := range r.Runs {
		runs[i] = calc.Run{CourseLength: unit.Length(x.CourseLength.SI()), Time: unit.Time(x.Time.SI()), Tape: x.Tape, Stopwatch: x.Stopwatch, Direction: x.Direction}
	}
	return calc.GroundSpeedInput{
		Runs:              runs,
		RunTolerance:      unit.Ratio(r.RunTolerance.SI()),
		TargetGroundSpeed: unit.Speed(r.TargetGroundSpeed.SI()),
	}
}

func groundSpeedAnswer(ctx context.Context, r *GroundSpeedRequest, result calc.GroundSpeedResult) GroundSpeedAnswer {
	units := r.units()
	a := GroundSpeedAnswer{
		GroundSpeed:     wire.In(result.GroundSpeed, units.speed),
		Runs:            make([]RunAnswer, len(result.Runs)),
		TotalLength:     wire.In(result.TotalLength, units.length),
		TotalTime:       wire.In(result.TotalTime, unit.IDS),
		RunTolerance:    percent(result.RunTolerance),
		WithinTolerance: within(result.Repeatable),
		Warnings:        warnings(ctx, result.Warnings),
	}
	for i, v := range result.Runs {
		a.Runs[i] = RunAnswer{Label: r.Runs[i].Label, GroundSpeed: wire.In(v, units.speed)}
		if result.TargetTimes != nil {
			a.Runs[i].TargetTime = wire.In(result.TargetTimes[i], unit.IDS)
		}
	}
	if result.Repeatable != finding.NotJudged {
		a.Spread = percent(result.Spread)
	}
	if u := result.Uncertainty; u != nil {
		a.ConformanceAnswer = conformance(ctx, u.Repeatable)
		a.Uncertainty = &GroundSpeedUncertainty{GroundSpeed: working.UncertaintyIn(&u.GroundSpeed, units.speed)}
		if result.Repeatable != finding.NotJudged {
			spread := working.UncertaintyIn(&u.Spread, unit.IDPct)
			a.Uncertainty.Spread = &spread
		}
		for i := range u.Runs {
			a.Runs[i].Uncertainty = &RunUncertainty{working.UncertaintyIn(&u.Runs[i], units.speed)}
		}
	}
	return a
}

func (r *GroundSpeedRequest) work(w working.Working, a *GroundSpeedAnswer) {
	for i := range r.Runs {
		run, x, w := &r.Runs[i], &a.Runs[i], w.Item("/runs", i)
		w.Line(method.RunSpeed, "/groundSpeed", x.GroundSpeed).With("L", run.CourseLength).With("t", run.Time)
		if x.TargetTime.Given() {
			w.Line(method.CourseTime, "/targetTime", x.TargetTime).With("L", run.CourseLength).With("v", r.TargetGroundSpeed)
		}
	}
	lengths := working.Listed(w, r.Runs, func(run *RunRequest) wire.Quantity { return run.CourseLength })
	times := working.Listed(w, r.Runs, func(run *RunRequest) wire.Quantity { return run.Time })
	w.Line(method.TotalLength, "/totalLength", a.TotalLength).Each("L_i", lengths)
	w.Line(method.TotalTime, "/totalTime", a.TotalTime).Each("t_i", times)
	w.Line(method.GroundSpeed, "/groundSpeed", a.GroundSpeed).With("L", a.TotalLength).With("t", a.TotalTime)
	if a.Spread.Given() {
		speeds := working.Listed(w, a.Runs, func(x *RunAnswer) wire.Quantity { return x.GroundSpeed })
		w.Line(method.RunSpread, "/spread", a.Spread).Each("v_i", speeds).With("v", a.GroundSpeed)
	}
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Runs {
		w.Item("/runs", i).Uncertain("/uncertainty/groundSpeed", &a.Runs[i].Uncertainty.GroundSpeed)
	}
	w.Uncertain("/uncertainty/groundSpeed", &a.Uncertainty.GroundSpeed)
	if a.Uncertainty.Spread != nil {
		w.Uncertain("/uncertainty/spread", a.Uncertainty.Spread)
		w.Conforms("", &a.ConformanceAnswer, a.Spread, a.Uncertainty.Spread, wire.Quantity{}, a.RunTolerance)
	}
}
