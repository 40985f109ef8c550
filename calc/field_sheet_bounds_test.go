package calc_test

import (
	"math"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// alone leaves a sheet with what its width, speed, flow and pressure say by themselves.
func alone(in *calc.FieldSheetInput) {
	in.Machine.RowSpacing, in.Target, in.Limits, in.Nozzle = 0, calc.SheetTarget{}, calc.CorrectionLimits{}, calc.Nozzle{}
}

// atSpeed is a sheet whose runs were so many mph: they are of 3 mph as it is.
func atSpeed(in *calc.FieldSheetInput, mph float64) {
	for i := range in.Speed.Runs {
		in.Speed.Runs[i].Time *= unit.Time(3 / mph)
	}
}

// widthOf is a sheet of nozzles so many inches apart, without beds.
func widthOf(in *calc.FieldSheetInput, inches float64) {
	in.Machine.BedWidth, in.Machine.SprayedWidthPerNozzle = 0, unit.Length(inches)*unit.Inch
}

func eachCatch(in *calc.FieldSheetInput, change func(*calc.AcceptanceCatch)) {
	for i := range in.Output.Catches {
		change(&in.Output.Catches[i])
	}
}

func timesAsMuch(in *calc.FieldSheetInput, by unit.Volume) {
	eachCatch(in, func(c *calc.AcceptanceCatch) { c.Volume *= by })
}

// readAt reads three alike, the only pressures of the sheet.
func readAt(in *calc.FieldSheetInput, p unit.Pressure) {
	in.Pressure.Readings, in.Pressure.CabPressure = slices.Repeat([]unit.Pressure{p}, 3), 0
}

// asks compares what sheets, each enteredSheet with a change, are asked about with what was
// worked out by hand.
func asks(t *testing.T, cases map[string]sheetCase) {
	t.Helper()
	for name, c := range cases {
		in := enteredSheet()
		in.Pressure.Readings, in.Output.Catches, in.Speed.Runs = slices.Clone(in.Pressure.Readings), slices.Clone(in.Output.Catches), slices.Clone(in.Speed.Runs)
		c.change(&in)
		if got := entries(mustSheet(t, in)); !slices.Equal(got, c.want) {
			t.Errorf("%s: asked about %q, want %q", name, got, c.want)
		}
	}
}

type sheetCase struct {
	change func(*calc.FieldSheetInput)
	want   []string
}

// TestReferenceBoundsOfMachinery: no sprayer lies beyond 0.5 to 25 mph, 5 to 600 psi, 2 to
// 80 in of a nozzle and 0.5 to 1,500 gal/acre. A sheet just inside is believed, with nothing
// else to hold it against; just outside it is asked about, with a digit that makes it usual.
func TestReferenceBoundsOfMachinery(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	asks(t, map[string]sheetCase{
		"0.55 mph": {func(in sheet) { alone(in); atSpeed(in, 0.55) }, nil},
		"0.45 mph": {func(in sheet) { alone(in); atSpeed(in, 0.45) }, []string{"speed.runs digit from [0].courseLength"}},
		"24 mph":   {func(in sheet) { alone(in); atSpeed(in, 24) }, nil},
		"580 psi":  {func(in sheet) { alone(in); readAt(in, 580*unit.PoundPerSquareInch) }, nil},
		"650 psi":  {func(in sheet) { alone(in); readAt(in, 650*unit.PoundPerSquareInch) }, []string{"pressure.readings digit from [0].pressure"}},
		"2.2 in":   {func(in sheet) { alone(in); widthOf(in, 2.2) }, nil},
		"1.9 in":   {func(in sheet) { alone(in); widthOf(in, 1.9) }, []string{"machine.sprayedWidthPerNozzle digit"}},
		"75 in":    {func(in sheet) { alone(in); widthOf(in, 75) }, nil},
		"85 in":    {func(in sheet) { alone(in); widthOf(in, 85) }, []string{"machine.sprayedWidthPerNozzle digit"}},
		// 24.75 / 45 is 0.55; 24.75 / 55 is 0.45. Of the latter the catches are unusual, too: a
		// 55th of 0.25 gal/min. 20 in for 20 cm doubles the rate and more.
		"0.55 gal/acre": {func(in sheet) { alone(in); timesAsMuch(in, 1./45) }, nil},
		"0.45 gal/acre": {func(in sheet) { alone(in); timesAsMuch(in, 1./55) }, []string{"output.catches digit from [0].volume", "machine.bedWidth unit"}},
		// 0.1 gal/acre: 0.1 x 13 x 8 / 5940 = 0.000175 gal/min, a quart for an ounce 32 times as
		// much. That is usual; a tenth of 13 mph would not be, so nobody is asked about it.
		"13 mph, 8 in, 0.1 gal/acre": {func(in sheet) {
			alone(in)
			atSpeed(in, 13)
			widthOf(in, 8)
			timesAsMuch(in, 0.1*13*8/5940/0.25)
		}, []string{"output.catches unit from [0].volume"}},
		"4.5 psi, nothing caught": {func(in sheet) {
			alone(in)
			readAt(in, 4.5*unit.PoundPerSquareInch)
			in.Output = calc.SheetOutput{}
		}, []string{"pressure.readings digit from [0].pressure"}},
		"4.5 psi, read once": {func(in sheet) {
			alone(in)
			in.Pressure = calc.PressureUniformityInput{Readings: []unit.Pressure{4.5 * unit.PoundPerSquareInch}}
		}, []string{"pressure.readings digit from [0].pressure"}},
		"the catches' own in bar, nothing read": {func(in sheet) {
			alone(in)
			in.Pressure = calc.PressureUniformityInput{}
			eachCatch(in, func(c *calc.AcceptanceCatch) { c.SprayPressure = 62.5 / 14.5038 * unit.PoundPerSquareInch })
		}, []string{"output.catches digit from [0].sprayPressure"}},
	})
}

// TestReferenceBoundsOfUsual: of two entries that explain the same by a digit, that is doubted
// first which is not usual as it stands, and that alone whose meaning is usual. Usual are
// 1.5 to 12 mph, 10 to 200 psi, 0.03 to 2.5 gal/min of a nozzle and 4 to 300 gal/acre.
func TestReferenceBoundsOfUsual(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	// At so many mph instead of 3 the rate is 24.75 x 3 / mph; the target is ten times that.
	fast := func(mph float64) func(sheet) {
		return func(in sheet) {
			in.Machine.RowSpacing, in.Target.RateBasis, in.Limits = 0, "", calc.CorrectionLimits{}
			atSpeed(in, mph)
			in.Target.ApplicationRate = unit.ApplicationRate(24.75*3/mph*10) * unit.USGallonPerAcre
		}
	}
	// A flow of 0.25 gal/min is as rated once the nozzle was rated at meant.
	pressures := func(read, rated, meant float64) func(sheet) {
		return func(in sheet) {
			alone(in)
			readAt(in, unit.Pressure(read)*unit.PoundPerSquareInch)
			in.Nozzle.RatedPressure = unit.Pressure(rated) * unit.PoundPerSquareInch
			in.Nozzle.RatedFlowRate = unit.FlowRate(0.25*math.Sqrt(meant/read)) * unit.USGallonPerMinute
		}
	}
	// All catches give so many gal/min of a nozzle; it is rated at so many, at their pressure.
	flows := func(caught, rated float64) func(sheet) {
		return func(in sheet) {
			alone(in)
			timesAsMuch(in, unit.Volume(caught/0.25))
			readAt(in, 40*unit.PoundPerSquareInch)
			in.Nozzle = calc.Nozzle{RatedFlowRate: unit.FlowRate(rated) * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch}
		}
	}
	asks(t, map[string]sheetCase{
		// 17 mph are not usual, 1.7 are; of 43.7 and 4.37 gal/acre both are.
		"17 mph for 1.7": {fast(17), []string{"speed.runs digit from [0].courseLength", "target.applicationRate digit"}},
		// 1.4 mph are not usual.
		"14 mph, not for 1.4": {fast(14), []string{"target.applicationRate digit"}},
		// The readings are not usual and would be 90 psi, or 30; the rating would be 11, 9, 180 or 220.
		"9 psi, or rated at 11":     {pressures(9, 110, 11), []string{"pressure.readings digit from [0].pressure", "nozzle.ratedPressure digit"}},
		"9 psi, not rated at 9":     {pressures(9, 90, 9), []string{"pressure.readings digit from [0].pressure"}},
		"300 psi, or rated at 180":  {pressures(300, 18, 180), []string{"pressure.readings digit from [0].pressure", "nozzle.ratedPressure digit"}},
		"300 psi, not rated at 220": {pressures(300, 22, 220), []string{"pressure.readings digit from [0].pressure"}},
		// 6.25 psi would not be usual, nor are 4; 40 are.
		"rated at 4 psi": {pressures(62.5, 4, 40), []string{"nozzle.ratedPressure digit"}},
		// A tenth of the catches is usual, or not; a rating of 0.028 and of 0.035 times ten is.
		"0.35 for 0.035 gal/min":    {flows(0.35, 0.035), []string{"output.catches digit from [0].volume", "nozzle.ratedFlowRate digit"}},
		"0.28, not for 0.028":       {flows(0.28, 0.028), []string{"nozzle.ratedFlowRate digit"}},
		"0.24 for 2.4 gal/min":      {flows(0.24, 2.4), []string{"output.catches digit from [0].volume", "nozzle.ratedFlowRate digit"}},
		"0.28, not for 2.8 gal/min": {flows(0.28, 2.8), []string{"nozzle.ratedFlowRate digit"}},
	})
}

// TestReferenceBoundsOfRange: a pressure is asked about from 2.5 times the highest on, or
// down from the lowest over 2.5, of what the nozzle is made for, or else of what is allowed. Of
// 2 to 6 bar that is 15 and 0.8 bar. 15 bar are 217 psi, and 217 kPa 2.2 bar; 0.8 bar are 80 kPa,
// and 80 psi 5.5 bar. The digits, 1.5 and 8 bar, are outside of what it is made for.
func TestReferenceBoundsOfRange(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	made := func(bar float64) func(sheet) {
		return func(in sheet) {
			alone(in)
			readAt(in, unit.Pressure(bar*1e5))
			in.Nozzle.PressureRange = calc.PressureRange{Low: 200000, High: 600000}
		}
	}
	asks(t, map[string]sheetCase{
		"15 bar":   {made(15), []string{"pressure.readings unit from [0].pressure"}},
		"14.9 bar": {made(14.9), nil},
		"0.8 bar":  {made(0.8), []string{"pressure.readings unit from [0].pressure"}},
		"0.81 bar": {made(0.81), nil},
		// 12 bar are 2 x 6; only 4.5 are allowed, and 1.2 bar are. The nozzle's own range goes first.
		"12 bar of 4.5 allowed": {func(in sheet) {
			alone(in)
			readAt(in, 1200000)
			in.Limits.SprayPressure = calc.PressureRange{Low: 100000, High: 450000}
		}, []string{"pressure.readings digit from [0].pressure"}},
		"12 bar of 6, and 4.5 allowed": {func(in sheet) {
			made(12)(in)
			in.Limits.SprayPressure = calc.PressureRange{Low: 100000, High: 450000}
		}, nil},
		"no pressure known, a tenth of the target": {func(in sheet) {
			in.Pressure, in.Machine.RowSpacing, in.Target.RateBasis = calc.PressureUniformityInput{}, 0, ""
			in.Nozzle = calc.Nozzle{PressureRange: calc.PressureRange{Low: 200000, High: 600000}}
			in.Target.ApplicationRate *= 11.2
			timesAsMuch(in, 1.12) // of 0.28 gal/min, and 2.8 are not usual
		}, []string{"target.applicationRate digit"}},
	})
}

// TestReferenceBoundsOfBasis: bed and row spacing are asked about as the two areas of a rate
// when they are 1.2-fold apart or more, and the rate is as wanted by the other one.
func TestReferenceBoundsOfBasis(t *testing.T) {
	type sheet = *calc.FieldSheetInput
	// The target is the rate per field area, entered as one of treated area.
	rows := func(spacing unit.Length) func(sheet) {
		return func(in sheet) {
			in.Machine.RowSpacing = spacing
			in.Target.ApplicationRate *= unit.ApplicationRate(in.Machine.BedWidth / spacing)
		}
	}
	asks(t, map[string]sheetCase{
		"80 of 120 in": {rows(120 * unit.Inch), []string{"target.rateBasis basis"}},
		"80 of 100 in": {rows(100 * unit.Inch), []string{"target.rateBasis basis"}},
		"80 of 92 in":  {rows(92 * unit.Inch), nil},
		"0.8 of 1 m": {func(in sheet) {
			in.Target.ApplicationRate *= unit.ApplicationRate(80 * unit.Inch / 0.8)
			in.Machine.BedWidth = 0.8
			rows(1)(in)
		}, []string{"target.rateBasis basis"}},
		// The rows times ten, by field area: 25 x 80 / 120 gal/acre are wanted.
		"rows times ten": {func(in sheet) {
			in.Target.RateBasis = calc.RateBasisField
			in.Target.ApplicationRate *= 80. / 120
			in.Machine.RowSpacing *= 10
		}, []string{"machine.rowSpacing digit"}},
	})
}
