package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// largest is the difference that is allowed, as given or as people speak of it.
func (r *PressureUniformityRequest) largest() Quantity {
	return r.MaxDifference.or(in(calc.DefaultPressureDifference, unit.IDPsi))
}

func (r *PressureUniformityRequest) work(w working, a *PressureUniformityAnswer) {
	readings := listed(w, r.Readings, func(x *ReadingRequest) Quantity { return x.Pressure })
	w.line(method.HighestPressure, "/highest", a.Highest).each("p_i", readings)
	w.line(method.LowestPressure, "/lowest", a.Lowest).each("p_i", readings)
	w.line(method.MeanPressure, "/mean", a.Mean).each("p_i", readings).count("n", len(readings))
	w.line(method.PressureSpread, "/spread", a.Spread).with("p_h", a.Highest).with("p_l", a.Lowest)
	w.line(method.FlowSpread, "/flowSpread", a.FlowSpread).with("p_h", a.Highest).with("p_l", a.Lowest)
	w.conversion("/maxDifference", a.MaxDifference, r.largest())
	if a.FlowSpreadAtMaxDifference.given() {
		w.line(method.FlowSpreadAtLimit, "/flowSpreadAtMaxDifference", a.FlowSpreadAtMaxDifference).with("p", a.Mean).with("d", a.MaxDifference)
	}
	if a.CabOffset.given() {
		w.line(method.CabOffset, "/cabOffset", a.CabOffset).with("p_c", r.CabPressure).with("p", a.Mean)
	}
	if wanted := a.CabPressureForTarget; wanted.IfHoseLoss.given() {
		w.line(method.CabIfHoseLoss, "/cabPressureForTarget/ifHoseLoss", wanted.IfHoseLoss).
			with("p_t", r.TargetPressure).with("p_c", r.CabPressure).with("p", a.Mean)
		if wanted.IfGaugeError.given() {
			w.line(method.CabIfGaugeError, "/cabPressureForTarget/ifGaugeError", wanted.IfGaugeError).
				with("p_t", r.TargetPressure).with("c", a.CabOffset)
		}
	}
	u := a.Uncertainty
	if u == nil {
		return
	}
	for i := range a.Readings {
		w.item("/readings", i).uncertain("/uncertainty/pressure", &a.Readings[i].Uncertainty.Pressure)
	}
	w.uncertain("/uncertainty/mean", &u.Mean)
	w.uncertain("/uncertainty/spread", &u.Spread)
	w.uncertain("/uncertainty/flowSpread", &u.FlowSpread)
	w.uncertain("/uncertainty/cabOffset", &u.CabOffset)
	w.conforms("", &a.ConformanceAnswer, a.Spread, &u.Spread, Quantity{}, a.MaxDifference)
	if a.MeanConformance != nil {
		w.conforms("/meanConformance", a.MeanConformance, a.Mean, &u.Mean, r.PressureRange.Low, r.PressureRange.High)
	}
}
