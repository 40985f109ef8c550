package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *PressureUniformityRequest) work(w working.Working, a *PressureUniformityAnswer) {
	readings := working.Listed(w, r.Readings, func(x *ReadingRequest) wire.Quantity { return x.Pressure })
	w.Line(method.HighestPressure, "/highest", a.Highest).Each("p_i", readings)
	w.Line(method.LowestPressure, "/lowest", a.Lowest).Each("p_i", readings)
	w.Line(method.MeanPressure, "/mean", a.Mean).Each("p_i", readings).Count("n", len(readings))
	w.Line(method.PressureSpread, "/spread", a.Spread).With("p_h", a.Highest).With("p_l", a.Lowest)
	w.Line(method.FlowSpread, "/flowSpread", a.FlowSpread).With("p_h", a.Highest).With("p_l", a.Lowest)
	if r.byShare() {
		w.Line(method.DifferenceByShare, "/maxDifference", a.MaxDifference).With("s", r.MaxDifference).With("p", a.Mean)
	} else {
		largest := r.MaxDifference.Or(wire.In(calc.DefaultPressureDifference, unit.IDPsi)) // as people speak of it
		w.Conversion("/maxDifference", a.MaxDifference, largest)
	}
	if a.FlowSpreadAtMaxDifference.Given() {
		w.Line(method.FlowSpreadAtLimit, "/flowSpreadAtMaxDifference", a.FlowSpreadAtMaxDifference).With("p", a.Mean).With("d", a.MaxDifference)
	}
	if a.CabOffset.Given() {
		w.Line(method.CabOffset, "/cabOffset", a.CabOffset).With("p_c", r.CabPressure).With("p", a.Mean)
	}
	if wanted := a.CabPressureForTarget; wanted.IfHoseLoss.Given() {
		w.Line(method.CabIfHoseLoss, "/cabPressureForTarget/ifHoseLoss", wanted.IfHoseLoss).
			With("p_t", r.TargetPressure).With("p_c", r.CabPressure).With("p", a.Mean)
		if wanted.IfGaugeError.Given() {
			w.Line(method.CabIfGaugeError, "/cabPressureForTarget/ifGaugeError", wanted.IfGaugeError).
				With("p_t", r.TargetPressure).With("c", a.CabOffset)
		}
	}
	u := a.Uncertainty
	if u == nil {
		return
	}
	for i := range a.Readings {
		w.Item("/readings", i).Uncertain("/uncertainty/pressure", &a.Readings[i].Uncertainty.Pressure)
	}
	w.Uncertain("/uncertainty/mean", &u.Mean)
	w.Uncertain("/uncertainty/spread", &u.Spread)
	w.Uncertain("/uncertainty/flowSpread", &u.FlowSpread)
	w.Uncertain("/uncertainty/cabOffset", &u.CabOffset)
	w.Conforms("", &a.ConformanceAnswer, a.Spread, &u.Spread, wire.Quantity{}, a.MaxDifference)
	if a.MeanConformance != nil {
		w.Conforms("/meanConformance", a.MeanConformance, a.Mean, &u.Mean, r.PressureRange.Low, r.PressureRange.High)
	}
}
