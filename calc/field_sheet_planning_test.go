package calc_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// plannedSheet is the sheet worked by hand at 24.75 gal/acre, wanted at 20: a gear that
// drives 3.75 mph at the same engine speed gives 24.75 x 3 / 3.75 = 19.8.
func plannedSheet() calc.FieldSheetInput {
	in := wholeSheet()
	in.Target.ApplicationRate = 20 * unit.USGallonPerAcre
	in.Planning = &calc.CorrectionsInput{
		Measured: calc.MeasuredState{EngineSpeed: 1900 * unit.RevolutionPerMinute, Gear: "low"},
		Gears: []calc.Gear{
			{Label: "low", GroundSpeed: 3 * unit.MilePerHour, EngineSpeed: 1900 * unit.RevolutionPerMinute},
			{Label: "high", GroundSpeed: 3.75 * unit.MilePerHour, EngineSpeed: 1900 * unit.RevolutionPerMinute},
		},
		Pump:              calc.Pump{Type: calc.PositiveDisplacement, Drive: calc.ShaftDrive, Regulation: calc.ReliefValve},
		EngineSpeedLimits: calc.EngineSpeedRange{Low: 1600 * unit.RevolutionPerMinute, High: 2000 * unit.RevolutionPerMinute},
	}
	return in
}

// TestReferenceFieldSheetPlanning: a sheet that knows its gears plans by them.
func TestReferenceFieldSheetPlanning(t *testing.T) {
	r := mustSheet(t, plannedSheet())
	i := slices.IndexFunc(r.Correction.Plans, func(p calc.Plan) bool { return p.Change == calc.ChangeGear })
	if i < 0 {
		t.Fatalf("no plan by gear: %+v", r.Correction)
	}
	p := r.Correction.Plans[i]
	if rate := p.PredictedApplicationRate.In(unit.USGallonPerAcre); p.Gear != 2 || math.Abs(rate/19.8-1) > 1e-9 {
		t.Errorf("gear %d gives %v", p.Gear, rate)
	}
	in := plannedSheet()
	in.Planning = nil
	for _, p := range mustSheet(t, in).Correction.Plans {
		if p.Change != calc.ChangeSpeed && p.Change != calc.ChangePressure {
			t.Errorf("a plan by %v without anything to plan with", p.Change)
		}
	}
}

// TestFieldSheetPlanningRefuses finds each violation where the sheet has the member.
func TestFieldSheetPlanningRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.FieldSheetInput){
		"planning.gears[1].label: duplicate_label":           func(in *calc.FieldSheetInput) { in.Planning.Gears[1].Label = "low" },
		"machine.gear: unknown_label":                        func(in *calc.FieldSheetInput) { in.Planning.Measured.Gear = "none" },
		"target.applicationRate: outside_spray_volume_range": func(in *calc.FieldSheetInput) { in.Planning.SprayVolumeRange = calc.RateRange{Low: 1, High: 2} },
		"planning.engineSpeedLimits.low: range_inverted":     func(in *calc.FieldSheetInput) { in.Planning.EngineSpeedLimits.Low = 1000 },
	} {
		in := plannedSheet()
		change(&in)
		if _, err := calc.FieldSheet(in); !slices.Contains(strings.Split(refusal(err), "; "), want) {
			t.Errorf("got %v, want %v", err, want)
		}
	}
}

// TestFieldSheetStepsNameTheirPlace: a step of no catch and no bed has -1 for both,
// one of a catch or of a bed has the other -1.
func TestFieldSheetStepsNameTheirPlace(t *testing.T) {
	in := wholeSheet()
	in.Output.Catches[2].Volume *= 0.7
	in.Maintenance.Beds = []calc.BedInspection{{}, {Replace: 1}}
	places := map[[2]int]bool{}
	for _, s := range mustSheet(t, in).Steps {
		places[[2]int{s.Catch, s.Bed}] = true
	}
	for _, want := range [][2]int{{-1, -1}, {2, -1}, {-1, 1}} {
		if !places[want] {
			t.Errorf("no step of catch %d and bed %d, only %v", want[0], want[1], places)
		}
		delete(places, want)
	}
	if len(places) > 0 {
		t.Errorf("steps of %v", places)
	}
}
