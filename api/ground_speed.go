package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// GroundSpeedRequest is the body of POST /v1/ground-speed.
type GroundSpeedRequest struct {
	MeasuringRequest
	Runs              []RunRequest `json:"runs" validate:"required" len:"1..100"`
	RunTolerance      Quantity     `json:"runTolerance,omitzero" is:"ratio"`
	TargetGroundSpeed Quantity     `json:"targetGroundSpeed,omitzero" is:"speed"`
	Results
}

// RunRequest is one timed run.
type RunRequest struct {
	Label        string         `json:"label,omitzero"`
	Direction    calc.Direction `json:"direction,omitzero"`
	CourseLength Quantity       `json:"courseLength" validate:"required" is:"length"`
	Time         Quantity       `json:"time" validate:"required" is:"time"`
	Tape         string         `json:"tape,omitzero"`
	Stopwatch    string         `json:"stopwatch,omitzero"`
}

// GroundSpeedAnswer is the answer.
type GroundSpeedAnswer struct {
	GroundSpeed     Quantity    `json:"groundSpeed"`
	Runs            []RunAnswer `json:"runs"`
	TotalLength     Quantity    `json:"totalLength"`
	TotalTime       Quantity    `json:"totalTime"`
	RunTolerance    Quantity    `json:"runTolerance"`
	Spread          Quantity    `json:"spread,omitzero"`
	WithinTolerance *bool       `json:"withinTolerance,omitzero"`
	ConformanceAnswer
	Uncertainty *GroundSpeedUncertainty `json:"uncertainty,omitzero"`
	Warnings    []warning               `json:"warnings,omitzero"`
	Explained
}

// RunAnswer is the speed of one run.
type RunAnswer struct {
	Label       string          `json:"label,omitzero"`
	GroundSpeed Quantity        `json:"groundSpeed"`
	TargetTime  Quantity        `json:"targetTime,omitzero"`
	Uncertainty *RunUncertainty `json:"uncertainty,omitzero"`
}

// RunUncertainty is how well the speed of one run is known, by its instruments.
type RunUncertainty struct {
	GroundSpeed UncertaintyAnswer `json:"groundSpeed"`
}

// GroundSpeedUncertainty is how well the members of its names are known.
type GroundSpeedUncertainty struct {
	GroundSpeed UncertaintyAnswer  `json:"groundSpeed"`
	Spread      *UncertaintyAnswer `json:"spread,omitzero"`
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
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *GroundSpeedRequest) input() calc.GroundSpeedInput {
	runs := make([]calc.Run, len(r.Runs))
	for i, x := range r.Runs {
		runs[i] = calc.Run{CourseLength: unit.Length(x.CourseLength.si()), Time: unit.Time(x.Time.si()), Tape: x.Tape, Stopwatch: x.Stopwatch, Direction: x.Direction}
	}
	return calc.GroundSpeedInput{
		Runs:              runs,
		RunTolerance:      unit.Ratio(r.RunTolerance.si()),
		TargetGroundSpeed: unit.Speed(r.TargetGroundSpeed.si()),
	}
}

func groundSpeedAnswer(ctx context.Context, r *GroundSpeedRequest, result calc.GroundSpeedResult) GroundSpeedAnswer {
	units := r.units()
	a := GroundSpeedAnswer{
		GroundSpeed:     in(result.GroundSpeed, units.speed),
		Runs:            make([]RunAnswer, len(result.Runs)),
		TotalLength:     in(result.TotalLength, units.length),
		TotalTime:       in(result.TotalTime, unit.IDS),
		RunTolerance:    percent(result.RunTolerance),
		WithinTolerance: within(result.Repeatable),
		Warnings:        warnings(ctx, result.Warnings),
	}
	for i, v := range result.Runs {
		a.Runs[i] = RunAnswer{Label: r.Runs[i].Label, GroundSpeed: in(v, units.speed)}
		if result.TargetTimes != nil {
			a.Runs[i].TargetTime = in(result.TargetTimes[i], unit.IDS)
		}
	}
	if result.Repeatable != finding.NotJudged {
		a.Spread = percent(result.Spread)
	}
	if u := result.Uncertainty; u != nil {
		a.ConformanceAnswer = conformance(ctx, u.Repeatable)
		a.Uncertainty = &GroundSpeedUncertainty{GroundSpeed: uncertain(&u.GroundSpeed, units.speed)}
		if result.Repeatable != finding.NotJudged {
			spread := uncertain(&u.Spread, unit.IDPct)
			a.Uncertainty.Spread = &spread
		}
		for i := range u.Runs {
			a.Runs[i].Uncertainty = &RunUncertainty{uncertain(&u.Runs[i], units.speed)}
		}
	}
	return a
}
