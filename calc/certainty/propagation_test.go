package certainty

import (
	"math"
	"testing"
)

// TestReferenceParts, by hand: what a result follows an instrument by is told with its sign, and a
// reading counts by the square of it; so often as it is weighed, and not at all where that is 0.
func TestReferenceParts(t *testing.T) {
	e := (&Measuring{Explain: true, Instruments: []Instrument{{Kind: Jug, Resolution: 0.12, ScaleError: 0.03}}}).Evaluate()
	var p Propagation
	p.AddMeasured(e.Instrument(Jug, ""), -3, 2)
	u := p.Uncertainty(e, 1)
	if scales := u.Parts.Scales[Jug]; len(scales) != 1 || scales[0].Sensitivity != -3 || math.Abs(scales[0].ScaleError-0.03) > 1e-12 {
		t.Errorf("%+v", scales)
	}
	if parts := u.Parts.Readings[Jug]; len(parts) != 1 || parts[0].Weight != 9 || math.Abs(parts[0].Uncertainty-0.06/math.Sqrt(12)) > 1e-12 {
		t.Errorf("%+v", parts)
	}
	for w, want := range map[float64]int{0: 0, 1: 1, 2: 1} {
		weighed := p.WeighReadings(w)
		if len(weighed.parts) != want || want > 0 && weighed.parts[0].Weight != 9*w {
			t.Errorf("weighed by %v: %+v", w, weighed.parts)
		}
	}
	for c, want := range map[float64]int{0: 0, 1: 1, 2: 1} {
		var sum Propagation
		sum.Add(c, &p)
		if len(sum.parts) != want || want > 0 && sum.parts[0].Weight != 9*c*c {
			t.Errorf("%v times: %+v", c, sum.parts)
		}
	}
}

// TestReferenceRelatedParts, by hand: of a ratio to the mean one's own reading counts by
// 1 - 2 x 1/4 besides what it has in the mean, also where one has none that are told.
func TestReferenceRelatedParts(t *testing.T) {
	mean := Propagation{parts: []ReadingPart{{Kind: Tape, Weight: 7}}}
	p := Propagation{parts: []ReadingPart{{Kind: Jug, Weight: 1}}}
	p.RelateTo(&mean, 0.25)
	if len(p.parts) != 2 || p.parts[0].Weight != 7 || p.parts[1].Weight != 0.5 {
		t.Errorf("%+v", p.parts)
	}
	p = Propagation{}
	p.RelateTo(&mean, 0.25)
	if len(p.parts) != 1 || p.parts[0].Weight != 7 {
		t.Errorf("%+v", p.parts)
	}
	// The mean's widest, 0.009, is not one's own, a quarter of 0.03, and stays.
	p, mean = Propagation{widest: 0.03}, Propagation{widest: 0.009, second: 0.001}
	p.RelateTo(&mean, 0.5)
	near(t, "widest", p.widest, 0.009, 1e-12)
}

// TestReferenceInStandards, by hand: errors of 0.3 and 0.4 of 10, of which the standard
// uncertainty is 2, are 1.5 and 2 times that. What is known exactly stands as a normal one.
func TestReferenceInStandards(t *testing.T) {
	u := Uncertainty{Standard: 2, Reference: 10, Error: Distribution{0.3, 0.4, 5}}
	d := u.InStandards()
	near(t, "widest", d.Widest, 1.5, 1e-12)
	near(t, "rest", d.Rest, 2, 1e-12)
	near(t, "degrees of freedom", d.Freedom, 5, 0)
	u = Uncertainty{}
	if d = u.InStandards(); d != (Distribution{Rest: 1}) {
		t.Errorf("%+v", d)
	}
	u = Uncertainty{Standard: 1, Reference: 1, Error: Distribution{Rest: 1}}
	near(t, "of one", u.InStandards().Rest, 1, 0)
	u = Uncertainty{Standard: 1, Reference: 2, Error: Distribution{Rest: 0.5}}
	near(t, "of one", u.InStandards().Rest, 1, 0)
	u.Error.Rest = 0.7
	near(t, "of one", u.InStandards().Rest, 1.4, 1e-12)
}

// TestReferenceEndlessFreedom: from a million degrees of freedom on there is no end to them. A
// scale error within 1 either way, and nothing else, reaches 0.95, which is 0.95 sqrt 3 times u.
func TestReferenceEndlessFreedom(t *testing.T) {
	for nu, want := range map[float64]float64{9e5: 9e5, 1e6: 1e6, 1.1e6: 0} {
		u := (&Budget{SourceRuns: {1, nu}}).Combine(1, Widest{})
		near(t, "degrees of freedom", u.DegreesOfFreedom, want, 1e-9)
	}
	u := (&Budget{SourceJugScale: {Standard: math.Sqrt(1. / 3)}}).Combine(1, Widest{Scale: 1. / 3})
	near(t, "widest", u.Error.Widest, 1, 1e-12)
	near(t, "coverage factor", u.CoverageFactor, 0.95*math.Sqrt(3), 1e-9)
}
