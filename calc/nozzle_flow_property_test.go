package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// anySize draws a positive number of any size that is still to be computed with,
// evenly over its logarithm.
func anySize(t *rapid.T, label string) float64 {
	return math.Pow(10, rapid.Float64Range(-20, 20).Draw(t, label))
}

// anyCatches draws catches, each at a pressure of its own.
func anyCatches(t *rapid.T) []calc.Catch {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) calc.Catch {
		return calc.Catch{
			Volume:        unit.Volume(rapid.Float64Range(1e-4, 1e-2).Draw(t, "volume")),
			Time:          unit.Time(rapid.Float64Range(10, 100).Draw(t, "time")),
			Nozzles:       rapid.IntRange(0, 9).Draw(t, "nozzles"),
			SprayPressure: unit.Pressure(rapid.Float64Range(1e5, 1e6).Draw(t, "pressure")),
		}
	}), 1, 12).Draw(t, "catches")
}

// TestPropertyNozzleFlowIsFinite: whatever the sizes, all results are numbers
// above zero, and the exponent is one that a nozzle may have.
func TestPropertyNozzleFlowIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var in calc.NozzleFlowInput
		for range rapid.IntRange(1, 5).Draw(t, "catches") {
			in.Catches = append(in.Catches, calc.Catch{
				Volume:        unit.Volume(anySize(t, "volume")),
				Time:          unit.Time(anySize(t, "time")),
				Nozzles:       rapid.IntRange(0, math.MaxInt).Draw(t, "nozzles"),
				SprayPressure: unit.Pressure(anySize(t, "pressure")),
			})
		}
		in.PredictAt = []calc.Prediction{
			{SprayPressure: unit.Pressure(anySize(t, "wanted")), RelativeDensity: unit.Ratio(anySize(t, "rd"))},
			{LiquidDensity: unit.Density(anySize(t, "density"))},
		}
		r := mustNozzleFlow(t, in)
		all := append(append(append([]unit.FlowRate{r.MeanNozzleFlowRate}, r.FlowRates...), r.NozzleFlowRates...), r.Predicted...)
		if want := 1 + 2*len(in.Catches) + 2; len(all) != want {
			t.Fatalf("%d results, want %d", len(all), want)
		}
		for i, q := range all {
			if !(q > 0) || math.IsInf(float64(q), 0) {
				t.Errorf("result %d is %v", i, q)
			}
		}
		if !(r.Exponent >= 0.1-1e-9 && r.Exponent <= 1+1e-9) {
			t.Errorf("exponent %v", r.Exponent)
		}
	})
}

// TestPropertyFittedExponent: catches made by q = k p^n give n back, and any
// pressure gets its own flow, also that of a liquid.
func TestPropertyFittedExponent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(0.1, 1).Draw(t, "exponent")
		k := anySize(t, "k")
		flow := func(p float64) float64 { return k * math.Pow(p/1e5, n) }
		var in calc.NozzleFlowInput
		low := rapid.Float64Range(1e4, 1e6).Draw(t, "lowest")
		pressures := append(rapid.SliceOfN(rapid.Float64Range(low, 4*low), 0, 6).Draw(t, "between"), low, 1.5*low)
		for _, p := range pressures {
			nozzles := rapid.IntRange(1, 9).Draw(t, "nozzles")
			in.Catches = append(in.Catches, calc.Catch{
				Volume: unit.Volume(30 * flow(p) * float64(nozzles)), Time: 30, Nozzles: nozzles, SprayPressure: unit.Pressure(p),
			})
		}
		wanted := rapid.Float64Range(low/2, 8*low).Draw(t, "wanted")
		in.PredictAt = []calc.Prediction{
			{SprayPressure: unit.Pressure(wanted)},
			{SprayPressure: unit.Pressure(wanted), RelativeDensity: 1.44},
		}
		r := mustNozzleFlow(t, in)
		agrees(t, "exponent", r.Exponent, n, 1e-9)
		if !r.ExponentFitted {
			t.Error("not fitted")
		}
		agrees(t, "water", float64(r.Predicted[0]), flow(wanted), 1e-9)
		agrees(t, "liquid", float64(r.Predicted[1])*1.2, flow(wanted), 1e-9) // sqrt 1.44
	})
}

// TestPropertyMeanComesBack: at the pressure of the catches the prediction is
// their mean itself, and lies between the lowest and the highest of them.
func TestPropertyMeanComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := unit.Pressure(rapid.Float64Range(1e4, 1e7).Draw(t, "common"))
		in := calc.NozzleFlowInput{Catches: anyCatches(t), SprayPressure: p, PredictAt: []calc.Prediction{{SprayPressure: p}}}
		for i := range in.Catches {
			in.Catches[i].SprayPressure = 0
		}
		r := mustNozzleFlow(t, in)
		if r.Predicted[0] != r.MeanNozzleFlowRate {
			t.Errorf("predicted %v, mean %v", r.Predicted[0], r.MeanNozzleFlowRate)
		}
		low, high := r.NozzleFlowRates[0], r.NozzleFlowRates[0]
		for _, q := range r.NozzleFlowRates {
			low, high = min(low, q), max(high, q)
		}
		if m := r.MeanNozzleFlowRate; m < low*(1-1e-12) || m > high*(1+1e-12) {
			t.Errorf("mean %v is not between %v and %v", m, low, high)
		}
	})
}

// TestPropertyCatchOrder: the order of the catches changes nothing but that of
// their own results.
func TestPropertyCatchOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.NozzleFlowInput{Catches: anyCatches(t), PredictAt: []calc.Prediction{{SprayPressure: 3e5}}}
		a := mustNozzleFlow(t, in)
		in.Catches = rapid.Permutation(in.Catches).Draw(t, "order")
		b := mustNozzleFlow(t, in)
		agrees(t, "mean", float64(b.MeanNozzleFlowRate), float64(a.MeanNozzleFlowRate), 1e-12)
		agrees(t, "exponent", b.Exponent, a.Exponent, 1e-9)
		agrees(t, "predicted", float64(b.Predicted[0]), float64(a.Predicted[0]), 1e-9)
	})
}

// TestPropertyNozzleFlowScales: other units of volume and pressure, which are but
// other factors, scale the flows and leave the exponent alone.
func TestPropertyNozzleFlowScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.NozzleFlowInput{Catches: anyCatches(t), PredictAt: []calc.Prediction{{SprayPressure: 3e5}}}
		a := mustNozzleFlow(t, in)
		volume := rapid.Float64Range(1e-3, 1e3).Draw(t, "volume factor")
		pressure := rapid.Float64Range(1e-3, 1e3).Draw(t, "pressure factor")
		in.PredictAt[0].SprayPressure *= unit.Pressure(pressure)
		for i := range in.Catches {
			in.Catches[i].Volume *= unit.Volume(volume)
			in.Catches[i].SprayPressure *= unit.Pressure(pressure)
		}
		b := mustNozzleFlow(t, in)
		agrees(t, "mean", float64(b.MeanNozzleFlowRate), volume*float64(a.MeanNozzleFlowRate), 1e-12)
		agrees(t, "exponent", b.Exponent, a.Exponent, 1e-9)
		agrees(t, "predicted", float64(b.Predicted[0]), volume*float64(a.Predicted[0]), 1e-9)
	})
}
