package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// shelved is 25 % short of the target with nozzles of 0.3 gal/min at 40 psi, and has
// 0.4 and 0.5 on the shelf.
func shelved() calc.CorrectionsInput {
	in := tooMuch()
	in.Measured = calc.MeasuredState{
		ApplicationRate: 15 * unit.USGallonPerAcre, GroundSpeed: 6 * unit.MilePerHour, SprayPressure: 40 * unit.PoundPerSquareInch,
	}
	in.TargetApplicationRate, in.RateTolerance = 20*unit.USGallonPerAcre, 5*unit.Percent
	in.Limits.GroundSpeed = calc.SpeedRange{Low: 5 * unit.MilePerHour, High: 8 * unit.MilePerHour}
	in.Limits.SprayPressure = calc.PressureRange{Low: 20 * unit.PoundPerSquareInch, High: 60 * unit.PoundPerSquareInch}
	own := calc.PressureRange{Low: 30 * unit.PoundPerSquareInch, High: 90 * unit.PoundPerSquareInch}
	in.Nozzle = calc.LabeledNozzle{Label: "03", Nozzle: calc.Nozzle{Size: "03", SizeRating: calc.US40PSI, PressureRange: own}}
	in.Nozzles = []calc.LabeledNozzle{
		{Label: "03", Nozzle: calc.Nozzle{Size: "03", SizeRating: calc.US40PSI, PressureRange: own}},
		{Label: "04", Nozzle: calc.Nozzle{Size: "04", SizeRating: calc.US40PSI, PressureRange: own}},
		{Label: "05", Nozzle: calc.Nozzle{RatedFlowRate: 0.5 * unit.USGallonPerMinute, RatedPressure: 40 * unit.PoundPerSquareInch}},
	}
	return in
}

func ofNozzle(r calc.CorrectionsResult, nozzle int, changes ...calc.Change) (*calc.Plan, *calc.Rejection) {
	for i, p := range r.Plans {
		if p.Nozzle == nozzle && exactly(p.Changes, changes) {
			return &r.Plans[i], nil
		}
	}
	for i, no := range r.Rejected {
		if no.Nozzle == nozzle && exactly(no.Changes, changes) {
			return nil, &r.Rejected[i]
		}
	}
	return nil, nil
}

// TestReferenceShelf, worked by hand: 0.4 for 0.3 gal/min is 4/3 of the rate, 15 x
// 4/3 = 20. 0.5 gives 15 x 5/3 = 25, which 6 x 25/20 = 7.5 mph put right, or 40 x
// (20/25)^2 = 25.6 psi, inside 20 to 60 psi of the system. The present nozzle would
// need 40 x (20/15)^2 = 71.1 psi, over the 60 of the system though not over its own
// 90; the one on the shelf that is the present one is not tried. Neither does the speed
// alone do it, 6 x 15/20 = 4.5 mph, but both do: 5 mph give 15 x 6/5 = 18, and 40 x
// (20/18)^2 = 49.38 psi the rest.
func TestReferenceShelf(t *testing.T) {
	r := mustCorrect(t, shelved())
	if len(r.Plans) != 5 || len(r.Rejected) != 3 {
		t.Fatalf("got %+v", r)
	}
	both, _ := ofNozzle(r, 0, calc.ChangeSpeed, calc.ChangePressure)
	agrees(t, "pressure at 5 mph", both.SprayPressure.In(unit.PoundPerSquareInch), 40/0.81, 1e-12)
	next, _ := ofNozzle(r, 2, calc.ChangeNozzle)
	agrees(t, "rate with 0.4", next.PredictedApplicationRate.In(unit.USGallonPerAcre), 20, 1e-12)
	agrees(t, "flow with 0.4", next.RelativeChange.In(unit.Percent), 100.0/3, 1e-12)
	agrees(t, "its size", next.Size, 0.5, 1e-12)
	agrees(t, "its pressure", next.SprayPressure.In(unit.PoundPerSquareInch), 40, 1e-12)
	fast, _ := ofNozzle(r, 3, calc.ChangeNozzle, calc.ChangeSpeed)
	agrees(t, "speed with 0.5", fast.GroundSpeed.In(unit.MilePerHour), 7.5, 1e-12)
	agrees(t, "its size", fast.Size, 0.723144, 1e-6) // 0.5 + ln 1.25
	low, _ := ofNozzle(r, 3, calc.ChangeNozzle, calc.ChangePressure)
	agrees(t, "pressure with 0.5", low.SprayPressure.In(unit.PoundPerSquareInch), 25.6, 1e-12)
	if warned(low.Warnings) != "dropletChart: droplet_class_unknown; nozzles[2].pressureRange: nozzle_range_not_given" {
		t.Errorf("got %+v", low)
	}
	_, no := ofNozzle(r, 0, calc.ChangePressure)
	agrees(t, "pressure limit", no.PressureLimit.In(unit.PoundPerSquareInch), 60, 1e-12)
	_, no = ofNozzle(r, 3, calc.ChangeNozzle)
	agrees(t, "off with 0.5", no.Deviation.In(unit.Percent), 25, 1e-9)
}

// TestReferenceNarrowerRange: with 30 to 90 psi of its own, 0.5 may not work at the
// 25.6 psi that it would need; at 30 it gives 25 x sqrt(30/40) = 21.65, 8.3 % over.
func TestReferenceNarrowerRange(t *testing.T) {
	in := shelved()
	in.Nozzles[2].PressureRange = in.Nozzles[1].PressureRange
	_, no := ofNozzle(mustCorrect(t, in), 3, calc.ChangeNozzle, calc.ChangePressure)
	if no.Reason != calc.ReasonBelowMinimumPressure {
		t.Fatalf("got %+v", no)
	}
	agrees(t, "needed", no.NeededPressure.In(unit.PoundPerSquareInch), 25.6, 1e-12)
	agrees(t, "lowest", no.PressureLimit.In(unit.PoundPerSquareInch), 30, 1e-12)
	agrees(t, "rate there", no.ApplicationRateAtLimit.In(unit.USGallonPerAcre), 21.650635, 1e-7)
	// The range of the present nozzle is enough for a plan by pressure.
	in.Limits.SprayPressure = calc.PressureRange{}
	p, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangePressure)
	agrees(t, "pressure", p.SprayPressure.In(unit.PoundPerSquareInch), 40*16.0/9, 1e-12)
	// Ranges that do not meet: no pressure is right, whatever else is changed.
	in.Limits.SprayPressure = calc.PressureRange{Low: 5 * unit.PoundPerSquareInch, High: 25 * unit.PoundPerSquareInch}
	r := mustCorrect(t, in)
	if _, no = ofNozzle(r, 0, calc.ChangePressure); no == nil || no.Reason != calc.ReasonPressureRangesApart {
		t.Errorf("got %+v", no)
	}
	if _, no = ofNozzle(r, 2, calc.ChangeNozzle); no == nil || no.Reason != calc.ReasonPressureRangesApart || len(r.Plans) != 0 || r.Decision != calc.OutOfReach {
		t.Errorf("got %+v", r)
	}
}

// TestReferenceRatedElsewhere: 1.6 L/min at 3 bar are 1.6 x sqrt(2/3) at 2 bar, which
// is another way to say size 04; with an exponent of 0.4 it is 1.6 x (2/3)^0.4.
func TestReferenceRatedElsewhere(t *testing.T) {
	in := shelved()
	in.Nozzle.Nozzle = calc.Nozzle{RatedFlowRate: 1.2 * unit.LitrePerMinute, RatedPressure: 3 * unit.Bar}
	in.Nozzles = []calc.LabeledNozzle{{Nozzle: calc.Nozzle{RatedFlowRate: 1.306394529 * unit.LitrePerMinute, RatedPressure: 2 * unit.Bar}}}
	p, _ := ofNozzle(mustCorrect(t, in), 1, calc.ChangeNozzle)
	agrees(t, "rate", p.PredictedApplicationRate.In(unit.USGallonPerAcre), 20, 1e-9)
	in.PressureExponent = 0.4
	in.Nozzles[0].RatedFlowRate = 1.360453 * unit.LitrePerMinute // exp(0.4 ln(2/3)) = 0.850283
	p, _ = ofNozzle(mustCorrect(t, in), 1, calc.ChangeNozzle)
	agrees(t, "rate by 0.4", p.PredictedApplicationRate.In(unit.USGallonPerAcre), 20, 1e-6)
}

// TestReferenceSameNozzle: without labels a nozzle is the present one when it gives
// the same at the same pressure and has the same range.
func TestReferenceSameNozzle(t *testing.T) {
	in := shelved()
	in.Nozzles = in.Nozzles[:1]
	in.Nozzles[0].Label = ""
	if r := mustCorrect(t, in); len(r.Plans)+len(r.Rejected) != 4 {
		t.Errorf("got %+v", r)
	}
	in.Nozzles[0].Label = "03 new"
	if r := mustCorrect(t, in); len(r.Plans)+len(r.Rejected) != 9 {
		t.Errorf("got %+v", r)
	}
	in.Measured.SprayPressure = 0
	r := mustCorrect(t, in)
	if _, no := ofNozzle(r, 1, calc.ChangeNozzle); len(r.Plans)+len(r.Rejected) != 3 || no.Reason != calc.ReasonPressureNotMeasured {
		t.Errorf("got %+v", r)
	}
	in.BoomEven = calc.BoomUneven
	if r := mustCorrect(t, in); len(r.Plans) != 0 || len(r.Rejected) != 3 {
		t.Errorf("got %+v", r)
	}
}

// TestPublishedSizes: nozzles of size 02 give 0.20 and of 04 0.40 US gal/min at 40
// psi, so 04 puts on twice as much. University of Arizona sheet citing ISO 10625,
// 2012, seen in a copy only
func TestPublishedSizes(t *testing.T) {
	in := shelved()
	in.Nozzle = calc.LabeledNozzle{Nozzle: calc.Nozzle{Size: "02", SizeRating: calc.US40PSI}}
	in.Nozzles = []calc.LabeledNozzle{{Nozzle: calc.Nozzle{Size: "04", SizeRating: calc.US40PSI}}}
	in.Measured.ApplicationRate = 10 * unit.USGallonPerAcre
	p, _ := ofNozzle(mustCorrect(t, in), 1, calc.ChangeNozzle)
	printedAs(t, "rate", p.PredictedApplicationRate.In(unit.USGallonPerAcre), 20, 0)
}

func TestCorrectionsNozzlesRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.CorrectionsInput){
		"": func(*calc.CorrectionsInput) {},
		"nozzle.ratedFlowRate: required; nozzle.ratedPressure: required":         func(in *calc.CorrectionsInput) { in.Nozzle = calc.LabeledNozzle{} },
		"nozzle.size: unknown_size":                                              func(in *calc.CorrectionsInput) { in.Nozzle.Size = "9" },
		"nozzles[1].ratedFlowRate: required; nozzles[1].ratedPressure: required": func(in *calc.CorrectionsInput) { in.Nozzles[1].Size = "" },
		"nozzles[2].ratedPressure: required":                                     func(in *calc.CorrectionsInput) { in.Nozzles[2].RatedPressure = 0 },
		"nozzles[2].label: duplicate_label":                                      func(in *calc.CorrectionsInput) { in.Nozzles[2].Label = "04" },
		"nozzles[0].pressureRange.low: range_inverted": func(in *calc.CorrectionsInput) {
			in.Nozzles[0].PressureRange.Low = unit.Bar * 100
		},
		"nozzle.pressureRange.high: required": func(in *calc.CorrectionsInput) {
			in.Nozzles, in.Nozzle.Nozzle = nil, calc.Nozzle{PressureRange: calc.PressureRange{Low: 1}}
		},
	} {
		in := shelved()
		change(&in)
		if _, err := calc.Corrections(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}

// TestReferenceChartOnTheShelf, by hand: by its chart the nozzle on the shelf gives 0.4
// gal/min at the 40 psi of the catches, where the present one gives 0.3, rated or by a
// chart of its own: 15 x 4/3 = 20 gal/acre.
func TestReferenceChartOnTheShelf(t *testing.T) {
	chart := func(flows ...unit.FlowRate) calc.Nozzle {
		var n calc.Nozzle
		for i, q := range flows {
			n.FlowChart = append(n.FlowChart, calc.FlowPoint{Pressure: unit.Pressure(20+20*i) * unit.PoundPerSquareInch, FlowRate: q * unit.USGallonPerMinute})
		}
		return n
	}
	for name, present := range map[string]calc.Nozzle{"rated": shelved().Nozzle.Nozzle, "chart": chart(0.2, 0.3, 0.38)} {
		in := shelved()
		in.Nozzle.Nozzle = present
		in.Nozzle.PressureRange = calc.PressureRange{}
		in.Nozzles = []calc.LabeledNozzle{{Label: "other", Nozzle: chart(0.25, 0.4, 0.5)}}
		plan, _ := ofNozzle(mustCorrect(t, in), 1, calc.ChangeNozzle)
		if plan == nil {
			t.Fatalf("%s: no plan by the nozzle on the shelf", name)
		}
		agrees(t, name, plan.PredictedApplicationRate.In(unit.USGallonPerAcre), 20, 1e-9)
	}
}
