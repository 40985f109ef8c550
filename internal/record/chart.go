package record

import "math"

// A Chart shows each catch against the range that is acceptable for it.
type Chart struct {
	Title       string
	Description string               // for who cannot see it
	Number      func(float64) string // writes a number as the page's language does
	Points      []Point
}

// A Point is one catch. A range of 0 to 0 stands for none.
type Point struct {
	Name             string
	Value, Low, High float64
	Status           string // within, below, above
}

// The chart's size, in its own units; the page scales it to its width.
const (
	chartWidth  = 720.0
	chartHeight = 190.0
	marginLeft  = 62.0
	marginRight = 8.0
	marginTop   = 14.0
	marginFoot  = 52.0
	ticksWanted = 5
	mostNames   = 40 // more would stand on each other
)

// A Mark is one catch, placed.
type Mark struct {
	Point
	X, Y, Top, Height, Width float64
	Ranged, Named            bool
}

// A Tick is one line of the scale.
type Tick struct {
	Y    float64
	Text string
}

// Plot is a chart, placed.
type Plot struct {
	Width, Height, Left, Right, Top, Foot float64
	Marks                                 []Mark
	Ticks                                 []Tick
}

// Plot places the points and a scale of round numbers that holds all of them.
func (c *Chart) Plot() Plot {
	low, high := c.bounds()
	step := roundStep((high - low) / ticksWanted)
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	p := Plot{
		Width: chartWidth, Height: chartHeight,
		Left: marginLeft, Right: chartWidth - marginRight, Top: marginTop, Foot: chartHeight - marginFoot,
	}
	y := func(v float64) float64 { return tenth(p.Foot - (v-low)/(high-low)*(p.Foot-p.Top)) }
	for i := 0; ; i++ {
		v := low + float64(i)*step
		if v > high+step/2 {
			break
		}
		p.Ticks = append(p.Ticks, Tick{y(v), c.Number(math.Round(v/step) * step)})
	}
	pitch := (p.Right - p.Left) / float64(len(c.Points))
	every := (len(c.Points) + mostNames - 1) / mostNames
	for i, x := range c.Points {
		m := Mark{Point: x, X: tenth(p.Left + (float64(i)+0.5)*pitch), Y: y(x.Value), Width: tenth(min(pitch*0.7, 26))}
		m.Named = i%every == 0
		if m.Ranged = x.High > 0; m.Ranged {
			m.Top = y(x.High)
			m.Height = tenth(y(x.Low) - m.Top)
		}
		p.Marks = append(p.Marks, m)
	}
	return p
}

// Left is where the range's box begins.
func (m Mark) Left() float64 { return tenth(m.X - m.Width/2) }

func (c *Chart) bounds() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range c.Points {
		low, high = min(low, p.Value), max(high, p.Value)
		if p.High > 0 {
			low, high = min(low, p.Low), max(high, p.High)
		}
	}
	if room := (high - low) * 0.08; room > 0 {
		return max(low-room, 0), high + room
	}
	return low * 0.9, high*1.1 + math.SmallestNonzeroFloat64
}

// roundStep is 1, 2 or 5 times a power of ten, and not below step.
func roundStep(step float64) float64 {
	if step <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(step)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= step*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }
