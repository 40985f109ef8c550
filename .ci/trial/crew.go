package main

import (
	"math"
)

// A crew measures with these instruments and these errors.
type crew struct {
	jugMark, jugScale     float64
	gaugeMark, gaugeScale float64
	tapeScale             float64
	reaction              float64 // standard deviation of one timed interval
	drive                 float64 // of a run's speed about the usual one
	catchTime             float64
	volume, pressure      string // the units that they write in
	length, speed, rate   string
	listed                bool // whether the instruments stand on the sheet
}

// crewOf draws a crew whose jug is fine enough for the catches, mostly.
func crewOf(d draw, m *machine, limit float64) crew {
	c := crew{
		jugScale: d.between(-0.01, 0.01), gaugeScale: d.between(-0.025, 0.025), tapeScale: d.between(-0.001, 0.001),
		reaction: 0.2, drive: d.between(0.005, 0.01), catchTime: pick(d, 30.0, 30, 30, 60), listed: d.chance(0.5),
		volume: "fl_oz_us", pressure: "psi", length: "ft", speed: "mph", rate: "gal_us/acre",
	}
	marks, gauges := []float64{flOz / 2, flOz / 4, flOz / 8}, []float64{2 * psi, psi, psi / 2}
	if m.metric {
		c.volume, c.pressure, c.length, c.speed, c.rate = "mL", "bar", "m", "km/h", "L/ha"
		marks, gauges = []float64{10, 5, 2, 1}, []float64{0.1 * bar, 0.05 * bar, 0.02 * bar}
	}
	if m.flow(&m.drops[0])*c.catchTime > 4000 { // a jug holds four litres
		c.catchTime = 30
	}
	least := m.flow(&m.drops[0]) * c.catchTime
	c.jugMark = pick(d, marks...)
	if d.chance(0.9) { // the largest that does, down to the finest
		for _, mark := range marks {
			if c.jugMark = mark; mark <= limit*least/4 {
				break
			}
		}
	}
	for _, mark := range gauges {
		if c.gaugeMark = mark; mark <= m.meanPressure()/40 {
			break
		}
	}
	return c
}

// fit tells whether one mark of the jug, as far as the sheet tells it, is at most a quarter of
// the tolerance of every catch. A jug that is not listed has 10 mL (/v1/tolerances).
func (c *crew) fit(limit float64, s *sheet) bool {
	mark := c.jugMark
	if !c.listed {
		mark = max(mark, 10)
	}
	for i := range s.Output.Catches {
		if mark > limit*s.Output.Catches[i].Volume.inside()/4 {
			return false
		}
	}
	return true
}

func (c *crew) instruments() []instrument {
	percent := func(v float64) *quantity { return &quantity{v, "%"} }
	return []instrument{
		{ID: "jug", Kind: "jug", Resolution: written(c.jugMark, c.volume, 3), ScaleError: percent(1)},
		{ID: "gauge", Kind: "gauge", Resolution: written(c.gaugeMark, c.pressure, 3), ScaleError: percent(2.5)},
		{ID: "watch", Kind: "stopwatch", Resolution: &quantity{0.1, "s"}, ScaleError: percent(0.01), ReactionTime: &quantity{0.2, "s"}},
		{ID: "tape", Kind: "tape", Resolution: &quantity{1, "cm"}, ScaleError: percent(0.1)},
	}
}

// reads is what the gauge shows of a pressure.
func (c *crew) reads(p float64) *quantity {
	return written(toMark(p*(1+c.gaugeScale), c.gaugeMark), c.pressure, 5)
}

// catches is one catch of a drop: what the jug shows after a time on the watch.
func (c *crew) catches(d draw, m *machine, p *drop, time float64) (volume, seconds *quantity) {
	ran := time + d.normal(c.reaction)
	v := toMark(m.flow(p)*ran*(1+c.jugScale), c.jugMark)
	return written(v, c.volume, 6), written(toMark(time, 0.1), "s", 5)
}

// times is one run over a course as it was measured out.
func (c *crew) times(d draw, speed, course float64) run {
	seconds := course*(1+c.tapeScale)/speed + d.normal(c.reaction)
	return run{written(course, c.length, 5), written(toMark(max(seconds, 0.1), 0.1), "s", 5)}
}

// course is one that takes twenty seconds at least, as far as there is room.
func (c *crew) course(m *machine) float64 {
	courses := []float64{100 * foot, 150 * foot, 200 * foot, 300 * foot, 500 * foot}
	if m.metric {
		courses = []float64{30, 50, 75, 100, 150}
	}
	for _, l := range courses {
		if l/m.speed >= 20 {
			return l
		}
	}
	return courses[len(courses)-1]
}

// spreadOver picks points of each side, as evenly as they go, in the order of the boom.
func spreadOver(d draw, m *machine, catches int) (picked []int) {
	bySide := make([][]int, len(m.sides))
	for i, s := range m.sides {
		for j := range m.drops {
			if m.drops[j].side == s {
				bySide[i] = append(bySide[i], j)
			}
		}
		d.Shuffle(len(bySide[i]), func(a, b int) { bySide[i][a], bySide[i][b] = bySide[i][b], bySide[i][a] })
	}
	taken := make([]bool, len(m.drops))
	for turn := range catches {
		i := turn % len(bySide)
		for range bySide { // the next side that has a point left
			if i = (i + 1) % len(bySide); len(bySide[i]) > 0 {
				taken[bySide[i][0]], bySide[i] = true, bySide[i][1:]
				break
			}
		}
	}
	for j := range taken {
		if taken[j] {
			picked = append(picked, j)
		}
	}
	return picked
}

// enough tells whether so many catches, all in order, would show with 95 % that no more than a
// quarter of the points are outside: the chance to miss all of the outside ones, of which there
// is one more than a quarter, is that of drawing without putting back. Unknown points are many.
func enough(caught, points int) bool {
	if points == 0 {
		return math.Pow(0.75, float64(caught)) <= 0.05
	}
	outside := points/4 + 1
	miss := 1.0
	for i := range caught {
		miss *= max(0, float64(points-outside-i)) / float64(points-i)
	}
	return miss <= 0.05
}
