package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
)

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
