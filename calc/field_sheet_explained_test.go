package calc_test

import (
	"math"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// plainTarget leaves a sheet with one area, treated.
func plainTarget(in *calc.FieldSheetInput) { in.Machine.RowSpacing, in.Target.RateBasis = 0, "" }

// TestReferenceExplainedByCatches: all catches alike are wrong by one slip, worked by hand.
func TestReferenceExplainedByCatches(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	drops := func(n unit.Volume) func(sheet) {
		return func(in sheet) {
			plainTarget(in)
			eachCatch(in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 0, c.Volume/2*n })
		}
	}
	clock := func(in sheet) {
		plainTarget(in)
		eachCatch(in, func(c *calc.AcceptanceCatch) { c.Time, c.Volume = 1.08*unit.Second, c.Volume*68/60 })
	}
	chart := func(in sheet, gallons unit.FlowRate) {
		alone(in)
		in.Nozzle.FlowChart = []calc.FlowPoint{
			{Pressure: 40 * unit.PoundPerSquareInch, FlowRate: 0.8 * gallons * unit.USGallonPerMinute},
			{Pressure: 62.5 * unit.PoundPerSquareInch, FlowRate: gallons * unit.USGallonPerMinute},
		}
	}
	asks(t, map[string]sheetCase{
		"drops of three": {drops(3), []string{"output.catches drop from [0].volume"}},
		"drops of four":  {drops(4), []string{"output.catches drop from [0].volume"}},
		"drops of six":   {drops(6), []string{"output.catches drop from [0].volume"}},
		"one drop of five": {func(in sheet) {
			drops(5)(in)
			in.Output.Catches = in.Output.Catches[:1]
		}, []string{"output.catches drop from [0].volume"}},
		"all 1:08 as 1.08": {clock, []string{"output.catches clock from [0].time"}},
		"the only 1:08 as 1.08": {func(in sheet) {
			clock(in)
			in.Output.Catches = in.Output.Catches[:1]
		}, []string{"output.catches clock from [0].time"}},
		"all minutes as seconds": {func(in sheet) {
			plainTarget(in)
			eachCatch(in, func(c *calc.AcceptanceCatch) { c.Time /= 60 })
		}, []string{"output.catches unit from [0].time"}},
		"two, of one nozzle each": {func(in sheet) {
			plainTarget(in)
			timesAsMuch(in, 0.5)
			in.Output.Catches = in.Output.Catches[:2]
		}, []string{"output.catches one_nozzle from [0].volume"}},
		// The mean is 88 %, the middle one, the upper of two, is in order.
		"half of them dirty": {func(in sheet) {
			plainTarget(in)
			for i := range 6 {
				in.Output.Catches[i].Volume /= 1.3
			}
			in.Target.ApplicationRate *= 10
		}, []string{"target.applicationRate digit"}},
		// Not 2.5-fold from the rating, without a target.
		"0.48 of the rating": {func(in sheet) {
			plainTarget(in)
			in.Target, in.Limits = calc.SheetTarget{}, calc.CorrectionLimits{}
			timesAsMuch(in, 0.48)
		}, nil},
		// Rated by a chart alone, at 62.5 psi as caught: there is no rated flow to ask about.
		"a tenth of the chart": {func(in sheet) { timesAsMuch(in, 0.1); chart(in, 0.25) }, []string{"output.catches digit from [0].volume"}},
		// 2.8 gal/min are not usual, but there is nothing else.
		"0.28 of a chart's 2.8": {func(in sheet) { timesAsMuch(in, 1.12); chart(in, 2.8) }, []string{"output.catches digit from [0].volume"}},
	})
}

// TestReferenceExplainedByWidth: the width is wrong, or nothing explains the rate.
func TestReferenceExplainedByWidth(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	asks(t, map[string]sheetCase{
		// A bed of 80 in, nine of them 720: 180 in of a nozzle. 40 nozzles for 4 come within 15 %.
		"the width of nine beds": {func(in sheet) {
			plainTarget(in)
			in.Machine.Beds, in.Machine.BedWidth = 9, 720*unit.Inch
		}, []string{"machine.bedWidth all_beds", "machine.nozzlesPerBed digit"}},
		"a width of a nozzle, with its number": {func(in sheet) {
			alone(in)
			widthOf(in, 1.9)
			in.Machine.NozzlesPerBed = 4
		}, []string{"machine.sprayedWidthPerNozzle digit"}},
		"no beds, six times the target": {func(in sheet) {
			plainTarget(in)
			widthOf(in, 20)
			in.Target.ApplicationRate /= 6
		}, []string{"target.applicationRate", "machine.sprayedWidthPerNozzle"}},
		// 1 / 2.07: not by two nozzles for one, as each was caught alone, nor by 2.54, and less than 2.5.
		"0.48 of the target": {func(in sheet) {
			plainTarget(in)
			eachCatch(in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 1, c.Volume/2 })
			in.Target.ApplicationRate *= 2.05
		}, nil},
	})
}

// TestReferenceApartBounds: of entries like each other one is asked about from 2.5-fold of the
// middle one on, of catches also where the time is 1.7-fold apart and the volume that of the others.
func TestReferenceApartBounds(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	asks(t, map[string]sheetCase{
		"a reading 2.5-fold above": {func(in sheet) {
			in.Pressure.Readings, in.Pressure.CabPressure = []unit.Pressure{100000, 100000, 250000}, 0
		}, []string{"pressure.readings[2].pressure"}},
		"one of three, 2.5-fold below": {func(in sheet) {
			in.Pressure.Readings, in.Pressure.CabPressure = []unit.Pressure{430000, 430000, 150000}, 0
		}, []string{"pressure.readings[2].pressure"}},
		"of two nobody knows which":    {func(in sheet) { in.Pressure.Readings, in.Pressure.CabPressure = []unit.Pressure{430000, 150000}, 0 }, nil},
		"one of three catches":         {func(in sheet) { in.Output.Catches = in.Output.Catches[:3]; in.Output.Catches[1].Volume *= 10 }, []string{"output.catches[1].volume digit"}},
		"a time 1.75-fold":             {func(in sheet) { in.Output.Catches[3].Time *= 1.75 }, []string{"output.catches[3].time"}},
		"a time 1.65-fold":             {func(in sheet) { in.Output.Catches[3].Time *= 1.65 }, nil},
		"1.75-fold, 1.1 times as much": {func(in sheet) { in.Output.Catches[3].Time *= 1.75; in.Output.Catches[3].Volume *= 1.1 }, []string{"output.catches[3].time"}},
		"1.75-fold, 1.2 times as much": {func(in sheet) { in.Output.Catches[3].Time *= 1.75; in.Output.Catches[3].Volume *= 1.2 }, nil},
		"two plugged to a tenth":       {func(in sheet) { in.Output.Catches[3].Volume /= 10; in.Output.Catches[4].Volume /= 10 }, nil},
		"two in ounces as mL":          {func(in sheet) { in.Output.Catches[3].Volume /= 29.5735; in.Output.Catches[4].Volume /= 29.5735 }, []string{"output.catches[3].volume unit", "output.catches[4].volume unit"}},
		"one of one nozzle, ten times": {func(in sheet) {
			eachCatch(in, func(c *calc.AcceptanceCatch) { c.Nozzles, c.Volume = 3, c.Volume*1.5 })
			in.Output.Catches[3].Nozzles, in.Output.Catches[3].Volume = 1, 320*unit.USFluidOunce
		}, []string{"output.catches[3].volume digit"}},
		// Six are of 30 s and six of 60 s: usual is the longer, so the time of the one is right.
		"ten times, of 60 s": {func(in sheet) {
			for i := range 6 {
				in.Output.Catches[i].Time /= 2
				in.Output.Catches[i].Volume /= 2
			}
			in.Output.Catches[7].Volume *= 10
		}, []string{"output.catches[7].volume digit"}},
		// 3 and 9.84 mph, ft as m: the target tells which, and without it, or far from both, nothing does.
		"a course in m for ft":  {func(in sheet) { in.Speed.Runs[1].CourseLength *= 3.28084 }, []string{"speed.runs[1].courseLength unit"}},
		"the first in m for ft": {func(in sheet) { in.Speed.Runs[0].CourseLength *= 3.28084 }, []string{"speed.runs[0].courseLength unit"}},
		"in m for ft, no target": {func(in sheet) {
			alone(in)
			in.Speed.Runs[1].CourseLength *= 3.28084
		}, []string{"speed.runs"}},
		"in m for ft, 5 times the target": {func(in sheet) {
			plainTarget(in)
			in.Target.ApplicationRate /= 5
			in.Speed.Runs[1].CourseLength /= 3.28084
		}, []string{"speed.runs"}},
		"30 mph, no target": {func(in sheet) {
			alone(in)
			in.Speed.Runs[1].CourseLength *= 10
		}, []string{"speed.runs[1].courseLength digit"}},
	})
}

// TestReferenceReadingsOrOther: where readings and another pressure are apart, what bears the
// one or the other out: the flow at it, or what the nozzle is made for.
func TestReferenceReadingsOrOther(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	unrated := func(in sheet) { in.Nozzle.RatedFlowRate, in.Nozzle.RatedPressure = 0, 0 }
	catchesAt := func(in sheet, psi float64) {
		in.Output.SprayPressure, in.Pressure.CabPressure = unit.Pressure(psi)*unit.PoundPerSquareInch, 0
	}
	asks(t, map[string]sheetCase{
		"the cab gauge, no rating": {func(in sheet) { in.Nozzle = calc.Nozzle{}; in.Pressure.CabPressure /= 14.5038 }, []string{"pressure.cabPressure unit"}},
		// The flow is that of 62.5 psi, though the nozzle is made for 65 to 90.
		"the cab gauge, a rating": {func(in sheet) {
			in.Nozzle.PressureRange.Low = 65 * unit.PoundPerSquareInch
			in.Pressure.CabPressure /= 14.5038
		}, []string{"pressure.cabPressure unit"}},
		"catches at 6.25 psi, no rating, no range": {func(in sheet) {
			in.Nozzle = calc.Nozzle{}
			catchesAt(in, 6.25)
		}, []string{"output.sprayPressure digit", "pressure.readings digit from [0].pressure"}},
		"catches at 6.25 psi, no rating, in range": {func(in sheet) {
			unrated(in)
			catchesAt(in, 6.25)
		}, []string{"output.sprayPressure digit"}},
		"nothing read along the boom": {func(in sheet) {
			in.Pressure.Readings, in.Pressure.TargetPressure = nil, 62.5*unit.PoundPerSquareInch
			in.Output.SprayPressure = 6.25 * unit.PoundPerSquareInch
		}, []string{"output.sprayPressure digit"}},
	})
	// What stands in the cab, or was aimed at, takes nothing from what was measured.
	for name, change := range map[string]func(sheet){
		"cab":    func(in sheet) { in.Pressure.CabPressure /= 10 },
		"target": func(in sheet) { in.Pressure.TargetPressure = 6.25 * unit.PoundPerSquareInch },
	} {
		in := enteredSheet()
		change(&in)
		if r := mustSheet(t, in); len(r.Doubts) != 1 || r.PressureStatus != calc.Passed || r.OutputStatus != calc.Passed || r.RateStatus != calc.Passed {
			t.Errorf("%s: asked about %q, pressure %v, output %v, rate %v", name, entries(r), r.PressureStatus, r.OutputStatus, r.RateStatus)
		}
	}
}

// TestReferenceBeside: 6.25 psi beside 62 and 63 are a tenth of 62.5: those are 9.92 and 10.08 times it.
func TestReferenceBeside(t *testing.T) {
	in := enteredSheet()
	in.Pressure.Readings = []unit.Pressure{62 * unit.PoundPerSquareInch, 6.25 * unit.PoundPerSquareInch, 63 * unit.PoundPerSquareInch}
	d := mustSheet(t, in).Doubts[0]
	if math.Abs(d.Beside.Low-9.92) > 1e-9 || math.Abs(d.Beside.High-10.08) > 1e-9 || !d.Low {
		t.Errorf("beside %+v, low %v", d.Beside, d.Low)
	}
}

// allTypedIn says that every entry was typed in one unit.
type allTypedIn unit.ID

func (u allTypedIn) TypedIn(finding.Place) unit.ID { return unit.ID(u) }

// TestReferenceTypedUnit: a gauge in bar typed as psi is a slip of the unit; where the
// sheet was typed in kPa, whoever turned it into them took it for psi.
func TestReferenceTypedUnit(t *testing.T) {
	for typed, want := range map[unit.ID]calc.SlipKind{unit.IDPsi: calc.SlipUnit, unit.None: calc.SlipUnit, unit.IDKPa: calc.SlipConverted} {
		in := enteredSheet()
		in.Pressure.CabPressure /= 14.5038
		in.Typed = allTypedIn(typed)
		if d := mustSheet(t, in).Doubts[0]; d.Slip.Kind != want || d.Slip.Meant != unit.IDBar {
			t.Errorf("typed in %v: %+v", typed, d.Slip)
		}
	}
}

// TestReferenceClock: of a time typed as minutes and seconds with a point, 1:01 to 1:59 are
// read as such; 1.60 and 1.65 are none. Each is of one catch, of as many seconds as it says.
func TestReferenceClock(t *testing.T) {
	for typed, c := range map[float64]struct {
		seconds float64
		kind    calc.SlipKind
	}{
		1.01: {61, calc.SlipClock}, 1.59: {119, calc.SlipClock}, 2.3: {150, calc.SlipClock},
		1:    {60, calc.SlipUnit}, // a minute
		1.65: {125, ""},           // 125 / 1.65 is 26 % more than 60
	} {
		in := enteredSheet()
		in.Output.Catches = slices.Clone(in.Output.Catches)
		x := &in.Output.Catches[3]
		x.Time, x.Volume = unit.Time(typed)*unit.Second, x.Volume*unit.Volume(c.seconds/60)
		r := mustSheet(t, in)
		if got := entries(r); len(got) != 1 || r.Doubts[0].Entry.String() != "output.catches[3].time" || r.Doubts[0].Slip.Kind != c.kind {
			t.Errorf("%v: asked about %q", typed, got)
			continue
		}
		if s := r.Doubts[0].Slip; s.Kind == calc.SlipClock && math.Abs(s.Factor*typed-c.seconds) > 1e-9 {
			t.Errorf("%v: %v s", typed, s.Factor*typed)
		}
	}
}
