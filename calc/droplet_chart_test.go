package calc_test

import (
	"fmt"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
)

// twin is a chart as Grainews prints it of a 025 twin fan: very coarse at 20 psi,
// coarse from 30 to 60, medium from 70 to 90,
// https://www.grainews.ca/news/nozzle-colour-and-flow-rate-confusion/ ; what lies
// between is not printed.
func twin() []calc.DropletEntry {
	return []calc.DropletEntry{
		{Size: "025", PressureRange: psiRange(20, 20), DropletClass: calc.VeryCoarse},
		{Size: "025", PressureRange: psiRange(30, 60), DropletClass: calc.Coarse},
		{Size: "025", PressureRange: psiRange(70, 90), DropletClass: calc.Medium},
	}
}

// TestPublishedDropletClass: the class of that nozzle hangs on the pressure, and
// what is not printed is unknown. Of an 025 rated 0.25 gal/min at 40 psi a pressure
// p asks for 0.25 x sqrt(p / 40): the rate is scaled so, from 14.85 gal/acre, which
// is 14.85 x 5 x 20 / 5940 = 0.25.
func TestPublishedDropletClass(t *testing.T) {
	type judged struct {
		class   calc.DropletClass
		verdict finding.Verdict
	}
	for psi, want := range map[float64]judged{
		20: {calc.VeryCoarse, finding.Within}, 30: {calc.Coarse, finding.Within}, 60: {calc.Coarse, finding.Within}, 80: {calc.Medium, finding.Outside},
		25: {calc.DropletClassUnknown, finding.Outside}, 65: {calc.DropletClassUnknown, finding.Outside},
		95: {calc.DropletClassUnknown, finding.Outside}, 10: {calc.DropletClassUnknown, finding.Outside},
	} {
		in := wanted("025")
		in.DropletChart, in.PressureRange = twin(), psiRange(5, 100)
		in.AllowedDropletClasses = []calc.DropletClass{calc.Coarse, calc.VeryCoarse}
		in.TargetApplicationRate = gallonsAt(psi)
		r := mustSelect(t, in)
		c := r.Candidates[0]
		agrees(t, "pressure", float64(c.SprayPressure), float64(psiRange(psi, psi).Low), 1e-9)
		got := judged{c.DropletClass, c.Droplets}
		if got != want || c.Fits != (c.Droplets == finding.Within) || c.Fits != (r.Decision == calc.ChooseNozzle) {
			t.Errorf("at %v psi: %v, want %v: %+v", psi, got, want, c)
		}
		if !c.Fits && (r.Decision != calc.NoneFits || r.Reason != calc.NoneFitsDropletClass || r.WouldFit != nil || len(c.Notes) != 1) {
			t.Errorf("at %v psi: decision %v, %+v, %v", psi, r.Decision, r.WouldFit, c.Notes)
		}
	}
}

// TestReferenceDropletsOverSpeeds: 5 mph at 40 psi is 4.33 to 6.12 mph for 30 to 60
// psi, all coarse by the chart; down to 20 psi, 3.54 mph, there is a gap.
func TestReferenceDropletsOverSpeeds(t *testing.T) {
	in := wanted("025")
	in.TargetApplicationRate, in.GroundSpeed = gallonsAt(40), 0
	in.DropletChart = twin()
	for low, want := range map[float64]calc.DropletClass{30: calc.Coarse, 20: calc.DropletClassUnknown} {
		in.SpeedRange = calc.SpeedRange{Low: speedAt(low), High: speedAt(60)}
		c := mustSelect(t, in).Candidates[0]
		if c.DropletClass != want || c.Droplets != finding.NotJudged || !c.Fits {
			t.Errorf("from %v psi: %+v", low, c)
		}
	}
	// The gap closed by two lines that meet at 25: the finest of all is coarse.
	in.SpeedRange = calc.SpeedRange{Low: speedAt(20), High: speedAt(60)}
	in.DropletChart = append(in.DropletChart,
		calc.DropletEntry{Size: "025", PressureRange: psiRange(25, 30), DropletClass: calc.VeryCoarse},
		calc.DropletEntry{Size: "025", PressureRange: psiRange(20, 25), DropletClass: calc.ExtremelyCoarse})
	in.AllowedDropletClasses = []calc.DropletClass{calc.Coarse, calc.VeryCoarse}
	c := mustSelect(t, in).Candidates[0]
	if c.DropletClass != calc.Coarse || c.Droplets != finding.Outside || fmt.Sprint(c.Notes) != "[droplet_class_not_allowed]" {
		t.Errorf("%+v", c)
	}
	in.AllowedDropletClasses = append(in.AllowedDropletClasses, calc.ExtremelyCoarse)
	if c := mustSelect(t, in).Candidates[0]; c.Droplets != finding.Within {
		t.Errorf("%+v", c)
	}
}

// TestReferenceDropletsWhereLinesMeet: at 30 psi both lines count, so it is the
// finer, and allowed only when both are.
func TestReferenceDropletsWhereLinesMeet(t *testing.T) {
	in := wanted()
	in.SizeRating = ""
	in.Shelf = []calc.ShelfNozzle{{Label: "twin", RatedFlowRate: 0.3 * gallonPerMinute, RatedPressure: psiRange(30, 30).Low}}
	in.DropletChart = []calc.DropletEntry{
		{Label: "twin", PressureRange: psiRange(20, 30), DropletClass: calc.Coarse},
		{Label: "twin", PressureRange: psiRange(30, 60), DropletClass: calc.Medium},
	}
	for _, allowed := range [][]calc.DropletClass{{calc.Coarse}, {calc.Medium}, {calc.Medium, calc.Coarse}} {
		in.AllowedDropletClasses = allowed
		c := mustSelect(t, in).Candidates[0]
		if c.DropletClass != calc.Medium || (c.Droplets == finding.Within) != (len(allowed) == 2) {
			t.Errorf("%v allowed: %+v", allowed, c)
		}
	}
}

// TestReferenceAllowedComesFirst: an 03 stands nearer the middle, but only of the
// 04 is the class known. Without any chart none is ever allowed.
func TestReferenceAllowedComesFirst(t *testing.T) {
	in := wanted("03", "04")
	in.AllowedDropletClasses = []calc.DropletClass{calc.VeryFine, calc.Fine}
	if r := mustSelect(t, in); r.Decision != calc.NoneFits || r.Reason != calc.NoneFitsDropletClass || order(r) != "03 04 " || r.Candidates[0].Droplets != finding.Outside {
		t.Errorf("%s: %+v", order(r), r.Candidates[0])
	}
	in.DropletChart = []calc.DropletEntry{{Size: "04", PressureRange: psiRange(20, 60), DropletClass: calc.Fine}}
	if r := mustSelect(t, in); r.Decision != calc.ChooseNozzle || order(r) != "04 03 " {
		t.Errorf("%s: decision %v", order(r), r.Decision)
	}
}
