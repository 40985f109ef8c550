package calc_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// anySheet is wholeSheet with all that was measured a little different, mostly so
// little that it stays in order.
func anySheet(t *rapid.T) calc.FieldSheetInput {
	in := wholeSheet()
	off := func(name string) float64 {
		much := rapid.SampledFrom([]float64{0.01, 0.01, 0.05, 0.15}).Draw(t, name+" by")
		return 1 + much*rapid.Float64Range(-1, 1).Draw(t, name)
	}
	one := in.Output.Catches[0]
	in.Output.Catches = nil
	for range rapid.IntRange(2, 14).Draw(t, "catches") {
		c := one
		c.Volume *= unit.Volume(off("volume"))
		c.Position = rapid.SampledFrom([]certainty.Position{certainty.Unplaced, certainty.Left, certainty.Center, certainty.Right}).Draw(t, "position")
		in.Output.Catches = append(in.Output.Catches, c)
	}
	in.Output.CatchPointsOnBoom = 0
	if n := len(in.Output.Catches); n < 11 {
		in.Output.CatchPointsOnBoom = n
	}
	for i := range in.Pressure.Readings {
		in.Pressure.Readings[i] *= unit.Pressure(off("pressure"))
	}
	run := in.Speed.Runs[0]
	in.Speed.Runs = nil
	for range rapid.IntRange(1, 4).Draw(t, "runs") {
		r := run
		r.Time *= unit.Time(off("time"))
		in.Speed.Runs = append(in.Speed.Runs, r)
	}
	in.Target.ApplicationRate *= unit.ApplicationRate(off("target"))
	in.Output.Tolerance.Basis = rapid.SampledFrom([]calc.Basis{calc.DefaultBasis, calc.RatedBasis, calc.MeanBasis, calc.BothBases}).Draw(t, "basis")
	in.Limits.SprayPressure = calc.PressureRange{Low: 20 * unit.PoundPerSquareInch, High: 120 * unit.PoundPerSquareInch}
	return in
}

func anySheetResult(t *rapid.T, in calc.FieldSheetInput) calc.FieldSheetResult {
	r, err := calc.FieldSheet(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// outcome is all that a sheet decides, without where its catches stand.
type outcome struct {
	verdict                       calc.SheetVerdict
	pressure, output, speed, rate calc.PartStatus
	decision                      calc.Decision
	correction                    calc.CorrectionDecision
	settled                       certainty.Settled
	more, outliers, plans         int
}

func outcomeOf(r calc.FieldSheetResult) outcome {
	o := outcome{
		verdict: r.Verdict, pressure: r.PressureStatus, output: r.OutputStatus, speed: r.SpeedStatus, rate: r.RateStatus,
		decision: r.Output.Decision, settled: r.Output.Sampling.Settled, more: r.Output.Sampling.More, outliers: len(r.Output.Outliers),
	}
	if r.Correction != nil {
		o.correction, o.plans = r.Correction.Decision, len(r.Correction.Plans)
	}
	return o
}

// TestPropertySheetOrder: neither the order of the readings, nor of the catches, nor
// of the runs decides anything; a step speaks of the same catch wherever it stands.
func TestPropertySheetOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anySheet(t)
		order := rapid.Permutation(indices(len(in.Output.Catches))).Draw(t, "catches' order")
		other := in
		other.Output.Catches = make([]calc.AcceptanceCatch, len(order))
		for to, from := range order {
			other.Output.Catches[to] = in.Output.Catches[from]
		}
		other.Pressure.Readings = rapid.Permutation(in.Pressure.Readings).Draw(t, "readings' order")
		other.Speed.Runs = rapid.Permutation(in.Speed.Runs).Draw(t, "runs' order")
		a, b := anySheetResult(t, in), anySheetResult(t, other)
		if outcomeOf(a) != outcomeOf(b) {
			t.Fatalf("%+v, in another order %+v", outcomeOf(a), outcomeOf(b))
		}
		agrees(t, "rate", float64(b.Rate.ApplicationRate), float64(a.Rate.ApplicationRate), 1e-12)
		first, steps := stepsOf(a), stepsOf(b)
		for i := range steps {
			if steps[i].Catch >= 0 {
				steps[i].Catch = order[steps[i].Catch]
			}
		}
		// Of catches that gave alike, any may be the one that is named; a side is named by its first.
		for _, all := range [][]stepAt{first, steps} {
			for i, s := range all {
				if s.Catch < 0 {
					continue
				}
				named := in.Output.Catches[s.Catch]
				all[i].Catch = slices.IndexFunc(in.Output.Catches, func(c calc.AcceptanceCatch) bool {
					if s.Code == calc.StepCheckSize {
						return c.Position == named.Position
					}
					return c.Volume == named.Volume
				})
			}
		}
		// Steps about catches follow the order of the catches; all others do not move.
		byCatch := func(x, y stepAt) int { return x.Catch - y.Catch }
		slices.SortStableFunc(first, byCatch)
		slices.SortStableFunc(steps, byCatch)
		if !slices.Equal(first, steps) {
			t.Fatalf("%v, in another order %v", first, steps)
		}
	})
}

// TestPropertySheetScales: twice the time of each run is half the speed and twice the
// rate; twice the reading and the time of each catch is nothing new; twice both the
// readings and the rating, and twice the target, is twice the rate and the same
// decisions; so is half the width with twice the target.
func TestPropertySheetScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anySheet(t)
		r := anySheetResult(t, in)
		changed := func(change func(*calc.FieldSheetInput)) calc.FieldSheetResult {
			other := in
			other.Output.Catches, other.Speed.Runs = slices.Clone(in.Output.Catches), slices.Clone(in.Speed.Runs)
			change(&other)
			return anySheetResult(t, other)
		}
		k := rapid.Float64Range(1.5, 3).Draw(t, "k")
		rate, speed := float64(r.Rate.ApplicationRate), float64(r.Speed.GroundSpeed)

		slower := changed(func(in *calc.FieldSheetInput) {
			for i := range in.Speed.Runs {
				in.Speed.Runs[i].Time *= unit.Time(k)
			}
		})
		agrees(t, "slower, rate", float64(slower.Rate.ApplicationRate), rate*k, 1e-12)
		agrees(t, "slower, speed", float64(slower.Speed.GroundSpeed), speed/k, 1e-12)
		longer := changed(func(in *calc.FieldSheetInput) {
			for i := range in.Output.Catches {
				in.Output.Catches[i].Volume *= unit.Volume(k)
				in.Output.Catches[i].Time *= unit.Time(k)
			}
		})
		agrees(t, "longer catches, rate", float64(longer.Rate.ApplicationRate), rate, 1e-12)
		larger := changed(func(in *calc.FieldSheetInput) {
			for i := range in.Output.Catches {
				in.Output.Catches[i].Volume *= unit.Volume(k)
			}
			in.Nozzle.RatedFlowRate *= unit.FlowRate(k)
			in.Target.ApplicationRate *= unit.ApplicationRate(k)
		})
		agrees(t, "larger nozzles, rate", float64(larger.Rate.ApplicationRate), rate*k, 1e-12)
		narrower := changed(func(in *calc.FieldSheetInput) {
			in.Machine.BedWidth /= unit.Length(k)
			in.Target.ApplicationRate *= unit.ApplicationRate(k)
		})
		agrees(t, "narrower, rate", float64(narrower.Rate.ApplicationRate), rate*k, 1e-12)
		want := outcomeOf(r)
		if got := outcomeOf(narrower); got != want {
			t.Fatalf("narrower: %+v, want %+v", got, want)
		}
		for name, x := range map[string]calc.FieldSheetResult{"larger nozzles": larger, "longer catches": longer} {
			got := outcomeOf(x)
			got.outliers, got.decision, got.verdict = want.outliers, want.decision, want.verdict // on more in the jug half a second and a mark weigh less
			if got != want {
				t.Fatalf("%s: %+v, want %+v", name, got, want)
			}
		}
	})
}

// TestPropertyPlanOnTheSheet: a plan of the sheet, carried out and measured again,
// gives the rate that it predicts, and a sheet whose rate is in order.
func TestPropertyPlanOnTheSheet(t *testing.T) {
	carriedOut := 0
	rapid.Check(t, func(t *rapid.T) {
		in := anySheet(t)
		in.Output.Tolerance.Basis = calc.MeanBasis // the boom is even, whatever it gives
		for i := range in.Output.Catches {
			in.Output.Catches[i].Volume = in.Output.Catches[0].Volume
		}
		in.Pressure.Readings = slices.Repeat(in.Pressure.Readings[:1], 3)
		in.Speed.Runs = slices.Repeat(in.Speed.Runs[:1], 2)
		in.Target.ApplicationRate *= unit.ApplicationRate(rapid.SampledFrom([]float64{0.7, 0.85, 1.15, 1.3}).Draw(t, "change"))
		r := anySheetResult(t, in)
		if r.Correction == nil {
			return
		}
		for _, p := range r.Correction.Plans {
			after := in
			after.Speed.Runs, after.Output.Catches, after.Pressure.Readings = slices.Clone(in.Speed.Runs), slices.Clone(in.Output.Catches), slices.Clone(in.Pressure.Readings)
			for _, c := range p.Changes.All() {
				if c != calc.ChangeSpeed && c != calc.ChangePressure {
					t.Fatalf("a sheet without planning has a plan by %v", c)
				}
			}
			if p.Changes.Has(calc.ChangeSpeed) {
				for i := range after.Speed.Runs {
					after.Speed.Runs[i].Time = unit.Time(float64(after.Speed.Runs[i].CourseLength) / float64(p.GroundSpeed))
				}
			}
			if p.Changes.Has(calc.ChangePressure) {
				more := float64(p.SprayPressure / r.Output.SprayPressure)
				for i := range after.Pressure.Readings {
					after.Pressure.Readings[i] *= unit.Pressure(more)
				}
				for i := range after.Output.Catches {
					after.Output.Catches[i].Volume *= unit.Volume(math.Sqrt(more))
				}
			}
			carriedOut++
			x := anySheetResult(t, after)
			agrees(t, "rate", float64(x.Rate.ApplicationRate), float64(p.PredictedApplicationRate), 1e-9)
			if x.RateStatus != calc.Passed || !p.AtLimit && math.Abs(float64(x.Rate.Deviation)) > 1e-9 {
				t.Fatalf("%+v came out %v off, rate %v", p, x.Rate.Deviation, x.RateStatus)
			}
		}
	})
	if carriedOut == 0 {
		t.Error("no plan was carried out")
	}
}

// TestPropertyWorseIsNeverBetter: on the basis of the rating, one more catch outside
// never makes the decision milder, nor its ends of the interval lower, and the chance
// that the boom is above the limit only grows.
func TestPropertyWorseIsNeverBetter(t *testing.T) {
	graver := map[calc.Decision]int{calc.Keep: 1, calc.NotJudged: 2, calc.FixListed: 2, calc.ReplaceAll: 3} // twice as much may also be a doubted entry
	rapid.Check(t, func(t *rapid.T) {
		in := anySheet(t)
		in.Output.Tolerance.Basis = calc.RatedBasis
		if rapid.Bool().Draw(t, "known") {
			in.Output.CatchPointsOnBoom = len(in.Output.Catches) + rapid.IntRange(0, 40).Draw(t, "others")
		}
		before := anySheetResult(t, in).Output
		i := slices.IndexFunc(before.Catches, func(c calc.CatchResult) bool { return c.Status == calc.StatusWithin })
		if i < 0 {
			return
		}
		in.Output.Catches = slices.Clone(in.Output.Catches)
		in.Output.Catches[i].Volume *= 2
		after := anySheetResult(t, in).Output
		a, b := before.Sampling, after.Sampling
		if after.Outside != before.Outside+1 || graver[after.Decision] < graver[before.Decision] || b.Low < a.Low || b.High < a.High || b.ChanceAbove < a.ChanceAbove {
			t.Fatalf("%v %+v, one more outside %v %+v", before.Decision, a, after.Decision, b)
		}
	})
}

// TestPropertyFlowThereAndBack: what a nozzle is predicted to give at another
// pressure, caught there, is predicted to give at the first one what was caught.
func TestPropertyFlowThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		here, there := unit.Pressure(rapid.Float64Range(1, 9).Draw(t, "here"))*unit.Bar, unit.Pressure(rapid.Float64Range(1, 9).Draw(t, "there"))*unit.Bar
		q := unit.FlowRate(rapid.Float64Range(0.1, 9).Draw(t, "flow")) * unit.LitrePerMinute
		moved := func(q unit.FlowRate, from, to unit.Pressure) unit.FlowRate {
			r := mustNozzleFlow(t, calc.NozzleFlowInput{Catches: []calc.Catch{minuteCatch(q, from)}, PredictAt: []calc.Prediction{{SprayPressure: to}}})
			return r.Predicted[0]
		}
		agrees(t, "flow", float64(moved(moved(q, here, there), there, here)), float64(q), 1e-12)
	})
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// A stepAt is a step and where it is.
type stepAt struct {
	Code       calc.StepCode
	Catch, Bed int
}

func stepsOf(r calc.FieldSheetResult) (all []stepAt) {
	for _, s := range r.Steps {
		all = append(all, stepAt{s.Code, s.Catch, s.Bed})
	}
	return all
}
