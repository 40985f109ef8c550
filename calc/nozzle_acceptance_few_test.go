package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceOneMixedDrop, by hand: a drop of different nozzles is left out of the mean, so
// one other catch has no mean, two have. One is enough to ask for the rated basis. That the
// drop gives as much as the other catch is no dry boom.
func TestReferenceOneMixedDrop(t *testing.T) {
	for others, want := range map[int]bool{1: false, 2: true} {
		in := litreRated(0.1, slices.Repeat([]unit.Volume{1}, others+1)...)
		in.Catches[0].NozzlesOnDrop = []calc.DropNozzle{{Nozzle: in.Nozzle}}
		r := mustAccept(t, in)
		if r.HasMean != want || r.Catches[1].InMean != want || r.Catches[0].InMean {
			t.Errorf("beside %d others: %+v", others, r.Catches)
		}
		if got := warned(r.Warnings); got != "catches[0].nozzlesOnDrop: drop_not_in_mean" {
			t.Errorf("beside %d others: warned of %q", others, got)
		}
		in.Tolerance.Basis = calc.MeanBasis
		if _, err := calc.NozzleAcceptance(in); others == 2 && refusal(err) != "tolerance.basis: rated_basis_only" {
			t.Errorf("by the mean: %v", err)
		}
	}
}

// TestOneMixedDropNeedsItsPressure: its nozzles are rated at one.
func TestOneMixedDropNeedsItsPressure(t *testing.T) {
	in := litreRated(0.1, 1)
	in.Catches[0].NozzlesOnDrop = []calc.DropNozzle{{Nozzle: in.Nozzle}}
	in.Nozzle, in.SprayPressure = calc.Nozzle{}, 0
	if _, err := calc.NozzleAcceptance(in); refusal(err) != "sprayPressure: pressure_required" {
		t.Errorf("got %v", err)
	}
}

// TestReferenceWhenToReplaceAll: the result has the limit that was given, the default where
// none was, and no share where a number of nozzles was given instead.
func TestReferenceWhenToReplaceAll(t *testing.T) {
	for _, c := range []struct {
		above, want unit.Ratio
		from        int
	}{{0, 0.25, 0}, {0.4, 0.4, 0}, {0, 0, 3}} {
		in := litreRated(0.1, 1, 1)
		in.ReplaceAllAbove, in.ReplaceAllFrom, in.CatchPointsOnBoom = c.above, c.from, 10
		if r := mustAccept(t, in); r.ReplaceAllAbove != c.want || r.ReplaceAllFrom != c.from {
			t.Errorf("above %v or from %d: got %v and %d", c.above, c.from, r.ReplaceAllAbove, r.ReplaceAllFrom)
		}
	}
}

// TestReferenceSomePressuresKnown, by hand: without a rating, and with pressures that are
// alike where they are known, nothing has to be moved. The mean of 1, 1.05 and 0.95 is 1, and
// 0.9 to 1.1 is acceptable of each, the one whose pressure nobody knows, too.
func TestReferenceSomePressuresKnown(t *testing.T) {
	in := calc.NozzleAcceptanceInput{Tolerance: calc.OutputTolerance{Limit: 0.1}, Catches: caught(unit.Minute, 1e-3, 1.05e-3, 0.95e-3)}
	in.Catches[0].SprayPressure, in.Catches[1].SprayPressure = 3*unit.Bar, 3*unit.Bar
	for _, c := range mustAccept(t, in).Catches {
		agrees(t, "lowest", c.AcceptableVolume.Low.In(unit.Litre), 0.9, 1e-12)
		agrees(t, "highest", c.AcceptableVolume.High.In(unit.Litre), 1.1, 1e-12)
	}
	// So it is with a dry one: it is known as well as where no pressure is.
	in.Catches[2].Volume, in.Measuring.Uncertainty = 0, true
	some := mustAccept(t, in).Uncertainty.Catches[2].DeviationFromMean.Standard
	none := in
	none.Catches = caught(unit.Minute, 1e-3, 1.05e-3, 0)
	agrees(t, "dry", some, mustAccept(t, none).Uncertainty.Catches[2].DeviationFromMean.Standard, 1e-12)
	in.Catches[2].Volume, in.Measuring.Uncertainty = 0.95e-3, false
	// 2 L/min at 12 bar are 1 at 3, by the square root, with or without a rating.
	known := calc.NozzleAcceptanceInput{Tolerance: in.Tolerance, Catches: caught(unit.Minute, 1e-3, 2e-3)}
	known.Catches[0].SprayPressure, known.Catches[1].SprayPressure = 3*unit.Bar, 12*unit.Bar
	for i, c := range mustAccept(t, known).Catches {
		agrees(t, "from the mean", float64(c.DeviationFromMean), 0, 0)
		agrees(t, "highest", c.AcceptableVolume.High.In(unit.Litre), []float64{1.1, 2.2}[i], 1e-12)
	}
	in.Catches[1].SprayPressure = 4 * unit.Bar
	if _, err := calc.NozzleAcceptance(in); refusal(err) != "sprayPressure: pressure_required" {
		t.Errorf("two pressures and none: %v", err)
	}
}

// TestReferenceOneFarPressure: one catch at 9 bar is compared with no other, so it is only
// told how far 9 are from the 3 bar of the rating.
func TestReferenceOneFarPressure(t *testing.T) {
	in := litreRated(0.1, 1.732)
	in.Catches[0].SprayPressure = 9 * unit.Bar
	if got := warned(mustAccept(t, in).Warnings); got != "catches[0].sprayPressure: far_from_rating" {
		t.Errorf("warned of %q", got)
	}
}

// TestReferenceFirstDropHides: of three nozzles each, rated 1 L/min and held to 10 %, the drop
// that is 8 % over can hide 44 %, see TestReferenceWarnsOfWhatIsHidden, the first or another.
func TestReferenceFirstDropHides(t *testing.T) {
	for i := range 3 {
		in := litreRated(0.1, 3, 3, 3)
		for j := range in.Catches {
			in.Catches[j].Nozzles = 3
		}
		in.Catches[i].Volume = 3.24 * unit.Litre
		r := mustAccept(t, in)
		if want := fmt.Sprintf("catches[%d].volume: hidden_deviation", i); r.Hides != i || warned(r.Warnings) != want {
			t.Errorf("the drop %d: hides %d, warned of %q", i, r.Hides, warned(r.Warnings))
		}
	}
}

// TestReferenceTwoGroupsOfAnEvenNumber, by hand: four catches of 1 L/min and four of 1.6 have
// a median of 1.3. All lie within 50 % of it, 0.65 to 1.95, and are two groups.
func TestReferenceTwoGroupsOfAnEvenNumber(t *testing.T) {
	in := litreRated(0.1, 1, 1, 1, 1, 1.6, 1.6, 1.6, 1.6)
	in.Nozzle = calc.Nozzle{}
	if r := mustAccept(t, in); r.Decision != calc.NotJudged || !strings.Contains(warned(r.Warnings), calc.WarnTwoGroups) {
		t.Errorf("%v, warned of %q", r.Decision, warned(r.Warnings))
	}
}

// TestReferenceOutliersOfMostCatches: outliers are looked for among the catches of as many
// nozzles as more than half have, in whatever order they come: 11 single nozzles of 21, but
// not 10 of 20. The one in question gives 1.2 of 1 L/min.
func TestReferenceOutliersOfMostCatches(t *testing.T) {
	rows := map[string]struct {
		nozzles string // on each drop
		want    bool
	}{
		"one by one":        {"1" + strings.Repeat("21", 10), true},
		"the others first":  {strings.Repeat("2", 10) + strings.Repeat("1", 11), true},
		"the others last":   {strings.Repeat("1", 11) + strings.Repeat("2", 10), true},
		"another one first": {strings.Repeat("21", 10) + "1", true},
		"half and half":     {strings.Repeat("12", 10), false},
		"no one has most":   {strings.Repeat("123", 8), false},
	}
	for name, c := range rows {
		var readings []unit.Volume
		for i, n := range c.nozzles {
			readings = append(readings, unit.Volume(n-'0')*[]unit.Volume{0.99, 0.99, 1, 1, 1.01, 1.01}[i%6])
		}
		in := litreRated(0.3, readings...)
		for i, n := range c.nozzles {
			in.Catches[i].Nozzles = int(n - '0')
		}
		apart := strings.LastIndex(c.nozzles, "1")
		in.Catches[apart].Volume = 1.2 * unit.Litre
		found := mustAccept(t, in).Outliers
		if (len(found) == 1 && found[0].Value == apart) != c.want || !c.want && found != nil {
			t.Errorf("%s: %+v", name, found)
		}
	}
}

// TestReferenceOutlierWithoutTheFirst: a drop of three among single nozzles is not compared.
// Of the others the first gives 2 L/min and the last 1.2 of 1: the last stands apart when the
// first is taken out, which is named by its place among all catches.
func TestReferenceOutlierWithoutTheFirst(t *testing.T) {
	in := litreRated(0.1, 3, 2, 1.01, 0.99, 1.02, 0.98, 1, 1.01, 0.99, 1, 1.01, 0.99, 1.2)
	in.Catches[0].Nozzles = 3
	found := mustAccept(t, in).Outliers
	if len(found) != 2 || found[0].Value != 1 || found[0].Without != -1 || found[1].Value != 12 || found[1].Without != 1 {
		t.Errorf("got %+v", found)
	}
}

// TestReferenceAllDryWithinAWideLimit: nothing is 100 % below anything, which 110 % allow.
func TestReferenceAllDryWithinAWideLimit(t *testing.T) {
	for limit, want := range map[unit.Ratio]string{1.1: "ww", 0.9: "bb"} {
		in := litreRated(limit, 0, 0)
		in.Nozzle, in.Tolerance.Basis = calc.Nozzle{}, calc.MeanBasis
		if got := statuses(mustAccept(t, in)); got != want {
			t.Errorf("within %v: judged %s, want %s", limit, got, want)
		}
	}
}

// TestReferenceOneMoreTells, by hand: of 13 points 12 are caught, four of them worn. That is a
// third of those caught, more than 32 %; of the boom it is 4 / 13 = 31 % or, if the last is
// worn too, 5 / 13 = 38 %. One more catch tells, so it is made before a set is bought.
func TestReferenceOneMoreTells(t *testing.T) {
	in := litreRated(0.1, dozen(1.2, 1.2, 1.28, 1.28)...)
	in.CatchPointsOnBoom, in.ReplaceAllAbove = 13, 0.32
	r := mustAccept(t, in)
	if r.Worn.More != 1 || toldTo(r) != "fix_listed, all catch_more, 9 replace, 10 replace, 11 replace, 12 replace" {
		t.Errorf("%d more: %s", r.Worn.More, toldTo(r))
	}
}

// TestReferenceFirstTooCloseToSay, by hand: a jug read to 50 mL knows a catch to 14.4 mL. With
// a mean of 12.2 / 12 the last gave 1.125 first, which is 0.5 of them beyond 10 %: not surely
// above. It is surely above now, at 1.2, so it is replaced, as for the first time.
func TestReferenceFirstTooCloseToSay(t *testing.T) {
	for reading, want := range map[unit.Volume]string{1.125: "fix_listed, 12 replace", 1.2: "fix_listed, 12 still_high"} {
		in := byMean(0.1, dozen(1.2)...)
		caughtFirst(&in, 11, reading)
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			{ID: "j", Kind: certainty.Jug, Resolution: 50 * float64(unit.Millilitre), ScaleError: 1e-9}, exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0),
		}}
		if got := toldTo(mustAccept(t, in)); got != want {
			t.Errorf("%v at first: %s, want %s", reading, got, want)
		}
	}
}

// TestAllDryIsNotJudgedByItsMean: there is none, so nothing is known of how sure it is.
func TestAllDryIsNotJudgedByItsMean(t *testing.T) {
	in := byMean(0.1, 0, 0)
	in.Measuring.Uncertainty = true
	for _, u := range mustAccept(t, in).Uncertainty.Catches {
		if u.Within != (certainty.Conformity{}) {
			t.Errorf("got %+v", u.Within)
		}
	}
}

// TestReferenceFewMisread: where five of twelve catches, or six, were read in fluid ounces and
// entered in millilitres, it is 29.57 times as much that would agree with the others.
func TestReferenceFewMisread(t *testing.T) {
	for _, misread := range []int{5, 6} {
		in := enteredSheet()
		for i := range misread {
			in.Output.Catches[i].Volume /= 29.5735
		}
		r := mustSheet(t, in)
		if len(r.Doubts) != 1 || r.Doubts[0].Slip.Kind != calc.SlipUnit {
			t.Fatalf("%d: doubted %s", misread, doubtful(r))
		}
		agrees(t, "what would agree", r.Doubts[0].Slip.Factor, 29.5735, 1e-4)
	}
}

// TestReferenceUnplacedMayBeAnywhere: with catches at the left and the centre none was made at
// the right, unless one of them is not placed and may have been.
func TestReferenceUnplacedMayBeAnywhere(t *testing.T) {
	for first, want := range map[certainty.Position]calc.PartStatus{certainty.Left: calc.NotDone, certainty.Unplaced: calc.Passed} {
		in := enteredSheet()
		for i := range in.Output.Catches {
			in.Output.Catches[i].Position = []certainty.Position{certainty.Left, certainty.Center}[i%2]
		}
		in.Output.Catches[0].Position = first
		if r := mustSheet(t, in); r.OutputStatus != want {
			t.Errorf("the first at %q: %v", first, r.OutputStatus)
		}
	}
}

// TestReferenceOneGaugeReadTwice: a catch whose own pressure is the common one, by the same
// gauge, is known as well as one without: what the gauge is off by, 4 %, is off in both. So
// the scatter of the round is known as well, whichever catches have one.
func TestReferenceOneGaugeReadTwice(t *testing.T) {
	of := func(own ...int) certainty.Uncertainty {
		in := litreRated(0.1, 1, 1.05, 0.95, 1.02)
		in.Gauge = "g"
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			exact("j", certainty.Jug, 0.01), exact("w", certainty.Stopwatch, 0), exact("g", certainty.Gauge, 0.04),
		}}
		for _, i := range own {
			in.Catches[i].SprayPressure, in.Catches[i].Gauge = 3*unit.Bar, "g"
		}
		return mustAccept(t, in).Uncertainty.CoefficientOfVariation
	}
	for _, own := range [][]int{{1}, {0, 2}, {1, 3}, {0, 1, 2, 3}} {
		agrees(t, "gauge", of(own...).Budget[certainty.SourceGaugeScale].Standard, of().Budget[certainty.SourceGaugeScale].Standard, 1e-9)
	}
}
