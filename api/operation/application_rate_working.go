package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
)

func (r *ApplicationRateRequest) work(w working.Working, x *calc.ApplicationRateResult, a *ApplicationRateAnswer) {
	rd := w.Density(r.RelativeDensity, r.LiquidDensity)
	if x.SolvedFor != calc.SolvedNozzleFlowRate && !r.NozzleFlowRate.Given() {
		r.workFlow(w, rd, a.NozzleFlowRate)
	}
	if r.Width.Given() {
		w.Line(method.WidthPerNozzle, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle).With("W", r.Width).Count("n", r.Nozzles)
	}
	a.solved(w, x.SolvedFor).
		With("q", a.NozzleFlowRate).With("v", a.GroundSpeed).With("w", a.SprayedWidthPerNozzle).With("R", a.ApplicationRate)
	if x.Width != 0 && !r.Width.Given() {
		w.Line(method.TreatedWidth, "/width", a.Width).With("w", a.SprayedWidthPerNozzle).Count("n", r.Nozzles)
	}
	if a.FieldApplicationRate.Given() {
		w.Line(method.FieldRate, "/fieldApplicationRate", a.FieldApplicationRate).
			With("R", a.ApplicationRate).With("W", a.Width).With("b", r.RowSpacing)
	}
	if a.WaterEquivalentFlowRate.Given() {
		w.Line(method.WaterEquivalentFlow, "/waterEquivalentFlowRate", a.WaterEquivalentFlowRate).With("q", a.NozzleFlowRate).With("s", rd)
	}
	if a.Deviation.Given() {
		rate := a.ApplicationRate
		if r.RateBasis == calc.RateBasisField {
			rate = a.FieldApplicationRate
		}
		w.Line(method.RateDeviation, "/deviation", a.Deviation).With("R", rate).With("R_t", r.TargetApplicationRate)
	}
	r.workUncertainty(w, a)
}

// solved begins the line of the figure that was solved for.
func (a *ApplicationRateAnswer) solved(w working.Working, figure calc.Solved) *working.Line {
	switch figure {
	case calc.SolvedNozzleFlowRate:
		return w.Line(method.NozzleFlowForRate, "/nozzleFlowRate", a.NozzleFlowRate)
	case calc.SolvedGroundSpeed:
		return w.Line(method.SpeedForRate, "/groundSpeed", a.GroundSpeed)
	case calc.SolvedSprayedWidthPerNozzle:
		return w.Line(method.WidthForRate, "/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle)
	}
	return w.Line(method.ApplicationRate, "/applicationRate", a.ApplicationRate)
}

// workUncertainty adds how well the rate is known. Where the rate was given and
// something else solved for, its own uncertainty is a number between.
func (r *ApplicationRateRequest) workUncertainty(w working.Working, a *ApplicationRateAnswer) {
	u := a.Uncertainty
	if u == nil {
		return
	}
	w.Uncertain("/uncertainty/nozzleFlowRate", &u.NozzleFlowRate)
	w.Uncertain("/uncertainty/groundSpeed", &u.GroundSpeed)
	w.Uncertain("/uncertainty/sprayedWidthPerNozzle", &u.SprayedWidthPerNozzle)
	w.Uncertain("/uncertainty/applicationRate", &u.ApplicationRate)
	w.Uncertain("/uncertainty/fieldApplicationRate", &u.FieldApplicationRate)
	w.Uncertain("/uncertainty/deviation", &u.Deviation)
	w.ConformsEitherWay("", &a.ConformanceAnswer, a.Deviation, &u.Deviation, a.RateTolerance)
	if a.LabelConformance == nil {
		return
	}
	rate, known := a.ApplicationRate, &u.rate
	if r.RateBasis == calc.RateBasisField {
		rate, known = a.FieldApplicationRate, &u.FieldApplicationRate
	} else if u.ApplicationRate.Source() == nil {
		w.Uncertain("", known)
	}
	w.Conforms("/labelConformance", a.LabelConformance, rate, known, r.LabelMinimum, r.LabelMaximum)
}

// workFlow adds the lines of the nozzle that stands in for its flow.
func (r *ApplicationRateRequest) workFlow(w working.Working, rd, result wire.Quantity) {
	if !rd.Given() {
		r.Nozzle.workFlow(w, "/nozzleFlowRate", result, r.SprayPressure)
		return
	}
	water := r.Nozzle.flowAt(w, r.SprayPressure, result.Unit)
	r.Nozzle.workFlow(w, "", water, r.SprayPressure)
	w.Line(method.LiquidFlow, "/nozzleFlowRate", result).With("q_w", water).With("s", rd)
}
