package calc_test

import (
	"math"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// twinFan is the chart of a twin fan of size 025: very coarse at 20 psi, coarse from
// 30 to 60, medium from 70 to 90. Grainews,
// https://www.grainews.ca/news/nozzle-colour-and-flow-rate-confusion/
func twinFan() []calc.DropletEntry {
	const psi = unit.PoundPerSquareInch
	return []calc.DropletEntry{
		{PressureRange: calc.PressureRange{Low: 20 * psi, High: 20 * psi}, DropletClass: calc.VeryCoarse},
		{PressureRange: calc.PressureRange{Low: 30 * psi, High: 60 * psi}, DropletClass: calc.Coarse},
		{PressureRange: calc.PressureRange{Low: 70 * psi, High: 90 * psi}, DropletClass: calc.Medium},
	}
}

// TestPublishedDropletChart: the class of a plan is the printed one at its pressure,
// and unknown between the printed ones. The chart is that of twinFan. A rate of
// 100 / sqrt(p / 50) at 50 psi asks for the pressure p.
func TestPublishedDropletChart(t *testing.T) {
	for psi, want := range map[unit.Pressure]calc.DropletClass{
		20: calc.VeryCoarse, 25: calc.DropletClassUnknown, 30: calc.Coarse, 60: calc.Coarse, 65: calc.DropletClassUnknown, 70: calc.Medium, 90: calc.Medium,
	} {
		in := tooMuch()
		in.DropletChart = twinFan()
		in.RateTolerance = unit.Percent
		in.Measured.SprayPressure = 50 * unit.PoundPerSquareInch
		in.Limits.GroundSpeed = calc.SpeedRange{}
		in.Limits.SprayPressure = calc.PressureRange{Low: 10 * unit.PoundPerSquareInch, High: 100 * unit.PoundPerSquareInch}
		in.Measured.ApplicationRate = in.TargetApplicationRate / unit.ApplicationRate(math.Sqrt(float64(psi/50)))
		p, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangePressure)
		agrees(t, "pressure", p.SprayPressure.In(unit.PoundPerSquareInch), float64(psi), 1e-12)
		unknown := warned(p.Warnings) == "dropletChart: droplet_class_unknown"
		if p.DropletClass != want || unknown != (want == calc.DropletClassUnknown) || p.DropletsAllowed != finding.NotJudged {
			t.Errorf("at %v psi: %+v", psi, p)
		}
		if s, _ := ofNozzle(mustCorrect(t, in), 0, calc.ChangeSpeed); s.DropletClass != calc.Coarse || s.Warnings != nil {
			t.Errorf("at 50 psi: %+v", s)
		}
	}
}

// TestReferenceAllowedDroplets: what a plan sprays has to be of a class that the
// label allows; what nobody knows is not allowed, but no reason to reject.
func TestReferenceAllowedDroplets(t *testing.T) {
	in := shelved()
	psi := unit.PoundPerSquareInch
	in.DropletChart = []calc.DropletEntry{
		{Label: "03", PressureRange: calc.PressureRange{Low: 30 * psi, High: 40 * psi}, DropletClass: calc.Medium},
		{PressureRange: calc.PressureRange{Low: 40 * psi, High: 60 * psi}, DropletClass: calc.Fine},
		{Label: "04", PressureRange: calc.PressureRange{Low: 30 * psi, High: 60 * psi}, DropletClass: calc.Coarse},
	}
	in.AllowedDropletClasses = []calc.DropletClass{calc.Medium, calc.VeryCoarse}
	in.Limits.GroundSpeed.Low = 4 * unit.MilePerHour
	r := mustCorrect(t, in)
	// 4.5 mph at 40 psi, where rows meet: the finer is the class, and is not allowed.
	if _, no := ofNozzle(r, 0, calc.ChangeSpeed); no == nil || no.Reason != calc.ReasonDropletClassNotAllowed || no.DropletClass != calc.Fine {
		t.Errorf("got %+v", no)
	}
	if _, no := ofNozzle(r, 2, calc.ChangeNozzle); no == nil || no.Reason != calc.ReasonDropletClassNotAllowed || no.DropletClass != calc.Coarse {
		t.Errorf("got %+v", no)
	}
	p, _ := ofNozzle(r, 3, calc.ChangeNozzle, calc.ChangePressure)
	if p.DropletClass != calc.DropletClassUnknown || p.DropletsAllowed != finding.Outside {
		t.Errorf("got %+v", p)
	}
	in.AllowedDropletClasses = []calc.DropletClass{calc.Fine, calc.Medium, calc.Coarse}
	r = mustCorrect(t, in)
	if p, _ := ofNozzle(r, 0, calc.ChangeSpeed); p == nil || p.DropletClass != calc.Fine || p.DropletsAllowed != finding.Within {
		t.Errorf("got %+v", p)
	}
	if p, _ := ofNozzle(r, 2, calc.ChangeNozzle); p == nil || p.DropletClass != calc.Coarse || p.Warnings != nil {
		t.Errorf("got %+v", p)
	}
}

// TestReferenceSprayVolume: the label asks for 98 to 103. 102 is within 10 % of 100
// and lawful, 104 is not lawful; the pressure at its limit of 50 psi, 104.07, is
// within tolerance but outside; both ends are inside.
func TestReferenceSprayVolume(t *testing.T) {
	in := tooMuch()
	in.SprayVolumeRange = calc.RateRange{Low: 98 * unit.USGallonPerAcre, High: 103 * unit.USGallonPerAcre}
	r := mustCorrect(t, in)
	if _, no := ofNozzle(r, 0, calc.ChangePressure); no == nil || no.Reason != calc.ReasonOutsideSprayVolumeRange || len(r.Plans) != 1 {
		t.Fatalf("got %+v", r)
	}
	agrees(t, "rate at the limit", r.Rejected[0].ApplicationRateAtLimit.In(unit.USGallonPerAcre), 104.067, 1e-5)
	for rate, want := range map[unit.ApplicationRate]finding.Verdict{97.9: finding.Outside, 98: finding.Within, 103: finding.Within, 103.1: finding.Outside} {
		in.Measured.ApplicationRate = rate * unit.USGallonPerAcre
		r := mustCorrect(t, in)
		if r.SprayVolume != want || (r.Decision == calc.NoCorrectionNeeded) != (want == finding.Within) {
			t.Errorf("at %v: %+v", rate, r)
		}
	}
}

func TestCorrectionsLabelRefuses(t *testing.T) {
	for want, change := range map[string]func(*calc.CorrectionsInput){
		"": func(*calc.CorrectionsInput) {},
		"dropletChart[0].pressureRange.low: required":       func(in *calc.CorrectionsInput) { in.DropletChart[0].PressureRange.Low = 0 },
		"dropletChart[1].pressureRange.high: not_positive":  func(in *calc.CorrectionsInput) { in.DropletChart[1].PressureRange.High = -1 },
		"dropletChart[1].pressureRange.low: range_inverted": func(in *calc.CorrectionsInput) { in.DropletChart[1].PressureRange.High = 1 },
		"dropletChart[2].dropletClass: required":            func(in *calc.CorrectionsInput) { in.DropletChart[2].DropletClass = "" },
		"dropletChart[2].dropletClass: not_allowed":         func(in *calc.CorrectionsInput) { in.DropletChart[2].DropletClass = "other" },
		"dropletChart[2].label: unknown_label":              func(in *calc.CorrectionsInput) { in.DropletChart[2].Label = "06" },
		"allowedDropletClasses: not_allowed":                func(in *calc.CorrectionsInput) { in.AllowedDropletClasses = []calc.DropletClass{""} },
		"sprayVolumeRange.high: required":                   func(in *calc.CorrectionsInput) { in.SprayVolumeRange.Low = 1 },
		"sprayVolumeRange.low: range_inverted":              func(in *calc.CorrectionsInput) { in.SprayVolumeRange = calc.RateRange{Low: 2, High: 1} },
		"targetApplicationRate: outside_spray_volume_range": func(in *calc.CorrectionsInput) {
			in.SprayVolumeRange = calc.RateRange{Low: 21 * unit.USGallonPerAcre, High: 25 * unit.USGallonPerAcre}
		},
	} {
		in := shelved()
		in.DropletChart = twinFan()
		change(&in)
		if _, err := calc.Corrections(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}
