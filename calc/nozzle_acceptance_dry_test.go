package calc_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceDryCatch works out 1, 1, 1 and 0 L in a minute by hand. The mean is 0.75
// and the coefficient of variation sqrt((3 x 0.25^2 + 0.75^2) / 3) / 0.75 = 2/3. A jug of
// marks 10 mL apart is off by 10 / sqrt 12 = 2.88675 mL, all that a dry catch follows: of
// the rating 0.288675 %, of the mean 0.384900 %. In the mean of a boom of these four the
// jug's readings are 2 x 2.88675 / 3000 = 0.00192450. The coefficient of variation follows
// q by (q - m) / (3 s m) - s / (4 m^2), which is 0 for the others and -8/9 a litre for the
// dry one: 0.00256600.
func TestReferenceDryCatch(t *testing.T) {
	in := litreRated(0.1, 1, 1, 1, 0)
	in.CatchPointsOnBoom, in.ReplaceAllAbove = 4, 0.3
	in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: jug(0.02)}
	r := mustAccept(t, in)
	dry, u := r.Catches[3], r.Uncertainty
	if dry.Status != calc.StatusBelow || toldTo(r) != "fix_listed, 4 clean_and_recatch" {
		t.Errorf("status %v, %s", dry.Status, toldTo(r))
	}
	if dry.DeviationFromRated != -1 || dry.DeviationFromMean != -1 || dry.FlowRate != 0 {
		t.Errorf("%+v", dry)
	}
	agrees(t, "mean", r.MeanNozzleFlowRate.In(unit.LitrePerMinute), 0.75, 1e-12)
	agrees(t, "variation", float64(r.CoefficientOfVariation), 2.0/3, 1e-12)
	agrees(t, "flow", unit.FlowRate(u.Catches[3].NozzleFlowRate.Standard).In(unit.LitrePerMinute), 0.00288675, 1e-5)
	agrees(t, "from rated", u.Catches[3].DeviationFromRated.Standard, 0.00288675, 1e-5)
	agrees(t, "from mean", u.Catches[3].DeviationFromMean.Standard, 0.00384900, 1e-5)
	agrees(t, "readings in the mean", u.MeanNozzleFlowRate.Budget[certainty.SourceJugReading].Standard, 0.00192450, 1e-5)
	agrees(t, "known variation", u.CoefficientOfVariation.Standard, 0.00256600, 1e-5)
	if u.Catches[3].Within.Conformance != certainty.SurelyOutside {
		t.Errorf("%+v", u.Catches[3].Within)
	}
}

// TestAllDry: without any flow there is no mean, and nothing that is made of it. Whatever it
// is held to each catch is below, nothing is judged, and the supply is looked at before any
// nozzle.
func TestAllDry(t *testing.T) {
	in := litreRated(0.1, 0, 0, 0)
	in.Measuring.Uncertainty = true
	for _, basis := range []calc.Basis{calc.DefaultBasis, calc.MeanBasis, calc.BothBases} {
		in.Tolerance.Basis = basis
		r := mustAccept(t, in)
		if r.HasMean || r.MeanNozzleFlowRate != 0 || r.Sides != nil || statuses(r) != "bbb" || warned(r.Warnings) != "catches: all_dry" {
			t.Errorf("basis %s: %+v", basis, r)
		}
		if toldTo(r) != "not_judged, all check_supply" {
			t.Errorf("basis %s: %s", basis, toldTo(r))
		}
		if where := notFinite(reflect.ValueOf(r), "result"); where != "" {
			t.Error(where)
		}
		if basis != calc.MeanBasis { // the rating of 1 L/min still holds
			agrees(t, "most", r.AcceptableFlowRate.High.In(unit.LitrePerMinute), 1.1, 1e-12)
		}
	}
	in.Nozzle, in.SprayPressure, in.Tolerance.Basis = calc.Nozzle{}, 0, calc.DefaultBasis
	if r := mustAccept(t, in); toldTo(r) != "not_judged, all check_supply" || r.AcceptableFlowRate != (calc.FlowRange{}) {
		t.Errorf("without a rating: %s, %v", toldTo(r), r.AcceptableFlowRate)
	}
	in.Catches[1].Volume = -1
	if _, err := calc.NozzleAcceptance(in); fmt.Sprint(err) != "calc: catches[1].volume: not_positive" {
		t.Errorf("%v", err)
	}
	sheet := wholeSheet()
	for i := range sheet.Output.Catches {
		sheet.Output.Catches[i].Volume = 0
	}
	if s := mustSheet(t, sheet); s.Rate != nil || s.RateStatus != calc.NotDone || s.Verdict != calc.NotReady {
		t.Errorf("a rate of nothing: %+v", s.Rate)
	}
}

// TestPropertyDryCatches: with dry catches anywhere, of drops of any kind and at any
// pressure, every figure is finite, and a catch of next to nothing is hardly another.
func TestPropertyDryCatches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aRound(t)
		in.Catches[0].Volume, in.Catches[0].Nozzles = unit.Litre, 1
		for i := range in.Catches {
			c := &in.Catches[i]
			if rapid.Bool().Draw(t, "own pressure") {
				c.SprayPressure = unit.Pressure(rapid.Float64Range(1, 6).Draw(t, "its pressure")) * unit.Bar
			}
			if i > 0 && rapid.Bool().Draw(t, "dry") {
				c.Volume = 0
			}
			c.Position = rapid.SampledFrom([]certainty.Position{certainty.Unplaced, certainty.Left, certainty.Center, certainty.Right}).Draw(t, "position")
		}
		in.Tolerance.Basis = rapid.SampledFrom([]calc.Basis{calc.RatedBasis, calc.MeanBasis, calc.BothBases}).Draw(t, "basis")
		if rapid.Bool().Draw(t, "drop of different nozzles") {
			in.Tolerance.Basis = calc.RatedBasis
			last := &in.Catches[len(in.Catches)-1]
			last.Nozzles, last.NozzlesOnDrop = 0, []calc.DropNozzle{{Nozzle: in.Nozzle, Count: 2}, {Nozzle: calc.Nozzle{RatedFlowRate: 2 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}}}
		}
		r := mustRound(t, in)
		if where := notFinite(reflect.ValueOf(r), "result"); where != "" {
			t.Fatal(where)
		}
		near := in // not nearer: a deviation from -1 by less has few digits
		near.Catches = slices.Clone(in.Catches)
		for i := range near.Catches {
			near.Catches[i].Volume = max(near.Catches[i].Volume, 1e-7*unit.Litre)
		}
		b := mustRound(t, near)
		for i := range r.Catches {
			x, y := r.Uncertainty.Catches[i], b.Uncertainty.Catches[i]
			agrees(t, "flow", x.NozzleFlowRate.Standard, y.NozzleFlowRate.Standard, 1e-5)
			agrees(t, "from rated", x.DeviationFromRated.Standard, y.DeviationFromRated.Standard, 1e-5)
			agrees(t, "from mean", x.DeviationFromMean.Standard, y.DeviationFromMean.Standard, 1e-5)
		}
		agrees(t, "mean", r.Uncertainty.MeanNozzleFlowRate.Standard, b.Uncertainty.MeanNozzleFlowRate.Standard, 1e-5)
		agrees(t, "variation", r.Uncertainty.CoefficientOfVariation.Standard, b.Uncertainty.CoefficientOfVariation.Standard, 1e-5)
	})
}

// TestReferenceNearlyDry works out by hand what a catch of next to nothing beside one of 1210
// mL leaves of the mean, both of a minute with a jug of marks 20 mL apart: readings of 20 / sqrt
// 12 = 5.7735 mL each, of the total 8.16497 / 1210 = 0.67479 %. The larger catch has all of the
// flow, so what is expected of catches, 4 % with 5 degrees of freedom, counts whole, and they
// differ by sqrt 2 of their mean: s^2 = (5 x (0.04^2 + 0.0067479^2) + 2) / 6 = 0.334705. The
// mean is 605 mL and known to sqrt 0.334705 x 605 = 350.01 mL, whether the other is dry or not.
func TestReferenceNearlyDry(t *testing.T) {
	for _, drops := range []unit.Volume{0, 1e-9, 1e-3, 0.01} {
		in := calc.NozzleAcceptanceInput{Tolerance: calc.OutputTolerance{Basis: calc.MeanBasis}}
		for _, v := range []unit.Volume{1210, drops} {
			in.Catches = append(in.Catches, calc.AcceptanceCatch{Catch: calc.Catch{Volume: v * unit.Millilitre, Time: unit.Minute}})
		}
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "j", Kind: certainty.Jug, Resolution: float64(20 * unit.Millilitre)}, exact("w", certainty.Stopwatch, 0),
		}}
		u := must(calc.NozzleAcceptance(in)).Uncertainty.MeanNozzleFlowRate
		agrees(t, "mean", unit.FlowRate(u.Standard).In(unit.LitrePerMinute), 0.35001, 3e-5)
	}
}

// TestPropertyShortRun: a run of next to nothing, at the speed of the others, adds the errors
// of its readings, as shares of the whole course and time, and nothing else.
func TestPropertyShortRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := calc.GroundSpeedInput{Measuring: certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "w", Kind: certainty.Stopwatch, ReactionTime: 0.2}, exact("t", certainty.Tape, 0),
		}}}
		in.Measuring.Repeatability.Runs = certainty.Prior{StandardDeviation: 0.01, DegreesOfFreedom: 1_000_000_000}
		for range rapid.IntRange(1, 4).Draw(t, "runs") {
			in.Runs = append(in.Runs, calc.Run{CourseLength: 60, Time: 30})
		}
		n, short := float64(len(in.Runs)), rapid.Float64Range(1e-9, 1e-3).Draw(t, "seconds")
		in.Runs = append(in.Runs, calc.Run{CourseLength: unit.Length(2 * short), Time: unit.Time(short)})
		u := must(calc.GroundSpeed(in)).Uncertainty.GroundSpeed
		agrees(t, "speed", u.Standard, 2*math.Hypot(0.01/math.Sqrt(n), 0.2*math.Sqrt(n+1)/(30*n)), 1e-3)
	})
}

// notFinite says where in a result a number is not finite.
func notFinite(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprint(at, " is ", x)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return notFinite(v.Elem(), at)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if where := notFinite(v.Field(i), at+"."+v.Type().Field(i).Name); where != "" {
				return where
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", at, i)); where != "" {
				return where
			}
		}
	}
	return ""
}
