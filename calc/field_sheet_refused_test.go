package calc_test

import (
	"errors"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestFieldSheetRefuses: each thing that a sheet cannot be worked with, one at a time.
func TestFieldSheetRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*calc.FieldSheetInput)
		want   calc.Violation
	}{
		// Also on a sheet that has no pressure to move its flow to, whatever the rate is.
		"a chart out of order": {func(in *calc.FieldSheetInput) {
			in.Pressure.Readings = nil
			in.Nozzle = calc.Nozzle{FlowChart: []calc.FlowPoint{{Pressure: 3 * unit.Bar, FlowRate: unit.LitrePerMinute}, {Pressure: 2 * unit.Bar, FlowRate: unit.LitrePerMinute}}}
		}, calc.Violation{Field: "Nozzle.FlowChart[1].Pressure", Code: calc.CodeNotRising}},
		"bed without nozzles":   {func(in *calc.FieldSheetInput) { in.Machine.NozzlesPerBed = 0 }, calc.Violation{Field: "Machine.NozzlesPerBed", Code: calc.CodeRequired, Because: "Machine.BedWidth"}},
		"two widths":            {func(in *calc.FieldSheetInput) { in.Machine.SprayedWidthPerNozzle = 1 }, calc.Violation{Field: "Machine.BedWidth", Code: calc.CodeConflict, Because: "Machine.SprayedWidthPerNozzle"}},
		"negative nozzles":      {func(in *calc.FieldSheetInput) { in.Machine.NozzlesPerBed = -1 }, calc.Violation{Field: "Machine.NozzlesPerBed", Code: calc.CodeNotPositive}},
		"spacing without basis": {func(in *calc.FieldSheetInput) { in.Machine.RowSpacing = 3 }, calc.Violation{Field: "Target.RateBasis", Code: calc.CodeRateBasisRequired}},
		"field without spacing": {func(in *calc.FieldSheetInput) { in.Target.RateBasis = calc.RateBasisField }, calc.Violation{Field: "Machine.RowSpacing", Code: calc.CodeRequired, Because: "Target.RateBasis"}},
		"spacing without a bed": {func(in *calc.FieldSheetInput) {
			in.Machine = calc.Machine{RowSpacing: 3, SprayedWidthPerNozzle: 1}
		}, calc.Violation{Field: "Machine.NozzlesPerBed", Code: calc.CodeRequired, Because: "Machine.RowSpacing"}},
		"target over the label": {func(in *calc.FieldSheetInput) { in.Target.LabelMaximum = 1e-9 }, calc.Violation{Field: "Target.ApplicationRate", Code: calc.CodeAboveLabelMaximum}},
		"run without time":      {func(in *calc.FieldSheetInput) { in.Speed.Runs[1].Time = 0 }, calc.Violation{Field: "Speed.Runs[1].Time", Code: calc.CodeRequired}},
		"catch below nothing":   {func(in *calc.FieldSheetInput) { in.Output.Catches[2].Volume = -1 }, calc.Violation{Field: "Output.Catches[2].Volume", Code: calc.CodeNotPositive}},
		"half a rating":         {func(in *calc.FieldSheetInput) { in.Nozzle.RatedPressure = 0 }, calc.Violation{Field: "Nozzle.RatedPressure", Code: calc.CodeRequired, Because: "Nozzle.RatedFlowRate"}},
		"half a rating alone": {func(in *calc.FieldSheetInput) {
			in.Nozzle.RatedPressure, in.Output.Catches = 0, nil
		}, calc.Violation{Field: "Nozzle.RatedPressure", Code: calc.CodeRequired, Because: "Nozzle.RatedFlowRate"}},
		"tank without an area":  {func(in *calc.FieldSheetInput) { in.AreaCheck.VolumeUsed = 1 }, calc.Violation{Field: "AreaCheck.Area", Code: calc.CodeRequired, Instead: "AreaCheck.CourseLength,AreaCheck.Width"}},
		"negative finding":      {func(in *calc.FieldSheetInput) { in.Maintenance.Beds = []calc.BedFinding{{Clean: -1}} }, calc.Violation{Field: "Maintenance.Beds[0].Clean", Code: calc.CodeNotPositive}},
		"inverted range":        {func(in *calc.FieldSheetInput) { in.Nozzle.PressureRange.Low = 1e9 }, calc.Violation{Field: "Nozzle.PressureRange.Low", Code: calc.CodeRangeInverted}},
		"inverted speed limits": {func(in *calc.FieldSheetInput) { in.Limits.GroundSpeed.Low = 100 }, calc.Violation{Field: "Limits.GroundSpeed.Low", Code: calc.CodeRangeInverted}},
	} {
		t.Run(name, func(t *testing.T) {
			in := wholeSheet()
			c.change(&in)
			_, err := calc.FieldSheet(in)
			var v calc.Invalid
			if !errors.As(err, &v) || !slices.Contains(v, c.want) {
				t.Fatalf("got %v, want %v among it", err, c.want)
			}
			for i, x := range v {
				if slices.Contains(v[:i], x) {
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
	if _, err := calc.FieldSheet(in); refusal(err) != "Target.RateBasis: rate_basis_required" {
		t.Errorf("refused with %q", refusal(err))
	}
	in.Machine.RowSpacing, in.Target.LabelMaximum = 0, in.Target.ApplicationRate*0.99
	if _, err := calc.FieldSheet(in); refusal(err) != "Target.ApplicationRate: above_label_maximum" {
		t.Errorf("refused with %q", refusal(err))
	}
}
