package record

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func number(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// TestPropertyChartHoldsItsPoints: whatever the flows are, each mark, range and line of
// the scale stands inside the chart, and more stands higher.
func TestPropertyChartHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := math.Pow(10, float64(rapid.IntRange(-6, 6).Draw(t, "power")))
		c := Chart{Number: number, Points: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Point {
			p := Point{Value: unit * rapid.Float64Range(0.01, 10).Draw(t, "value"), Status: "within"}
			if rapid.Bool().Draw(t, "ranged") {
				p.Low = unit * rapid.Float64Range(0.01, 5).Draw(t, "low")
				p.High = p.Low + unit*rapid.Float64Range(0.01, 5).Draw(t, "width")
			}
			return p
		}), 1, 200).Draw(t, "points")}
		p := c.Plot()
		if len(p.Marks) != len(c.Points) || len(p.Ticks) < 2 || len(p.Ticks) > 12 {
			t.Fatalf("%d marks, %d ticks", len(p.Marks), len(p.Ticks))
		}
		inside := func(what string, y float64) {
			if !(y >= p.Top-0.1 && y <= p.Foot+0.1) {
				t.Fatalf("%s at %g, outside of %g to %g", what, y, p.Top, p.Foot)
			}
		}
		for i, m := range p.Marks {
			inside("a point", m.Y)
			if m.X < p.Left || m.X > p.Right {
				t.Fatalf("x %g", m.X)
			}
			if m.Ranged {
				inside("a range", m.Top)
				inside("a range", m.Top+m.Height)
			}
			if i > 0 && c.Points[i-1].Value > c.Points[i].Value && p.Marks[i-1].Y > m.Y {
				t.Fatal("more stands lower")
			}
		}
		for _, tick := range p.Ticks {
			inside("a line", tick.Y)
		}
	})
}

// TestChartOfEqualFlows: catches that all read the same still have a scale.
func TestChartOfEqualFlows(t *testing.T) {
	c := Chart{Number: number, Points: []Point{{Value: 0.2, Status: "within"}, {Value: 0.2, Status: "within"}}}
	if p := c.Plot(); len(p.Ticks) < 2 || math.IsNaN(p.Marks[0].Y) {
		t.Errorf("%+v", p)
	}
}
