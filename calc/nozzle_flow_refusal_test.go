package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func TestNozzleFlowRefuses(t *testing.T) {
	good := calc.Catch{Volume: 1e-3, Time: 30}
	with := func(p unit.Pressure) calc.Catch { return calc.Catch{Volume: 1e-3, Time: 30, SprayPressure: p} }
	catches := func(c ...calc.Catch) calc.NozzleFlowInput { return calc.NozzleFlowInput{Catches: c} }
	predict := func(p calc.Prediction, c ...calc.Catch) calc.NozzleFlowInput {
		return calc.NozzleFlowInput{Catches: c, PredictAt: []calc.Prediction{{RelativeDensity: 1.1}, p}}
	}
	for want, in := range map[string]calc.NozzleFlowInput{
		"Catches: too_few":                       {},
		"Catches[1].Volume: required":            catches(good, calc.Catch{Time: 30}),
		"Catches[1].Volume: not_positive":        catches(good, calc.Catch{Volume: -1, Time: 30}),
		"Catches[1].Volume: not_finite":          catches(good, calc.Catch{Volume: unit.Volume(endless), Time: 30}),
		"Catches[0].Time: required":              catches(calc.Catch{Volume: 1}),
		"Catches[0].Time: not_positive":          catches(calc.Catch{Volume: 1, Time: -1}),
		"Catches[0].Time: not_finite":            catches(calc.Catch{Volume: 1, Time: unit.Time(noNumber)}),
		"Catches[0].Nozzles: not_positive":       catches(calc.Catch{Volume: 1, Time: 30, Nozzles: -1}),
		"Catches[0].SprayPressure: not_positive": catches(with(-1)),
		"Catches[0].SprayPressure: not_finite":   catches(with(unit.Pressure(noNumber))),
		"SprayPressure: not_positive":            {Catches: []calc.Catch{good}, SprayPressure: -1},
		"SprayPressure: not_finite":              {Catches: []calc.Catch{good}, SprayPressure: unit.Pressure(endless)},
		"PredictAt[1].SprayPressure: required":   predict(calc.Prediction{}, good),
		"PredictAt[1].LiquidDensity: conflict":   predict(calc.Prediction{RelativeDensity: 1, LiquidDensity: 1000}, good),
		"PredictAt[1].RelativeDensity: not_finite": predict(calc.Prediction{
			RelativeDensity: unit.Ratio(noNumber)}, good),
		"PredictAt[1].LiquidDensity: not_positive": predict(calc.Prediction{LiquidDensity: -1}, good),
		"PredictAt[1].SprayPressure: not_positive": predict(calc.Prediction{SprayPressure: -1}, with(3e5)),
		"PredictAt[1].SprayPressure: not_finite":   predict(calc.Prediction{SprayPressure: unit.Pressure(endless)}, with(3e5)),
		"SprayPressure: pressure_required":         predict(calc.Prediction{SprayPressure: 3e5}, good, good),
		"Catches[1].SprayPressure: pressure_required; Catches[2].SprayPressure: pressure_required": predict(
			calc.Prediction{SprayPressure: 3e5}, with(2e5), good, good),
		// All at once.
		"Catches: too_few; SprayPressure: not_positive; PredictAt[1].SprayPressure: required": {
			SprayPressure: -1, PredictAt: []calc.Prediction{{SprayPressure: 3e5}, {}}},
	} {
		r, err := calc.NozzleFlow(in)
		if refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
		if r.FlowRates != nil || r.MeanNozzleFlowRate != 0 {
			t.Errorf("%s: a result all the same: %+v", want, r)
		}
	}
}
