package calc_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// patternOf is the pattern of one nozzle in cups 10 cm apart, in mL.
func patternOf(volumes ...float64) calc.NozzlePattern {
	p := calc.NozzlePattern{CupSpacing: 10 * unit.Centimetre}
	for _, v := range volumes {
		p.Volumes = append(p.Volumes, unit.Volume(v)*unit.Millilitre)
	}
	return p
}

// TestReferenceTriangle is worked by hand. Cups of 1, 2, 3, 2, 1 mL, 10 cm apart,
// are a triangle of height 3 and half base a = 30 cm.
//
//	at a      each place gets h (1 - u) + h u = h: even
//	at a / 2  two such booms in one: even
//	at 2 a    the triangles just meet: mean h/2, mean square h^2/3, so the variance
//	          is h^2/12 and the CV 1/sqrt 3 = 57.73503 %; from -100 to +100 %
//	at 3 a    mean h/3, mean square (2/3)(h^2/3) = 2 h^2/9, variance h^2/9: CV 100 %;
//	          from -100 to +200 %
//	at 3a/2   over one spacing of 3/2: single h (1 - u) for |u| < 1/2, which is h to
//	          h/2, then h (1 - u) + h (1 - (3/2 - u)) = h/2 flat for half of a.
//	          Mean h/(3/2) = 2h/3. Of the square: 2 (1 - 1/8)/3 h^2 + h^2/8 =
//	          (7/12 + 1/8) h^2 = 17/24 h^2 over 3/2 = 17/36 h^2; less 16/36 h^2 is
//	          h^2/36: CV (1/6)/(2/3) = 25 %; from -25 to +50 %
func TestReferenceTriangle(t *testing.T) {
	for _, c := range []struct {
		spacing             float64 // cm
		cv, lowest, highest float64 // %
		even                finding.Verdict
		warned              string
	}{
		{30, 0, 0, 0, finding.Within, ""},
		{15, 0, 0, 0, finding.Within, ""},
		{10, 0, 0, 0, finding.Within, ""},
		{60, 57.735027, -100, 100, finding.Outside, ""},
		{90, 100, -100, 200, finding.Outside, "nozzleSpacing: gap_between_nozzles"},
		{45, 25, -25, 50, finding.Outside, ""},
	} {
		r := mustPatternUniformity(t, calc.PatternUniformityInput{
			NozzlePattern: patternOf(1, 2, 3, 2, 1), NozzleSpacing: unit.Length(c.spacing) * unit.Centimetre,
		})
		at := fmt.Sprintf("at %v cm ", c.spacing)
		agrees(t, at+"CV", r.Boom.CoefficientOfVariation.In(unit.Percent), c.cv, 1e-7)
		agrees(t, at+"lowest", r.Boom.Lowest.In(unit.Percent), c.lowest, 1e-9)
		agrees(t, at+"highest", r.Boom.Highest.In(unit.Percent), c.highest, 1e-9)
		if r.Boom.Even != c.even || warned(r.Warnings) != c.warned || r.Even != finding.NotJudged {
			t.Errorf("%sverdict %v, of the row %v, warned of %q", at, r.Boom.Even, r.Even, warned(r.Warnings))
		}
	}
}

// TestReferenceTrapezoid: cups of 2, 2 mL fall to nothing on either side: base 3,
// top 1, in cups. At 2 the slopes fill each other: even. At 3 the trapezoids just
// meet: mean 4/3, mean square (4 + 2 x 4/3)/3 = 20/9, less 16/9 is 4/9: CV
// (2/3)/(4/3) = 50 %. The row was cut off: its outer cups are the fullest.
func TestReferenceTrapezoid(t *testing.T) {
	r := mustPatternUniformity(t, calc.PatternUniformityInput{
		NozzlePattern: patternOf(2, 2),
		SpacingRange:  calc.SpacingRange{Low: 20 * unit.Centimetre, High: 40 * unit.Centimetre, Steps: 3},
		// 50 % up to its mean of 4/3, and -100 % down: the place limit is wide enough.
		MaxPlaceDeviation: 100 * unit.Percent, MaxCoefficientOfVariation: 50 * unit.Percent,
	})
	agrees(t, "at 20 cm", r.Spacings[0].CoefficientOfVariation.In(unit.Percent), 0, 0)
	agrees(t, "at 30 cm", r.Spacings[1].CoefficientOfVariation.In(unit.Percent), 50, 1e-9)
	agrees(t, "spacing", r.Spacings[1].NozzleSpacing.In(unit.Centimetre), 30, 1e-12)
	if r.Best != 0 || !r.BestFound || r.Spacings[1].Even != finding.Within || r.Spacings[2].Even != finding.Outside {
		t.Errorf("best %d; %+v", r.Best, r.Spacings)
	}
	if w := warned(r.Warnings); w != "nozzlePattern.volumes: pattern_cut_off; spacingRange.high: gap_between_nozzles" {
		t.Errorf("warned of %q", w)
	}
}

// TestReferenceBestSpacing: the triangle is even at 15 and at 30 cm, see
// TestReferenceTriangle; of equals the widest is best.
func TestReferenceBestSpacing(t *testing.T) {
	in := calc.PatternUniformityInput{
		NozzlePattern: patternOf(1, 2, 3, 2, 1),
		SpacingRange:  calc.SpacingRange{Low: 15 * unit.Centimetre, High: 60 * unit.Centimetre, Steps: 4},
	}
	r := mustPatternUniformity(t, in)
	for i, want := range []float64{0, 0, 25, 57.735027} { // at 15, 30, 45, 60
		agrees(t, fmt.Sprint("step ", i), r.Spacings[i].CoefficientOfVariation.In(unit.Percent), want, 1e-7)
	}
	if r.Best != 1 || r.Spacings[0].NozzleSpacing != in.SpacingRange.Low || r.Spacings[3].NozzleSpacing != in.SpacingRange.High {
		t.Errorf("best %d; from %v to %v", r.Best, r.Spacings[0].NozzleSpacing, r.Spacings[3].NozzleSpacing)
	}
}

// TestPropertyBoomPattern: neither the amount, the unit of length, a mirror image,
// nor empty cups beside the row change the boom; and many places of it, drawn at
// random and summed from straight lines, have the same CV.
func TestPropertyBoomPattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volumes := rapid.SliceOfN(rapid.Float64Range(0, 100), 2, 20).Draw(t, "volumes")
		volumes[0]++
		ratio := rapid.Float64Range(1, 25).Draw(t, "spacing in cups")
		p := patternOf(volumes...)
		in := calc.PatternUniformityInput{NozzlePattern: p, NozzleSpacing: p.CupSpacing * unit.Length(ratio)}
		b := mustPatternUniformity(t, in).Boom

		scale, length := rapid.Float64Range(1e-3, 1e3).Draw(t, "scale"), rapid.Float64Range(0.1, 10).Draw(t, "length")
		other := calc.NozzlePattern{CupSpacing: p.CupSpacing * unit.Length(length)}
		other.Volumes = make([]unit.Volume, rapid.IntRange(0, 3).Draw(t, "empty before"))
		for i := range volumes {
			other.Volumes = append(other.Volumes, p.Volumes[len(volumes)-1-i]*unit.Volume(scale))
		}
		other.Volumes = append(other.Volumes, make([]unit.Volume, rapid.IntRange(0, 3).Draw(t, "empty behind"))...)
		o := mustPatternUniformity(t, calc.PatternUniformityInput{NozzlePattern: other, NozzleSpacing: in.NozzleSpacing * unit.Length(length)}).Boom
		for _, pair := range [][2]unit.Ratio{
			{b.CoefficientOfVariation, o.CoefficientOfVariation}, {b.Highest, o.Highest}, {b.Lowest, o.Lowest},
		} {
			if d := math.Abs(float64(pair[0] - pair[1])); d > 1e-8*(1+math.Abs(float64(pair[0]))) {
				t.Fatalf("%+v, otherwise written %+v", b, o)
			}
		}

		const places = 4000
		var sum, squares float64
		for i := range places {
			x := (float64(i) + 0.5) / places * ratio
			var f float64
			for k := -60; k <= 60; k++ {
				for c, v := range volumes { // each cup is a tent of its own
					f += v * max(0, 1-math.Abs(x+float64(k)*ratio-float64(c)))
				}
			}
			sum += f
			squares += f * f
		}
		mean := sum / places
		sampled := math.Sqrt(max(0, squares/places-mean*mean)) / mean
		if d := math.Abs(sampled - float64(b.CoefficientOfVariation)); d > 2e-3*(1+sampled) {
			t.Fatalf("CV %v, sampled %v", b.CoefficientOfVariation, sampled)
		}
	})
}

// TestPatternRangeOfOneSpacing: a range may begin where it ends.
func TestPatternRangeOfOneSpacing(t *testing.T) {
	in := calc.PatternUniformityInput{NozzlePattern: patternOf(1, 2, 1), SpacingRange: calc.SpacingRange{Low: 1, High: 1, Steps: 2}}
	if r := mustPatternUniformity(t, in); len(r.Spacings) != 2 || r.Spacings[0] != r.Spacings[1] {
		t.Errorf("%+v", r.Spacings)
	}
}

// TestPatternCutOff: a row is taken to end too soon when an outermost cup holds more
// than half of the fullest. Our own choice, no published source.
func TestPatternCutOff(t *testing.T) {
	for outer, want := range map[float64]bool{49: false, 50: false, 51: true} {
		p := patternOf(outer, 100, 0)
		r := mustPatternUniformity(t, calc.PatternUniformityInput{NozzlePattern: p, NozzleSpacing: 2 * p.CupSpacing})
		if got := strings.Contains(warned(r.Warnings), calc.WarnPatternCutOff); got != want {
			t.Errorf("%v of 100: warned %v", outer, got)
		}
	}
}
