package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TestPublishedFallAlongTheBoom: with 3 bar at the main gauge at least 2.7 bar at the end of
// the boom, a fall of 10 %; the boom's ends are 2.85 ± 0.15 bar then. Revista del Plan
// Agropecuario no. 162, p. 57, Instituto Plan Agropecuario, Uruguay,
// https://www.planagropecuario.org.uy/publicaciones/revista/Revista_on_line/Revista_162/files/assets/basic-html/page59.html
// Counted from the mean of 2.85 bar, 0.3 bar is 10.53 %, so the limit by share is that.
func TestPublishedFallAlongTheBoom(t *testing.T) {
	in := calc.PressureUniformityInput{Readings: readingsOf(unit.Bar, 3, 2.85, 2.7), MaxShare: 0.3 / 2.85}
	if r := mustPressureUniformity(t, in); r.Even != finding.Within {
		t.Errorf("2.7 of 3 bar: %v", r.Even)
	}
	in.Readings = readingsOf(unit.Bar, 3, 2.84, 2.68)
	if r := mustPressureUniformity(t, in); r.Even != finding.Outside {
		t.Errorf("2.68 of 3 bar: %v", r.Even)
	}
}

// TestReferenceShareOfTheMean: a tenth of a mean of 40 psi is 4 psi, which 38 to 42 keeps and
// 37.9 to 42.1 does not, and 10 psi of 100.
func TestReferenceShareOfTheMean(t *testing.T) {
	psi := unit.PoundPerSquareInch
	for _, c := range []struct {
		low, high, most float64
		even            finding.Verdict
	}{{38, 42, 4, finding.Within}, {37.9, 42.1, 4, finding.Outside}, {95, 105, 10, finding.Within}, {94.9, 105.1, 10, finding.Outside}} {
		in := calc.PressureUniformityInput{Readings: readingsOf(psi, c.low, (c.low+c.high)/2, c.high), MaxShare: 10 * unit.Percent}
		r := mustPressureUniformity(t, in)
		agrees(t, "largest difference", r.MaxDifference.In(psi), c.most, 1e-12)
		if r.Even != c.even {
			t.Errorf("%v to %v psi: %v", c.low, c.high, r.Even)
		}
	}
	in := calc.PressureUniformityInput{Readings: readingsOf(psi, 40), MaxShare: -0.1}
	if _, err := calc.PressureUniformity(in); refusal(err) != "maxDifference: not_positive" {
		t.Errorf("refused with %v", err)
	}
}
