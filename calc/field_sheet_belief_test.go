package calc_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// enteredSheet is wholeSheet with twelve drops caught of 54, whose bed of 80 in is treated out
// of 120, for 25 gal/acre of treated area.
func enteredSheet() calc.FieldSheetInput {
	in := wholeSheet()
	in.Output.Catches, in.Output.CatchPointsOnBoom = slices.Repeat(in.Output.Catches[:1], 12), 54
	in.Machine.RowSpacing, in.Target.RateBasis = 120*unit.Inch, calc.RateBasisTreated
	in.Pressure.CabPressure = 63 * unit.PoundPerSquareInch
	return in
}

// TestReferenceSlips makes one slip in a sheet that is in order. The entry is the first step,
// with the slip and what it would have been; nothing that rests on it is judged, planned or
// bought. Factors by hand: 1 bar is 14.504 psi, 1 US fl oz 29.57 mL, 1 gal/acre 9.354 L/ha.
func TestReferenceSlips(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	catch := func(in sheet, change func(*calc.AcceptanceCatch)) { change(&in.Output.Catches[3]) }
	every := func(in sheet, change func(*calc.AcceptanceCatch)) {
		for i := range in.Output.Catches {
			change(&in.Output.Catches[i])
		}
	}
	for name, c := range map[string]struct {
		slip  func(sheet)
		entry string
		kind  calc.SlipKind
		times float64 // what would agree, in times of the entry; zero where no slip is known
	}{
		"a reading in bar": {func(in sheet) { in.Pressure.Readings[1] /= 14.5038 }, "pressure.readings[1].pressure", calc.SlipUnit, 14.5038},
		"a digit lost":     {func(in sheet) { in.Pressure.Readings[2] /= 10 }, "pressure.readings[2].pressure", calc.SlipDigit, 10},
		"a digit doubled":  {func(in sheet) { in.Pressure.Readings[0] *= 10 }, "pressure.readings[0].pressure", calc.SlipDigit, 0.1},
		"a low pressure":   {func(in sheet) { in.Pressure.Readings[0] *= 0.3 }, "pressure.readings[0].pressure", "", 0},
		"all readings in bar": {func(in sheet) {
			in.Pressure.CabPressure = 0
			for i := range in.Pressure.Readings {
				in.Pressure.Readings[i] /= 14.5038
			}
		}, "pressure.readings", calc.SlipUnit, 14.5038},
		"the cab gauge in bar": {func(in sheet) { in.Pressure.CabPressure /= 14.5038 }, "pressure.cabPressure", calc.SlipUnit, 14.5038},
		"the catches' in bar":  {func(in sheet) { in.Output.SprayPressure = 62.5 / 14.5038 * unit.PoundPerSquareInch }, "output.sprayPressure", calc.SlipUnit, 14.5038},
		"readings in bar, catches' right": {func(in sheet) {
			in.Output.SprayPressure, in.Pressure.CabPressure = 62.5*unit.PoundPerSquareInch, 0
			for i := range in.Pressure.Readings {
				in.Pressure.Readings[i] *= 6.8948 // kPa
			}
		}, "pressure.readings", calc.SlipUnit, 1 / 6.8948},
		"a catch times ten": {func(in sheet) { catch(in, func(c *calc.AcceptanceCatch) { c.Volume *= 10 }) }, "output.catches[3].volume", calc.SlipDigit, 0.1},
		"a catch in mL":     {func(in sheet) { catch(in, func(c *calc.AcceptanceCatch) { c.Volume *= 29.5735 }) }, "output.catches[3].volume", calc.SlipUnit, 1 / 29.5735},
		"minutes":           {func(in sheet) { catch(in, func(c *calc.AcceptanceCatch) { c.Time /= 60 }) }, "output.catches[3].time", calc.SlipUnit, 60},
		"1:08 as 1.08": {func(in sheet) {
			catch(in, func(c *calc.AcceptanceCatch) { c.Time, c.Volume = 1.08*unit.Second, c.Volume*68/60 })
		}, "output.catches[3].time", calc.SlipClock, 68 / 1.08},
		"nozzles left out": {func(in sheet) {
			every(in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 3, c.Volume*1.5 })
			catch(in, func(c *calc.AcceptanceCatch) { c.Nozzles = 0 })
		}, "output.catches[3].nozzles", calc.SlipDrop, 3},
		"six nozzles as two": {func(in sheet) {
			every(in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 6, c.Volume*3 })
			catch(in, func(c *calc.AcceptanceCatch) { c.Nozzles = 2 })
		}, "output.catches[3].nozzles", calc.SlipDrop, 3},
		"one nozzle's amount for each drop": {func(in sheet) { every(in, func(c *calc.AcceptanceCatch) { c.Volume /= 2 }) }, "output.catches", calc.SlipOneNozzle, 2},
		"all catches in mL":                 {func(in sheet) { every(in, func(c *calc.AcceptanceCatch) { c.Volume *= 29.5735 }) }, "output.catches", calc.SlipUnit, 1 / 29.5735},
		"a digit of one run":                {func(in sheet) { in.Speed.Runs = slices.Clone(in.Speed.Runs); in.Speed.Runs[1].Time /= 10 }, "speed.runs[1].time", calc.SlipDigit, 10},
		"a run of three": {func(in sheet) {
			in.Speed.Runs = slices.Repeat(in.Speed.Runs[:1], 3)
			in.Speed.Runs[0].CourseLength *= 10
		}, "speed.runs[0].courseLength", calc.SlipDigit, 0.1},
		"the bed in feet":   {func(in sheet) { in.Machine.BedWidth /= 12 }, "machine.bedWidth", calc.SlipUnit, 12},
		"the bed in inches": {func(in sheet) { in.Machine.BedWidth *= 12 }, "machine.bedWidth", calc.SlipUnit, 1. / 12},
		"drops for nozzles": {func(in sheet) { in.Machine.NozzlesPerBed /= 2 }, "machine.nozzlesPerBed", calc.SlipOneNozzle, 2},
		"target in L/ha":    {func(in sheet) { in.Target.ApplicationRate *= 9.35396 }, "target.applicationRate", calc.SlipUnit, 1 / 9.35396},
		"rated flow times ten": {func(in sheet) {
			in.Nozzle.RatedFlowRate *= 10
		}, "nozzle.ratedFlowRate", calc.SlipDigit, 0.1},
		"treated for field": {func(in sheet) { in.Target.RateBasis = calc.RateBasisField }, "target.rateBasis", calc.SlipBasis, 0},
	} {
		t.Run(name, func(t *testing.T) {
			in := enteredSheet()
			if r := mustSheet(t, in); r.Verdict != calc.Ready || len(r.Doubts) != 0 {
				t.Fatalf("in order it is %v, %+v", r.Verdict, r.Doubts)
			}
			c.slip(&in)
			r := mustSheet(t, in)
			i := slices.IndexFunc(r.Doubts, func(d calc.Doubt) bool { return d.Entry.String() == c.entry })
			if i < 0 || len(r.Doubts) > 2 || r.Steps[0].Code != calc.StepCheckEntry || r.Verdict == calc.Ready {
				t.Fatalf("%v %v, doubts %s", r.Verdict, stepCodes(r), doubtful(r))
			}
			if d := r.Doubts[i]; d.Slip.Kind != c.kind || c.times != 0 && (d.Slip.Factor < 0.99*c.times || d.Slip.Factor > 1.01*c.times) {
				t.Errorf("slip %+v, want %s, %g times", d.Slip, c.kind, c.times)
			}
			for _, s := range r.Steps {
				switch s.Code {
				case calc.StepReplaceAllAndRecatch, calc.StepReplace, calc.StepRepairBoom, calc.StepChoosePlan, calc.StepChangeNozzleOrGear, calc.StepCleanAndRecatch:
					t.Errorf("it is told to %s", s.Code)
				}
			}
			if r.Correction != nil {
				t.Errorf("plans %+v", r.Correction.Plans)
			}
			// Once confirmed it is not asked about again, nor is what holds it.
			in.Confirmed = []finding.Place{r.Doubts[i].Entry}
			for _, d := range mustSheet(t, in).Doubts {
				if d.Entry.Equal(in.Confirmed[0]) {
					t.Error("it is asked about again")
				}
			}
			in.Confirmed = []finding.Place{finding.Member("pressure"), finding.Member("output"), finding.Member("speed"), finding.Member("machine"), finding.Member("target"), finding.Member("nozzle")}
			if again := mustSheet(t, in).Doubts; len(again) != 0 {
				t.Errorf("all is confirmed: %+v", again)
			}
		})
	}
}

func doubtful(r calc.FieldSheetResult) (all string) {
	for _, d := range r.Doubts {
		all += fmt.Sprintf("%s (%s, %s) ", d.Entry, d.Why, d.Slip.Kind)
	}
	return all
}

// TestReferenceNoDoubt: a plugged drop is dirty, whatever it gives, and an unusual machine
// whose figures bear each other out is believed. By hand: 300 gal/acre at 1 mph is twelve times the
// rate at a third of the speed, four times the flow: nozzles of four times the rating.
func TestReferenceNoDoubt(t *testing.T) {
	for name, change := range map[string]func(*calc.FieldSheetInput){
		"a drop plugged to a tenth": func(in *calc.FieldSheetInput) { in.Output.Catches[2].Volume /= 10 },
		"a dry drop":                func(in *calc.FieldSheetInput) { in.Output.Catches[2].Volume = 0 },
		"1 mph and 300 gal/acre": func(in *calc.FieldSheetInput) {
			in.Speed.Runs = slices.Repeat(in.Speed.Runs[:1], 2)
			for i := range in.Speed.Runs {
				in.Speed.Runs[i].Time *= 3
			}
			for i := range in.Output.Catches {
				in.Output.Catches[i].Volume *= 4
			}
			in.Nozzle.RatedFlowRate *= 4
			in.Target.ApplicationRate *= 12
			in.Limits = calc.CorrectionLimits{}
		},
		"12 psi": func(in *calc.FieldSheetInput) {
			in.Pressure.Readings, in.Pressure.CabPressure = slices.Repeat([]unit.Pressure{12 * unit.PoundPerSquareInch}, 3), 0
			in.Nozzle.RatedPressure, in.Nozzle.RatedFlowRate = 12*unit.PoundPerSquareInch, 0.25*unit.USGallonPerMinute
			in.Nozzle.PressureRange = calc.PressureRange{}
		},
		"15 mph": func(in *calc.FieldSheetInput) {
			in.Speed.Runs = slices.Repeat(in.Speed.Runs[:1], 2)
			for i := range in.Speed.Runs {
				in.Speed.Runs[i].Time /= 5
			}
			in.Target.ApplicationRate /= 5
			in.Limits = calc.CorrectionLimits{}
		},
		"a rate half as much again": func(in *calc.FieldSheetInput) {
			in.Target.ApplicationRate /= 1.4
			in.Machine.RowSpacing, in.Target.RateBasis = 0, ""
		},
	} {
		in := enteredSheet()
		change(&in)
		if r := mustSheet(t, in); len(r.Doubts) != 0 {
			t.Errorf("%s: %s", name, doubtful(r))
		}
	}
}

// TestPropertyDoubtsAreFew: whatever is entered, two entries are asked about at most, none
// twice, and a sheet with a question is never ready and has no plan.
func TestPropertyDoubtsAreFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anySheet(t)
		times := rapid.SampledFrom([]float64{1, 1, 0.1, 10, 29.57, 1. / 14.5, 60, 3, 12})
		in.Pressure.Readings = slices.Clone(in.Pressure.Readings)
		in.Pressure.Readings[0] *= unit.Pressure(times.Draw(t, "reading"))
		in.Output.Catches[0].Volume *= unit.Volume(times.Draw(t, "catch"))
		in.Speed.Runs[0].Time *= unit.Time(times.Draw(t, "run"))
		in.Machine.BedWidth *= unit.Length(times.Draw(t, "bed"))
		in.Target.ApplicationRate *= unit.ApplicationRate(times.Draw(t, "target"))
		r := anySheetResult(t, in)
		if len(r.Doubts) > 2 || len(r.Doubts) == 2 && r.Doubts[0].Entry.Equal(r.Doubts[1].Entry) {
			t.Fatalf("asked about %s", doubtful(r))
		}
		if len(r.Doubts) > 0 && (r.Verdict == calc.Ready || r.Correction != nil) {
			t.Fatalf("%v with %s", r.Verdict, doubtful(r))
		}
	})
}
