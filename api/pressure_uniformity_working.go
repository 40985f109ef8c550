package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *PressureUniformityRequest) methods(x *calc.PressureUniformityResult) methodSet {
	s := methodsOf(method.HighestPressure, method.LowestPressure, method.MeanPressure, method.PressureSpread, method.FlowSpread)
	s.addIf(r.largest().Unit != r.units().pressure, method.UnitConversion)
	s.addIf(x.MaxDifference < 2*x.Mean, method.FlowSpreadAtLimit)
	s.addIf(x.HasCab, method.CabOffset)
	s.addIf(x.CabIfHoseLoss != 0, method.CabIfHoseLoss)
	s.addIf(x.CabIfGaugeError != 0, method.CabIfGaugeError)
	return s
}

// largest is the difference that is allowed, as given or as people speak of it.
func (r *PressureUniformityRequest) largest() Quantity {
	return r.MaxDifference.or(in(calc.DefaultPressureDifference, unit.IDPsi))
}

func (r *PressureUniformityRequest) work(w *working, a *PressureUniformityResponse) {
	readings := make([]Quantity, len(r.Readings))
	for i := range readings {
		readings[i] = r.Readings[i].Pressure
	}
	w.line(method.HighestPressure, "/highest", a.Highest, putEach("p_i", readings))
	w.line(method.LowestPressure, "/lowest", a.Lowest, putEach("p_i", readings))
	w.line(method.MeanPressure, "/mean", a.Mean, putEach("p_i", readings), putNumber("n", len(readings)))
	high, low := put("p_h", a.Highest), put("p_l", a.Lowest)
	w.line(method.PressureSpread, "/spread", a.Spread, high, low)
	w.line(method.FlowSpread, "/flowSpread", a.FlowSpread, high, low)
	w.workConversion("/maxDifference", a.MaxDifference, r.largest())
	mean := put("p", a.Mean)
	if a.FlowSpreadAtMaxDifference.given() {
		w.line(method.FlowSpreadAtLimit, "/flowSpreadAtMaxDifference", a.FlowSpreadAtMaxDifference, mean, put("d", a.MaxDifference))
	}
	if a.CabOffset.given() {
		w.line(method.CabOffset, "/cabOffset", a.CabOffset, put("p_c", r.CabPressure), mean)
	}
	if wanted := a.CabPressureForTarget; wanted.IfHoseLoss.given() {
		w.line(method.CabIfHoseLoss, "/cabPressureForTarget/ifHoseLoss", wanted.IfHoseLoss, put("p_t", r.TargetPressure), put("p_c", r.CabPressure), mean)
		if wanted.IfGaugeError.given() {
			w.line(method.CabIfGaugeError, "/cabPressureForTarget/ifGaugeError", wanted.IfGaugeError, put("p_t", r.TargetPressure), put("c", a.CabOffset))
		}
	}
	r.workUncertainty(w, a)
}

func (r *PressureUniformityRequest) workUncertainty(w *working, a *PressureUniformityResponse) {
	u := a.Uncertainty
	if u == nil {
		return
	}
	for i := range a.Readings {
		w.uncertain(w.item("/readings", i, "/uncertainty/pressure"), &a.Readings[i].Uncertainty.Pressure)
	}
	w.uncertain("/uncertainty/mean", &u.Mean)
	w.uncertain("/uncertainty/spread", &u.Spread)
	w.uncertain("/uncertainty/flowSpread", &u.FlowSpread)
	w.uncertain("/uncertainty/cabOffset", &u.CabOffset)
	w.conforms("", &a.ConformanceResponse, a.Spread, &u.Spread, Quantity{}, a.MaxDifference)
	if a.MeanConformance != nil {
		w.conforms("/meanConformance", a.MeanConformance, a.Mean, &u.Mean, r.PressureRange.Low, r.PressureRange.High)
	}
}
