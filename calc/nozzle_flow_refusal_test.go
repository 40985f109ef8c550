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
		"catches: too_few":                       {},
		"catches[1].volume: required":            catches(good, calc.Catch{Time: 30}),
		"catches[1].volume: not_positive":        catches(good, calc.Catch{Volume: -1, Time: 30}),
		"catches[1].volume: not_finite":          catches(good, calc.Catch{Volume: unit.Volume(endless), Time: 30}),
		"catches[0].time: required":              catches(calc.Catch{Volume: 1}),
		"catches[0].time: not_positive":          catches(calc.Catch{Volume: 1, Time: -1}),
		"catches[0].time: not_finite":            catches(calc.Catch{Volume: 1, Time: unit.Time(noNumber)}),
		"catches[0].nozzles: not_positive":       catches(calc.Catch{Volume: 1, Time: 30, Nozzles: -1}),
		"catches[0].sprayPressure: not_positive": catches(with(-1)),
		"catches[0].sprayPressure: not_finite":   catches(with(unit.Pressure(noNumber))),
		"sprayPressure: not_positive":            {Catches: []calc.Catch{good}, SprayPressure: -1},
		"sprayPressure: not_finite":              {Catches: []calc.Catch{good}, SprayPressure: unit.Pressure(endless)},
		"predictAt[1].sprayPressure: required":   predict(calc.Prediction{}, good),
		"predictAt[1].liquidDensity: conflict":   predict(calc.Prediction{RelativeDensity: 1, LiquidDensity: 1000}, good),
		"predictAt[1].relativeDensity: not_finite": predict(calc.Prediction{
			RelativeDensity: unit.Ratio(noNumber)}, good),
		"predictAt[1].liquidDensity: not_positive": predict(calc.Prediction{LiquidDensity: -1}, good),
		"predictAt[1].sprayPressure: not_positive": predict(calc.Prediction{SprayPressure: -1}, with(3e5)),
		"predictAt[1].sprayPressure: not_finite":   predict(calc.Prediction{SprayPressure: unit.Pressure(endless)}, with(3e5)),
		"sprayPressure: pressure_required":         predict(calc.Prediction{SprayPressure: 3e5}, good, good),
		"catches[1].sprayPressure: pressure_required; catches[2].sprayPressure: pressure_required": predict(
			calc.Prediction{SprayPressure: 3e5}, with(2e5), good, good),
		// Without catches there is no pressure to ask for; one catch is asked for its own.
		"catches: too_few; predictAt[1].sprayPressure: required": {PredictAt: []calc.Prediction{{SprayPressure: 3e5}, {}}},
		"predictAt[1].relativeDensity: not_positive; sprayPressure: pressure_required": predict(
			calc.Prediction{SprayPressure: 3e5, RelativeDensity: -1}, good),
		// All at once.
		"catches: too_few; sprayPressure: not_positive; predictAt[1].sprayPressure: required": {
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
