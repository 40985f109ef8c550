package record

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestPropertyChartHoldsItsPoints: whatever the flows are, each mark, range and line of
// the scale stands inside the strip, and more stands further right.
func TestPropertyChartHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := math.Pow(10, float64(rapid.IntRange(-6, 6).Draw(t, "power")))
		rows := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Row {
			p := Point{Value: unit * rapid.Float64Range(0.01, 10).Draw(t, "value"), Status: "within"}
			low := unit * rapid.Float64Range(0.01, 5).Draw(t, "low")
			ends := rapid.SampledFrom([]string{"none", "both", "low", "high"}).Draw(t, "ends")
			if ends == "both" || ends == "low" {
				p.Low = low
			}
			if ends == "both" || ends == "high" {
				p.High = low + unit*rapid.Float64Range(0.01, 5).Draw(t, "width")
			}
			return Row{Point: &p}
		}), 1, 200).Draw(t, "rows")
		rows = append(rows, Row{}) // one that is drawn nowhere
		s := scaleOf(rows)
		inside := func(what string, x float64) {
			if !(x >= stripMargin-0.1 && x <= stripWidth-stripMargin+0.1) {
				t.Fatalf("%s at %g", what, x)
			}
		}
		last := placedPoint{X: math.Inf(1)}
		for _, r := range rows[:len(rows)-1] {
			m := s.mark(*r.Point)
			inside("a point", m.X)
			if m.Ranged != (r.Point.Low > 0 || r.Point.High > 0) {
				t.Fatalf("ranged %v: %+v", m.Ranged, r.Point)
			}
			if m.Ranged {
				inside("a range", m.Left)
				inside("a range", m.Left+m.Width)
			}
			if m.Ranged && r.Point.High == 0 && m.Left+m.Width < s.x(s.High)-0.2 {
				t.Fatal("a range without an end ends in the strip")
			}
			if last.Value > m.Value && last.X < m.X {
				t.Fatal("more stands further left")
			}
			last = m
		}
		if ticks := s.ticks(); len(ticks) < 2 || len(ticks) > 12 {
			t.Fatalf("%d ticks", len(ticks))
		}
		for _, tick := range s.ticks() {
			inside("a line", s.x(tick))
		}
	})
}

// TestChartOfEqualFlows: catches that all read the same still have a scale.
func TestChartOfEqualFlows(t *testing.T) {
	same := Point{Value: 0.2, Status: "within"}
	s := scaleOf([]Row{{Point: &same}, {Point: &same}})
	if len(s.ticks()) < 2 || math.IsNaN(s.mark(same).X) {
		t.Errorf("%+v", s)
	}
}
