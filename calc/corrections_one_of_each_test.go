package calc_test

import (
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestOneOfEachListIsAList: a list of one is as much a list as a longer one.
func TestOneOfEachListIsAList(t *testing.T) {
	// With one gear and one nozzle a controller keeps both of them, too, from being changed.
	in := geared()
	in.Gears, in.RateController = in.Gears[1:2], true
	in.Nozzle = calc.LabeledNozzle{Nozzle: calc.Nozzle{Size: "03"}}
	in.Nozzles = []calc.LabeledNozzle{{Label: "small", Nozzle: calc.Nozzle{Size: "02"}}}
	var changes []calc.Change
	for _, no := range mustCorrect(t, in).Rejected {
		changes = append(changes, no.Change)
	}
	want := []calc.Change{calc.ChangeSpeed, calc.ChangePressure, calc.ChangeEngineSpeed, calc.ChangeGear, calc.ChangeNozzle}
	if !slices.Equal(changes, want) {
		t.Errorf("rejected %v, want %v", changes, want)
	}
	// One allowed class judges the plans: at 60 psi the drops are coarse, and 3.42 mph leave
	// them so.
	in = tooMuch()
	in.DropletChart, in.AllowedDropletClasses = twinFan(), []calc.DropletClass{calc.Coarse}
	if p, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangeSpeed); p == nil || p.DropletsAllowed != finding.Within {
		t.Errorf("got %+v", p)
	}
	// One gear asks for the engine speed, one nozzle of the shelf for the present one.
	in = tooMuch()
	in.Gears = geared().Gears[:1]
	if _, err := calc.Corrections(in); refusal(err) != "measured.engineSpeed: required" {
		t.Errorf("one gear: %v", err)
	}
	in = tooMuch()
	in.Nozzles = []calc.LabeledNozzle{{Label: "small", Nozzle: calc.Nozzle{Size: "02"}}}
	if _, err := calc.Corrections(in); refusal(err) != "nozzle.ratedFlowRate: required; nozzle.ratedPressure: required" {
		t.Errorf("one nozzle: %v", err)
	}
}

// TestReferenceFirstGearWithFirstNozzle, by hand: 0.87 L/min in place of the 1.2 of an 03,
// both at 3 bar, and 5 km/h in B1 for 6: 230 x 0.87 / 1.2 x 6 / 5 = 200.1 L/ha.
func TestReferenceFirstGearWithFirstNozzle(t *testing.T) {
	in := geared()
	in.Nozzle = calc.LabeledNozzle{Label: "03", Nozzle: calc.Nozzle{Size: "03"}}
	in.Nozzles = []calc.LabeledNozzle{{Label: "small", Nozzle: calc.Nozzle{RatedFlowRate: 0.87 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}}}
	p, _ := ofNozzle(mustCorrect(t, in), 1, calc.ChangeGear, calc.ChangeNozzle)
	if p == nil || p.Gear != 1 {
		t.Fatalf("got %+v", p)
	}
	agrees(t, "rate", p.PredictedApplicationRate.In(unit.LitrePerHectare), 200.1, 1e-12)
}

// TestReferenceGearWithPressureWithoutPump, by hand: where nobody knows what the flow does
// with the engine, another gear is tried at the same engine speed, with a pressure. B3 drives
// 7.2 km/h: 230 x 6 / 7.2 = 191.667, and 3 (200 / 191.667)^2 = 3.266541 bar put it right. B1
// drives 5 km/h: 276, which 1.575299 bar put right.
func TestReferenceGearWithPressureWithoutPump(t *testing.T) {
	in := geared()
	in.Pump = calc.Pump{}
	r := mustCorrect(t, in)
	for gear, bar := range map[int]float64{1: 1.575299, 3: 3.266541} {
		p := planned(r, gear, calc.ChangeGear, calc.ChangePressure)
		if p == nil {
			t.Errorf("gear %d: no plan with another pressure", gear)
			continue
		}
		agrees(t, "pressure", p.SprayPressure.In(unit.Bar), bar, 1e-6)
		if planned(r, gear, calc.ChangeGear, calc.ChangeSpeed) != nil || rejected(r, gear, calc.ChangeGear, calc.ChangeSpeed) != nil {
			t.Errorf("gear %d: a speed beside the gear, which is what makes it", gear)
		}
	}
}

// TestReferenceSpeedOfSomeGear, by hand: 6.9 km/h is 2070 rpm in a gear that drives 6 at
// 1800. It need not be in the list; a gear of 12 km/h at 1800 rpm has 1035, below the least
// of 1400. A pump that follows the engine holds it to 1800: a gear does it that drives 6.9
// there.
func TestReferenceSpeedOfSomeGear(t *testing.T) {
	gear := func(speed unit.Speed) []calc.Gear {
		return []calc.Gear{{Label: "other", GroundSpeed: speed * unit.KilometrePerHour, EngineSpeed: 1800 * unit.RevolutionPerMinute}}
	}
	follows := calc.Pump{Type: calc.PositiveDisplacement, Drive: calc.ShaftDrive, Regulation: calc.NoRegulation}
	for _, c := range []struct {
		speed unit.Speed
		pump  calc.Pump
		plan  bool
	}{{12, geared().Pump, true}, {6.9, follows, true}, {7.1, follows, false}} {
		in := geared()
		in.Measured.Gear, in.RatedShaft, in.Gears, in.Pump = "", calc.RatedShaft{}, gear(c.speed), c.pump
		if p := planned(mustCorrect(t, in), 0, calc.ChangeSpeed); (p != nil) != c.plan {
			t.Errorf("%v km/h: got %+v", c.speed, p)
		}
	}
}

// TestReferenceGearAtTheTolerance, by hand: 5.25 of 5 mph is exactly 5 % off, so it is the
// present gear, and not tried as another; 5.26 is not.
func TestReferenceGearAtTheTolerance(t *testing.T) {
	for listed, present := range map[unit.Speed]bool{5.25: true, 4.75: true, 5.26: false, 4.74: false} {
		in := geared()
		in.Measured.Gear, in.Measured.GroundSpeed = "", 5*unit.MilePerHour
		in.Gears = []calc.Gear{{Label: "it", GroundSpeed: listed * unit.MilePerHour, EngineSpeed: in.Measured.EngineSpeed}}
		r := mustCorrect(t, in)
		if tried := planned(r, 1, calc.ChangeGear) != nil || rejected(r, 1, calc.ChangeGear) != nil; tried == present {
			t.Errorf("%v mph: tried %v", listed, tried)
		}
	}
}
