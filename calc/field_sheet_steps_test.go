package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestReferenceOneLabelRate: a rate that is the maximum and the minimum of its label is
// within its tolerance, and nobody can be sure that it keeps the label.
func TestReferenceOneLabelRate(t *testing.T) {
	in := wholeSheet()
	rate := mustSheet(t, in).Rate.ApplicationRate
	in.Target.ApplicationRate, in.Target.LabelMaximum, in.Target.LabelMinimum = rate, rate, rate
	r := mustSheet(t, in)
	if _, settle := theStep(r, calc.StepSettleRate); r.RateStatus != calc.NotDone || r.Rate.Verdict != finding.Within || !settle {
		t.Errorf("rate %v, %v, steps %v", r.RateStatus, r.Rate.Verdict, stepCodes(r))
	}
}

// TestReferenceBasisOfLabel: with rows a rate of the target or of the label needs its basis,
// also where a maximum is the minimum, or the target.
func TestReferenceBasisOfLabel(t *testing.T) {
	for _, c := range [][3]unit.ApplicationRate{{25, 0, 0}, {0, 25, 25}, {25, 25, 0}, {25, 0, 25}, {25, 25, 25}, {0, 25, 0}} {
		in := wholeSheet()
		in.Machine.RowSpacing = 120 * unit.Inch
		for i, x := range []*unit.ApplicationRate{&in.Target.ApplicationRate, &in.Target.LabelMaximum, &in.Target.LabelMinimum} {
			*x = c[i] * unit.USGallonPerAcre
		}
		_, err := calc.FieldSheet(in)
		if !slices.Contains(strings.Split(refusal(err), "; "), "target.rateBasis: "+calc.CodeRateBasisRequired) {
			t.Errorf("%v: refused with %q", c, refusal(err))
		}
	}
}

// TestReferenceLabelSteps: 24.75 gal/acre are below a minimum of 30, and sure to be: that
// is a step unless the rate is doubted. 25 as the maximum is too near to be sure, and 8 % less
// than it is within the tolerance of the target: so there is a plan, before what would tell.
func TestReferenceLabelSteps(t *testing.T) {
	steps := func(change func(*calc.FieldSheetInput)) []calc.StepCode {
		in := enteredSheet()
		plainTarget(&in)
		change(&in)
		return stepCodes(mustSheet(t, in))
	}
	under := func(in *calc.FieldSheetInput) {
		in.Target.ApplicationRate, in.Target.LabelMinimum = 32*unit.USGallonPerAcre, 30*unit.USGallonPerAcre
	}
	near := func(in *calc.FieldSheetInput) {
		in.Target.ApplicationRate, in.Target.LabelMaximum = 24*unit.USGallonPerAcre, 25*unit.USGallonPerAcre
	}
	cab := func(in *calc.FieldSheetInput) { in.Pressure.CabPressure /= 10 }
	if got := steps(under); got[0] != calc.StepUnderLabelMinimum {
		t.Errorf("under: %v", got)
	}
	if got := steps(func(in *calc.FieldSheetInput) { under(in); in.Machine.BedWidth *= 12 }); got[0] != calc.StepCheckEntry || slices.Contains(got, calc.StepUnderLabelMinimum) {
		t.Errorf("under, by a doubted width: %v", got)
	}
	got := steps(near)
	if plan := slices.Index(got, calc.StepChoosePlan); plan < 0 || plan > slices.Index(got, calc.StepSettleRate) {
		t.Errorf("near: %v", got)
	}
	if got := steps(func(in *calc.FieldSheetInput) { near(in); cab(in) }); slices.Contains(got, calc.StepChoosePlan) || !slices.Contains(got, calc.StepSettleRate) {
		t.Errorf("near, the cab gauge doubted: %v", got)
	}
}

// TestReferenceLimitSteps: driven at 3 mph of 4 to 5. Any of them need (4 / 3)^2 x 62.5 = 111
// psi for the same rate, of 90: the nozzle or the gear is to be changed. Beside a question, or
// on an uneven boom, nothing is said of it yet.
func TestReferenceLimitSteps(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*calc.FieldSheetInput)
		want   calc.StepCode
	}{
		"out of reach": {func(*calc.FieldSheetInput) {}, calc.StepChangeNozzleOrGear},
		"no target":    {func(in *calc.FieldSheetInput) { in.Target.ApplicationRate = 0 }, calc.StepDriveWithinLimits},
		"a question":   {func(in *calc.FieldSheetInput) { in.Pressure.CabPressure /= 10 }, calc.StepCheckEntry},
		"uneven":       {func(in *calc.FieldSheetInput) { in.Pressure.Readings[0] *= 0.7 }, calc.StepRepairBoom},
	} {
		in := enteredSheet()
		plainTarget(&in)
		in.Limits.GroundSpeed = calc.SpeedRange{Low: 4 * unit.MilePerHour, High: 5 * unit.MilePerHour}
		in.Target.RateTolerance = 5 * unit.Percent
		c.change(&in)
		var said []calc.StepCode
		for _, code := range stepCodes(mustSheet(t, in)) {
			switch code {
			case calc.StepChangeNozzleOrGear, calc.StepDriveWithinLimits, calc.StepCheckEntry, calc.StepRepairBoom:
				said = append(said, code)
			}
		}
		if !slices.Equal(said, []calc.StepCode{c.want}) {
			t.Errorf("%s: %v", name, said)
		}
	}
}

// TestReferenceStepsOfCatches: what is to be done about one catch rests on it, and on no
// other; how many more are to be caught is said where that is the step.
func TestReferenceStepsOfCatches(t *testing.T) {
	in := wholeSheet()
	in.Output.Catches = slices.Repeat(in.Output.Catches[:1], 12)
	eachCatch(&in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 1, c.Volume/2 })
	in.Output.CatchPointsOnBoom, in.Output.ReplaceAllAbove = 13, 0.32
	for i := range 4 { // a third of those caught, 4 of 13, or 5 of 13 if the last is worn, too
		in.Output.Catches[i].Volume *= []unit.Volume{1.2, 1.2, 1.28, 1.28}[i]
	}
	r := mustSheet(t, in)
	for i := range 4 {
		step := slices.IndexFunc(r.Steps, func(s calc.Step) bool { return s.Code == calc.StepReplace && s.Catch == i })
		if step < 0 {
			t.Fatalf("catch %d: %v", i, stepsOf(r))
		}
		if s := r.Steps[step]; len(s.Because) != 2 || s.Because[0].String() != fmt.Sprintf("output.catches[%d]", i) || s.More != 0 {
			t.Errorf("catch %d: %d more, because of %v", i, s.More, s.Because)
		}
	}
	if s, ok := theStep(r, calc.StepCatchMore); !ok || s.More != 1 || s.Catch != -1 || len(s.Because) != 0 {
		t.Errorf("catch more %v: %+v", ok, s)
	}
	for _, s := range r.Steps {
		if s.Reading != -1 {
			t.Errorf("step %s is of reading %d", s.Code, s.Reading)
		}
	}
}

// TestReferenceCatchesTooClose: 9.7 % of 10 is too close to be sure, by a jug of u = 1 %. One
// such catch is named, the first as any; of two none is.
func TestReferenceCatchesTooClose(t *testing.T) {
	for name, c := range map[string]struct {
		close []int
		catch int
	}{"the first": {[]int{0}, 0}, "the last": {[]int{11}, 11}, "two": {[]int{2, 7}, -1}} {
		in := twelveCatches()
		in.Measuring = certainty.Measuring{Uncertainty: true, Instruments: []certainty.Instrument{
			exact("w", certainty.Stopwatch, 0), exact("t", certainty.Tape, 0), exact("g", certainty.Gauge, 0), exact("j", certainty.Jug, 0.01732), exact("k", certainty.Jug, 0.01732),
		}}
		in.Output.Tolerance = calc.OutputTolerance{Limit: 10 * unit.Percent, Basis: calc.MeanBasis}
		for i := range in.Output.Catches {
			in.Output.Catches[i].Volume, in.Output.Catches[i].Jug = unit.Volume(1.01-0.02*float64(i%2))*unit.Litre, "j"
		}
		// 1.106 is 9.7 % above a mean of 1.008, 1.115 above one of 1.0167.
		for _, i := range c.close {
			in.Output.Catches[i].Volume, in.Output.Catches[i].Jug = unit.Volume(1.106+0.009*float64(len(c.close)-1))*unit.Litre, "k"
		}
		s, ok := theStep(mustSheet(t, in), calc.StepCheckSooner)
		if !ok || s.Catch != c.catch || len(s.Because) != len(c.close) {
			t.Errorf("%s: a step %v of catch %d because of %v", name, ok, s.Catch, s.Because)
		}
	}
}

// TestReferenceDoubtsWithTank: two entries are asked about at once, so of the tank nothing is
// asked beside two. What it says by 2.6 no slip explains.
func TestReferenceDoubtsWithTank(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	tank := func(in sheet, gallons float64) {
		in.AreaCheck = calc.AreaCheckInput{VolumeUsed: unit.Volume(gallons) * unit.USGallon, Area: unit.Acre} // 24.75
	}
	asks(t, map[string]sheetCase{
		"a tenth": {func(in sheet) { tank(in, 2.475) }, []string{"areaCheck.volumeUsed digit"}},
		"beside one": {func(in sheet) {
			tank(in, 2.475)
			in.Pressure.CabPressure /= 10
		}, []string{"pressure.cabPressure digit", "areaCheck.volumeUsed digit"}},
		"beside two": {func(in sheet) {
			tank(in, 2.475)
			in.Pressure.CabPressure, in.Pressure.TargetPressure = 6.25*unit.PoundPerSquareInch, 6.2*unit.PoundPerSquareInch
		}, []string{"pressure.targetPressure digit", "pressure.cabPressure digit"}},
		"2.6 times": {func(in sheet) { tank(in, 24.75*2.6) }, nil},
	})
}

// TestReferenceUnderPlanning: what a sheet has in a part of its own is wrong there by itself;
// what is of the planning, or of the nozzle, is so because of what the planning says.
func TestReferenceUnderPlanning(t *testing.T) {
	gears := finding.Member("gears")
	for place, want := range map[string]string{
		"engineSpeedLimits.low":  "planning.engineSpeedLimits.low because of planning.gears",
		"nozzle.exponent":        "nozzle.exponent because of planning.gears",
		"measured.groundSpeed":   "speed because of ",
		"measured.sprayPressure": "output.sprayPressure because of ",
		"measured.gear":          "machine.gear because of ",
	} {
		p := finding.Place{}
		for _, name := range strings.Split(place, ".") {
			p = finding.Member(name).Under(p)
		}
		v := calc.UnderPlanning(finding.Invalid{{Place: p, Code: finding.CodeNotPositive, Because: gears}})
		if got := v[0].Place.String() + " because of " + v[0].Because.String(); len(v) != 1 || got != want {
			t.Errorf("%s: %s", place, got)
		}
	}
}

// TestReferencePlaceOfPressureWarning: a correction goes by the pressure of the catches where
// the sheet has one, or else by that of the boom. 95 psi are beyond the nozzle's 90.
func TestReferencePlaceOfPressureWarning(t *testing.T) {
	for given, want := range map[unit.Pressure]string{95: "output.sprayPressure", 0: "pressure"} {
		in := wholeSheet()
		in.Pressure.Readings = slices.Repeat([]unit.Pressure{95 * unit.PoundPerSquareInch}, 3)
		in.Output.SprayPressure = given * unit.PoundPerSquareInch
		for i := range in.Output.Catches {
			in.Output.Catches[i].Volume *= 1.2329 // sqrt(95 / 62.5)
		}
		in.Target.ApplicationRate = 25 * unit.USGallonPerAcre
		r := mustSheet(t, in)
		if r.Correction == nil {
			t.Fatalf("%v: no correction, %v", given, stepCodes(r))
		}
		if !slices.ContainsFunc(r.Correction.Warnings, func(w finding.Warning) bool {
			return w.Code == calc.WarnOutsideLimits && w.Place.String() == want
		}) {
			t.Errorf("%v: %s", given, warned(r.Correction.Warnings))
		}
	}
}

// TestReferenceGuardOfLabel: plans keep off the label by the uncertainty of the rate, also from
// one whose maximum is its minimum; a target alone is nothing to keep off.
func TestReferenceGuardOfLabel(t *testing.T) {
	for label, guarded := range map[unit.ApplicationRate]bool{20: true, 0: false} {
		in := wholeSheet()
		in.Measuring.Uncertainty = true
		in.Target.ApplicationRate = 20 * unit.USGallonPerAcre
		in.Target.LabelMaximum, in.Target.LabelMinimum = label*unit.USGallonPerAcre, label*unit.USGallonPerAcre
		if r := mustSheet(t, in); r.Correction == nil || (r.Correction.Guard > 0) != guarded {
			t.Errorf("label of %v: %+v", label, r.Correction)
		}
	}
}

// TestReferenceSeenByEye: what was seen fails while something of it is to be done.
func TestReferenceSeenByEye(t *testing.T) {
	in := wholeSheet()
	in.Maintenance.Beds = []calc.BedInspection{{}, {}}
	if got := mustSheet(t, in).MaintenanceStatus; got != calc.Passed {
		t.Errorf("nothing seen: %v", got)
	}
	in.Maintenance.Beds[1].Replace = 1
	if got := mustSheet(t, in).MaintenanceStatus; got != calc.Failed {
		t.Errorf("one to replace: %v", got)
	}
}

// TestReferenceReferenceChecked: all nozzles 20 % above their rating are more likely one gauge, or
// one size, than worn alike, until somebody says that the nozzle is as entered.
func TestReferenceReferenceChecked(t *testing.T) {
	for confirmed, asked := range map[string]bool{"nozzle": false, "machine": true, "": true} {
		in := wholeSheet()
		eachCatch(&in, func(c *calc.AcceptanceCatch) { c.Volume *= 1.2 })
		if confirmed != "" {
			in.Confirmed = []finding.Place{finding.Member(confirmed)}
		}
		r := mustSheet(t, in)
		if _, ok := theStep(r, calc.StepCode(calc.CheckReference)); ok != asked {
			t.Errorf("%q confirmed: %v", confirmed, stepCodes(r))
		}
	}
}
