package api

import "wetrun/calc/method"

func (r *GroundSpeedRequest) work(w working, a *GroundSpeedAnswer) {
	for i := range r.Runs {
		run, x, w := &r.Runs[i], &a.Runs[i], w.item("/runs", i)
		w.line(method.RunSpeed, "/groundSpeed", x.GroundSpeed).with("L", run.CourseLength).with("t", run.Time)
		if x.TargetTime.given() {
			w.line(method.CourseTime, "/targetTime", x.TargetTime).with("L", run.CourseLength).with("v", r.TargetGroundSpeed)
		}
	}
	lengths := listed(w, r.Runs, func(run *RunRequest) Quantity { return run.CourseLength })
	times := listed(w, r.Runs, func(run *RunRequest) Quantity { return run.Time })
	w.line(method.TotalLength, "/totalLength", a.TotalLength).each("L_i", lengths)
	w.line(method.TotalTime, "/totalTime", a.TotalTime).each("t_i", times)
	w.line(method.GroundSpeed, "/groundSpeed", a.GroundSpeed).with("L", a.TotalLength).with("t", a.TotalTime)
	if a.Spread.given() {
		speeds := listed(w, a.Runs, func(x *RunAnswer) Quantity { return x.GroundSpeed })
		w.line(method.RunSpread, "/spread", a.Spread).each("v_i", speeds).with("v", a.GroundSpeed)
	}
	if a.Uncertainty == nil {
		return
	}
	for i := range a.Runs {
		w.item("/runs", i).uncertain("/uncertainty/groundSpeed", &a.Runs[i].Uncertainty.GroundSpeed)
	}
	w.uncertain("/uncertainty/groundSpeed", &a.Uncertainty.GroundSpeed)
	if a.Uncertainty.Spread != nil {
		w.uncertain("/uncertainty/spread", a.Uncertainty.Spread)
		w.conforms("", &a.ConformanceAnswer, a.Spread, a.Uncertainty.Spread, Quantity{}, a.RunTolerance)
	}
}
