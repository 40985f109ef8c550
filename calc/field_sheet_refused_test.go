package calc_test

import (
	"errors"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestFieldSheetRefuses: each thing that a sheet cannot be worked with, one at a time.
func TestFieldSheetRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*calc.FieldSheetInput)
		want   finding.Violation
	}{
		// Also on a sheet that has no pressure to move its flow to, whatever the rate is.
		"a chart out of order": {func(in *calc.FieldSheetInput) {
			in.Pressure.Readings = nil
			in.Nozzle = calc.Nozzle{FlowChart: []calc.FlowPoint{{Pressure: 3 * unit.Bar, FlowRate: unit.LitrePerMinute}, {Pressure: 2 * unit.Bar, FlowRate: unit.LitrePerMinute}}}
		}, finding.Violation{Place: finding.Member("nozzle").Item("flowChart", 1).Member("pressure"), Code: calc.CodeNotRising}},
		"bed without nozzles":   {func(in *calc.FieldSheetInput) { in.Machine.NozzlesPerBed = 0 }, finding.Violation{Place: finding.Member("machine").Member("nozzlesPerBed"), Code: finding.CodeRequired, Because: finding.Member("machine").Member("bedWidth")}},
		"two widths":            {func(in *calc.FieldSheetInput) { in.Machine.SprayedWidthPerNozzle = 1 }, finding.Violation{Place: finding.Member("machine").Member("bedWidth"), Code: finding.CodeConflict, Because: finding.Member("machine").Member("sprayedWidthPerNozzle")}},
		"negative nozzles":      {func(in *calc.FieldSheetInput) { in.Machine.NozzlesPerBed = -1 }, finding.Violation{Place: finding.Member("machine").Member("nozzlesPerBed"), Code: finding.CodeNotPositive}},
		"spacing without basis": {func(in *calc.FieldSheetInput) { in.Machine.RowSpacing = 3 }, finding.Violation{Place: finding.Member("target").Member("rateBasis"), Code: calc.CodeRateBasisRequired}},
		"field without spacing": {func(in *calc.FieldSheetInput) { in.Target.RateBasis = calc.RateBasisField }, finding.Violation{Place: finding.Member("machine").Member("rowSpacing"), Code: finding.CodeRequired, Because: finding.Member("target").Member("rateBasis")}},
		"spacing without a bed": {func(in *calc.FieldSheetInput) {
			in.Machine = calc.Machine{RowSpacing: 3, SprayedWidthPerNozzle: 1}
		}, finding.Violation{Place: finding.Member("machine").Member("nozzlesPerBed"), Code: finding.CodeRequired, Because: finding.Member("machine").Member("rowSpacing")}},
		"target over the label": {func(in *calc.FieldSheetInput) { in.Target.LabelMaximum = 1e-9 }, finding.Violation{Place: finding.Member("target").Member("applicationRate"), Code: calc.CodeAboveLabelMaximum}},
		"run without time":      {func(in *calc.FieldSheetInput) { in.Speed.Runs[1].Time = 0 }, finding.Violation{Place: finding.Member("speed").Item("runs", 1).Member("time"), Code: finding.CodeRequired}},
		"catch below nothing":   {func(in *calc.FieldSheetInput) { in.Output.Catches[2].Volume = -1 }, finding.Violation{Place: finding.Member("output").Item("catches", 2).Member("volume"), Code: finding.CodeNotPositive}},
		"half a rating":         {func(in *calc.FieldSheetInput) { in.Nozzle.RatedPressure = 0 }, finding.Violation{Place: finding.Member("nozzle").Member("ratedPressure"), Code: finding.CodeRequired, Because: finding.Member("nozzle").Member("ratedFlowRate")}},
		"half a rating alone": {func(in *calc.FieldSheetInput) {
			in.Nozzle.RatedPressure, in.Output.Catches = 0, nil
		}, finding.Violation{Place: finding.Member("nozzle").Member("ratedPressure"), Code: finding.CodeRequired, Because: finding.Member("nozzle").Member("ratedFlowRate")}},
		"tank without an area":  {func(in *calc.FieldSheetInput) { in.AreaCheck.VolumeUsed = 1 }, finding.Violation{Place: finding.Member("areaCheck").Member("area"), Code: finding.CodeRequired, Instead: []finding.Place{finding.Member("areaCheck").Member("courseLength"), finding.Member("areaCheck").Member("width")}}},
		"negative finding":      {func(in *calc.FieldSheetInput) { in.Maintenance.Beds = []calc.BedInspection{{Clean: -1}} }, finding.Violation{Place: finding.Member("maintenance").Item("beds", 0).Member("clean"), Code: finding.CodeNotPositive}},
		"inverted range":        {func(in *calc.FieldSheetInput) { in.Nozzle.PressureRange.Low = 1e9 }, finding.Violation{Place: finding.Member("nozzle").Member("pressureRange").Member("low"), Code: finding.CodeRangeInverted}},
		"inverted speed limits": {func(in *calc.FieldSheetInput) { in.Limits.GroundSpeed.Low = 100 }, finding.Violation{Place: finding.Member("limits").Member("groundSpeed").Member("low"), Code: finding.CodeRangeInverted}},
	} {
		t.Run(name, func(t *testing.T) {
			in := wholeSheet()
			c.change(&in)
			_, err := calc.FieldSheet(in)
			var v finding.Invalid
			if !errors.As(err, &v) || !slices.ContainsFunc(v, c.want.Equal) {
				t.Fatalf("got %v, want %v among it", err, c.want)
			}
			for i, x := range v {
				if slices.ContainsFunc(v[:i], x.Equal) {
					t.Errorf("%v stands twice", x)
				}
			}
		})
	}
}

// TestFieldSheetParts: what the sheet does not hold is not done, one reading is a
// reading, and a cost is there when it was given.
func TestFieldSheetParts(t *testing.T) {
	in := wholeSheet()
	r := mustSheet(t, in)
	if r.MaintenanceStatus != calc.NotDone || r.HasCost || r.Pressure == nil {
		t.Errorf("maintenance %v, cost %v, pressure %v", r.MaintenanceStatus, r.HasCost, r.Pressure)
	}
	in.Pressure.Readings = in.Pressure.Readings[1:2]
	in.Output.Catches = in.Output.Catches[:1]
	in.Speed.Runs = in.Speed.Runs[:1]
	r = mustSheet(t, in)
	if r.Pressure == nil || r.Output == nil || r.Speed == nil {
		t.Errorf("one of each is left out: %v %v %v", r.Pressure, r.Output, r.Speed)
	}
	in = wholeSheet()
	in.Cost.PerArea = 2
	if r = mustSheet(t, in); !r.HasCost {
		t.Error("there is no cost of the deviation")
	}
}

// TestFieldSheetTargetAtLabelMaximum: a target exactly at the label's maximum is
// allowed, and needs its basis like any other.
func TestFieldSheetTargetAtLabelMaximum(t *testing.T) {
	in := wholeSheet()
	in.Target.LabelMaximum = in.Target.ApplicationRate
	if _, err := calc.FieldSheet(in); err != nil {
		t.Error(err)
	}
	in.Machine.RowSpacing = 80 * unit.Inch
	if _, err := calc.FieldSheet(in); refusal(err) != "target.rateBasis: rate_basis_required" {
		t.Errorf("refused with %q", refusal(err))
	}
	in.Machine.RowSpacing, in.Target.LabelMaximum = 0, in.Target.ApplicationRate*0.99
	if _, err := calc.FieldSheet(in); refusal(err) != "target.applicationRate: above_label_maximum" {
		t.Errorf("refused with %q", refusal(err))
	}
}

// TestFieldSheetRefusesNoMore: nothing is refused besides because of what was refused: half a
// range is not inverted, catches are not without a pressure because its reading is none, and
// an instrument that lacks its id may be the one that a catch names.
func TestFieldSheetRefusesNoMore(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*calc.FieldSheetInput)
		want   string
	}{
		"lowest speed alone":     {func(in *calc.FieldSheetInput) { in.Limits.GroundSpeed = calc.SpeedRange{Low: 1} }, "limits.groundSpeed.high: required"},
		"highest speed alone":    {func(in *calc.FieldSheetInput) { in.Limits.GroundSpeed = calc.SpeedRange{High: 1} }, "limits.groundSpeed.low: required"},
		"lowest pressure alone":  {func(in *calc.FieldSheetInput) { in.Limits.SprayPressure = calc.PressureRange{Low: 1} }, "limits.sprayPressure.high: required"},
		"half a nozzle's range":  {func(in *calc.FieldSheetInput) { in.Nozzle.PressureRange.High = 0 }, "nozzle.pressureRange.high: required"},
		"reading of no pressure": {func(in *calc.FieldSheetInput) { in.Pressure.Readings[1] = 0 }, "pressure.readings[1]: required"},
		"jug without its id": {func(in *calc.FieldSheetInput) {
			in.Measuring.Instruments = []certainty.Instrument{{Kind: certainty.Jug}}
			in.Output.Catches[0].Jug = "jug A"
		}, "instruments[0].id: empty"},
	} {
		in := wholeSheet()
		in.Output.SprayPressure = 0 // that of the readings
		c.change(&in)
		_, err := calc.FieldSheet(in)
		if got := refusal(err); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
