package calc_test

import (
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

const (
	left, center, right, anywhere = certainty.Left, certainty.Center, certainty.Right, certainty.Unplaced
)

// theStep is the step of a code, and whether there is one.
func theStep(r calc.FieldSheetResult, c calc.StepCode) (calc.Step, bool) {
	i := slices.IndexFunc(r.Steps, func(s calc.Step) bool { return s.Code == c })
	if i < 0 {
		return calc.Step{}, false
	}
	return r.Steps[i], true
}

// TestReferenceSidesRead: each side of a boom is to be read. A reading that is not said to be
// at one may have been at any, so sides are missing only where there are more than of those.
func TestReferenceSidesRead(t *testing.T) {
	type at = []certainty.Position
	for name, c := range map[string]struct {
		readings int
		at       at
		sides    at // that the boom has; nil for all three
		passes   bool
		missing  at
	}{
		"each side":              {3, at{left, center, right}, nil, true, nil},
		"none named":             {3, nil, nil, true, nil},
		"two, none named":        {2, nil, nil, false, nil},
		"one side not":           {3, at{left, left, center}, nil, false, at{right}},
		"two not, two anywhere":  {4, at{left, left, anywhere, anywhere}, nil, true, nil},
		"two not, one anywhere":  {4, at{left, left, left, anywhere}, nil, false, at{center, right}},
		"two sides":              {3, at{left, right, right}, at{left, right}, true, nil},
		"two sides, one not":     {3, at{left, left, left}, at{left, right}, false, at{right}},
		"two readings, one side": {2, at{left, left}, nil, false, at{center, right}},
	} {
		in := wholeSheet()
		in.Pressure.Readings = slices.Repeat(in.Pressure.Readings[1:2], c.readings)
		in.Pressure.Positions, in.Sides = c.at, c.sides
		r := mustSheet(t, in)
		s, asked := theStep(r, calc.StepReadPressure)
		if (r.PressureStatus == calc.Passed) != c.passes || asked == c.passes || !slices.Equal(s.On, c.missing) {
			t.Errorf("%s: %v, step %v on %v", name, r.PressureStatus, asked, s.On)
		}
	}
}

// TestReferenceSidesCaught: twelve of 54, at two sides, need one at the third; where all of a
// boom are caught it does not matter at which side each is.
func TestReferenceSidesCaught(t *testing.T) {
	for name, c := range map[string]struct {
		points  int
		at      []certainty.Position // in turn
		missing []certainty.Position
	}{
		"each side":    {54, []certainty.Position{left, center, right}, nil},
		"no right":     {54, []certainty.Position{left, center}, []certainty.Position{right}},
		"left alone":   {54, []certainty.Position{left}, []certainty.Position{center, right}},
		"none named":   {54, []certainty.Position{anywhere}, nil},
		"the boom":     {12, []certainty.Position{left, center}, nil},
		"all but one":  {13, []certainty.Position{left, center}, []certainty.Position{right}},
		"not how many": {0, []certainty.Position{left, center}, []certainty.Position{right}},
	} {
		in := enteredSheet()
		in.Output.CatchPointsOnBoom = c.points
		for i := range in.Output.Catches {
			in.Output.Catches[i].Position = c.at[i%len(c.at)]
		}
		r := mustSheet(t, in)
		s, asked := theStep(r, calc.StepCatchMore)
		if passes := c.missing == nil; (r.OutputStatus == calc.Passed) != passes || asked == passes || !slices.Equal(s.On, c.missing) || s.More != len(c.missing) {
			t.Errorf("%s: %v, step %v of %d on %v", name, r.OutputStatus, asked, s.More, s.On)
		}
	}
}

// TestReferenceMoreToSettle: of n catches in order, of a boom of nobody knows how many, at
// most 1 - 0.025^(1/n) of the boom is outside: 26.5 % by 12, 24.7 % by 13, of 25 % allowed.
func TestReferenceMoreToSettle(t *testing.T) {
	for n, more := range map[int]int{11: 2, 12: 1, 13: 0, 14: 0} {
		in := enteredSheet()
		in.Output.Catches, in.Output.CatchPointsOnBoom = slices.Repeat(in.Output.Catches[:1], n), 0
		r := mustSheet(t, in)
		if settled := r.Output.Sampling.Settled == certainty.SettledNotAbove; r.OutputStatus != calc.Passed || r.MoreToSettle != more || settled != (more == 0) {
			t.Errorf("%d caught: %v, %d more, %v", n, r.OutputStatus, r.MoreToSettle, r.Output.Sampling.Settled)
		}
	}
}

// TestReferenceCleanedAmongMany: one of 24 was dirty, of 54 in all. With 14 of them outside,
// more than a quarter, one or none among 24 would come once in thousands: (30 / 54)^14 x 14.
func TestReferenceCleanedAmongMany(t *testing.T) {
	in := enteredSheet()
	in.Output.Catches = slices.Repeat(in.Output.Catches[:1], 24)
	first := in.Output.Catches[5]
	first.Volume *= 0.7
	in.Output.Catches[5].First = &first
	if r := mustSheet(t, in); r.OutputStatus != calc.Passed {
		t.Errorf("%v %v", r.OutputStatus, stepCodes(r))
	}
}

// TestReferenceCaughtInRange: catches at 95 psi are beyond the 90 that the nozzle is made
// for, be it the common pressure or that of one of them.
func TestReferenceCaughtInRange(t *testing.T) {
	in := wholeSheet()
	in.Output.SprayPressure = 95 * unit.PoundPerSquareInch
	if got := mustSheet(t, in).CaughtInRange; got != finding.Outside {
		t.Errorf("all: %v", got)
	}
	in = wholeSheet()
	for i := range in.Output.Catches {
		in.Output.Catches[i].SprayPressure = 88 * unit.PoundPerSquareInch
	}
	if got := mustSheet(t, in).CaughtInRange; got != finding.Within {
		t.Errorf("none: %v", got)
	}
	in.Output.Catches[1].SprayPressure = 95 * unit.PoundPerSquareInch
	if got := mustSheet(t, in).CaughtInRange; got != finding.Outside {
		t.Errorf("one: %v", got)
	}
}
