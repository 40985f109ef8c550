package calc_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// partsMake holds a budget against its parts, by the published law of propagation
// (JCGM 100:2008, 5.1.2 and, for errors in common, 5.2.2) and the formulae of a
// rectangular distribution (4.3.7):
//
//	scale    u^2 = sum of c_i^2 a_i^2 / 3
//	reading  u^2 = sum of g_i u_i^2, and u_i^2 = (d^2 / 12 + t^2) / x^2
//	scatter  u^2 = s^2 w (1 - f)
func partsMake(t *rapid.T, what string, u *certainty.Uncertainty) {
	t.Helper()
	if u.Parts == nil {
		t.Fatalf("%s: no parts", what)
	}
	same := func(source certainty.Source, variance float64) {
		t.Helper()
		if got := u.Budget[source].Standard; math.Abs(got-math.Sqrt(variance)) > 1e-12+1e-9*got {
			t.Errorf("%s: source %d adds %v, by its parts %v", what, source, got, math.Sqrt(variance))
		}
	}
	for k := certainty.Stopwatch; k <= certainty.Gauge; k++ {
		scale := 0.0
		for _, p := range u.Parts.Scales[k] {
			scale += p.Sensitivity * p.Sensitivity * p.ScaleError * p.ScaleError / 3
		}
		same(certainty.Source(2*k), scale)
		same(certainty.Source(2*k+1), readings(t, what, k, u.Parts.Readings[k]))
	}
	for source, p := range map[certainty.Source]*certainty.ScatterPart{certainty.SourceRuns: u.Parts.Runs, certainty.SourceCatches: u.Parts.Catches} {
		if p != nil {
			same(source, p.Pooled*p.Pooled*p.Squares*(1-p.Caught))
		}
	}
}

func readings(t *rapid.T, what string, kind certainty.InstrumentKind, parts []certainty.ReadingPart) (variance float64) {
	t.Helper()
	for _, p := range parts {
		own := (p.Resolution*p.Resolution/12 + p.ReactionTime*p.ReactionTime) / (p.Value * p.Value)
		if p.Group != nil {
			own = readings(t, what, kind, p.Group)
		}
		if p.Kind != kind || math.Abs(p.Uncertainty-math.Sqrt(own)) > 1e-9*p.Uncertainty {
			t.Errorf("%s: a reading of kind %d has %v, by its instrument %v", what, p.Kind, p.Uncertainty, math.Sqrt(own))
		}
		variance += p.Weight * p.Uncertainty * p.Uncertainty
	}
	return variance
}

// againstMean holds what readings add to the deviation of a catch from the mean against
// those of all catches, by the law of propagation (JCGM 100:2008, 5.1.2): of q_i over the
// mean, whose share of catch j is w_j, the logarithm follows that of q_j by 1 - w_j for
// the catch itself, by -w_j for the others.
func againstMean(t *rapid.T, r *calc.NozzleAcceptanceResult, i int) {
	t.Helper()
	var total float64
	for j := range r.Catches {
		total += float64(r.Catches[j].FlowRate)
	}
	for _, source := range []certainty.Source{certainty.SourceStopwatchReading, certainty.SourceJugReading} {
		variance := 0.0
		for j := range r.Catches {
			follows := -float64(r.Catches[j].FlowRate) / total
			if j == i {
				follows++
			}
			own := r.Uncertainty.Catches[j].NozzleFlowRate.Budget[source].Standard
			variance += follows * follows * own * own
		}
		if got := r.Uncertainty.Catches[i].DeviationFromMean.Budget[source].Standard; math.Abs(got-math.Sqrt(variance)) > 1e-12+1e-9*got {
			t.Errorf("catch %d against the mean: source %d adds %v, want %v", i, source, got, math.Sqrt(variance))
		}
	}
}

// TestPropertyPartsMakeTheBudget draws runs and catches, with instruments of their own
// or with the usual ones.
func TestPropertyPartsMakeTheBudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		measuring := certainty.Measuring{Uncertainty: true, Explain: true}
		named := rapid.Bool().Draw(t, "named")
		name := func(id string) string {
			if named {
				return id
			}
			return ""
		}
		if named {
			amount := func(what string, most float64) float64 { return rapid.Float64Range(most/10, most).Draw(t, what) }
			measuring.Instruments = []certainty.Instrument{
				{ID: "watch", Kind: certainty.Stopwatch, Resolution: amount("watch", 0.1), ScaleError: 0.001, ReactionTime: unit.Time(amount("hand", 0.5))},
				{ID: "tape", Kind: certainty.Tape, Resolution: amount("tape", 0.1), ScaleError: unit.Ratio(amount("tape scale", 0.01))},
				{ID: "jug", Kind: certainty.Jug, Resolution: amount("jug", 2e-5), ScaleError: unit.Ratio(amount("jug scale", 0.03))},
			}
		}
		drawn := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
		var runs []calc.Run
		for range rapid.IntRange(1, 4).Draw(t, "runs") {
			runs = append(runs, calc.Run{CourseLength: unit.Length(drawn("course", 20, 100)), Time: unit.Time(drawn("time", 15, 60)), Tape: name("tape"), Stopwatch: name("watch")})
		}
		speed, err := calc.GroundSpeed(calc.GroundSpeedInput{Runs: runs, Measuring: measuring})
		if err != nil {
			t.Fatal(err)
		}
		partsMake(t, "the speed", &speed.Uncertainty.GroundSpeed)
		for i := range speed.Uncertainty.Runs {
			partsMake(t, "a run", &speed.Uncertainty.Runs[i])
		}
		var catches []calc.AcceptanceCatch
		for range rapid.IntRange(2, 8).Draw(t, "catches") {
			catches = append(catches, calc.AcceptanceCatch{Catch: calc.Catch{
				Volume: unit.Volume(drawn("volume", 0.5e-3, 1.5e-3)), Time: unit.Time(drawn("seconds", 20, 60)), Nozzles: 1, Jug: name("jug"), Stopwatch: name("watch"),
			}})
		}
		round, err := calc.NozzleAcceptance(calc.NozzleAcceptanceInput{Catches: catches, Measuring: measuring, CatchPointsOnBoom: rapid.SampledFrom([]int{0, 20}).Draw(t, "points")})
		if err != nil {
			t.Fatal(err)
		}
		partsMake(t, "the mean flow", &round.Uncertainty.MeanNozzleFlowRate)
		if round.CoefficientOfVariation > 0 { // it has none where all catches are alike
			partsMake(t, "the coefficient of variation", &round.Uncertainty.CoefficientOfVariation)
		}
		for i := range round.Uncertainty.Catches {
			partsMake(t, "a catch", &round.Uncertainty.Catches[i].NozzleFlowRate)
			partsMake(t, "a deviation from the mean", &round.Uncertainty.Catches[i].DeviationFromMean)
			againstMean(t, &round, i)
		}
	})
}
