package main

import (
	"fmt"
	"math"
)

// A wish is what a kind asks of its machine; zero leaves it to chance.
type wish struct {
	metric, plain, beds bool
	atLeast             int // beds
	points, perDrop     [2]int
	speed, rate         [2]float64 // m/s, L/ha of the treated area
	pressure            [2]float64 // kPa
	sides               []string
	different           bool
	rows                bool // row spacing, to take the rate per field area by
	numbers             bool // a rating in numbers, not a size
}

// machineOf draws a machine on which nothing is wrong.
func machineOf(d draw, w wish) *machine {
	w.metric = w.metric || d.chance(0.3)
	beds := w.beds || w.rows || w.different || w.perDrop[1] != 0
	w.plain = w.plain || !beds && d.chance(0.35)
	for {
		if m := drawMachine(d, w); m != nil {
			return m
		}
	}
}

func drawMachine(d draw, w wish) *machine {
	or := func(given, usual [2]float64) float64 {
		if given[1] == 0 {
			given = usual
		}
		return d.scaled(given[0], given[1])
	}
	m := &machine{metric: w.metric, plain: w.plain, duty: 1, sides: allSides, different: w.different}
	points, perDrop := w.points, w.perDrop
	if points[1] == 0 {
		points = [2]int{9, 300}
	}
	if perDrop[1] == 0 {
		perDrop = [2]int{1, 4}
	}
	n, each := int(d.scaled(float64(points[0]), float64(points[1])+0.999)), 1
	length := "in"
	if m.metric {
		length = "cm"
	}
	if m.plain {
		m.spacing = pick(d, 15.0, 20, 30) * inch
		if m.metric {
			m.spacing = pick(d, 35.0, 50, 75) * 0.01
		}
	} else {
		each = perDrop[0] + d.IntN(perDrop[1]-perDrop[0]+1)
		m.beds = max(1, w.atLeast) + d.IntN(13-max(1, w.atLeast))
		m.perBed = max(1, int(math.Round(float64(n)/float64(m.beds))))
		if n = m.beds * m.perBed; n < points[0] || n > points[1] || m.perBed*each > 36 {
			return nil
		}
		m.bedWidth = math.Round(d.between(30, 72)*inch/factors[length]) * factors[length]
		m.rows = math.Round(m.bedWidth*d.between(1.2, 1.8)/factors[length]) * factors[length]
	}
	if w.sides != nil {
		m.sides = w.sides
	}
	m.speed = or(w.speed, [2]float64{2 * mph, 8 * mph})
	p := or(w.pressure, [2]float64{28 * psi, 90 * psi})
	width := m.spacing
	if !m.plain {
		width = m.bedWidth / float64(m.perBed*each)
	}
	usual := [2]float64{90, 600}
	if !m.plain {
		usual = [2]float64{150, 1500}
	}
	if !m.fit(d, w.numbers, or(w.rate, usual)/10*m.speed*width, p) {
		return nil
	}
	if float64(each)*m.ratedFlow*math.Sqrt(p/m.ratedAt)*30 > 4000 { // half a minute of a drop fills a jug
		return nil
	}
	m.hang(d, n, each, p)
	return m
}

// fit chooses a nozzle that gives about a flow at a pressure. The machine then drives at
// another speed, so that the rate stays.
func (m *machine) fit(d draw, numbers bool, flow, p float64) bool {
	switch {
	case !numbers && d.chance(0.3):
		m.size = pick(d, "01", "015", "02", "025", "03", "04", "05", "06", "08", "10")
		number := map[string]float64{"01": 1, "015": 1.5, "02": 2, "025": 2.5, "03": 3, "04": 4, "05": 5, "06": 6, "08": 8, "10": 10}[m.size]
		m.ratedFlow, m.ratedAt = number*0.4*1000/60, 300 // ISO 10625: L/min at 3 bar
		if !m.metric {
			m.sizeRating, m.ratedFlow, m.ratedAt = "us_40_psi", number*0.1*usGal/60, 40*psi
		}
	case m.metric:
		m.at = &quantity{pick(d, 2.0, 3, 3), "bar"}
		m.rated = written(flow*math.Sqrt(m.at.inside()/p), "L/min", 2)
	default:
		m.at = &quantity{pick(d, 30.0, 40, 40, 60), "psi"}
		m.rated = written(flow*math.Sqrt(m.at.inside()/p), "gal_us/min", 2)
	}
	if m.rated != nil {
		m.ratedFlow, m.ratedAt = m.rated.inside(), m.at.inside()
	}
	change := m.ratedFlow * math.Sqrt(p/m.ratedAt) / flow
	m.speed *= change
	// Half a minute of a smaller nozzle is no jug full; a larger one is no nozzle of a boom.
	if change < 0.8 || change > 1.25 || m.ratedFlow < 0.08*usGal/60 || m.ratedFlow > 1.5*usGal/60 {
		return false
	}
	unit, step := "psi", 5.0
	if m.metric {
		unit, step = "bar", 0.5
	}
	if p < 20*psi {
		step /= 5
	}
	round := func(x float64) *quantity { return &quantity{max(step, toMark(x/factors[unit], step)), unit} }
	m.lowest, m.highest = round(p*d.between(0.4, 0.7)), round(p*d.between(1.4, 2))
	m.allowed = 10 * psi
	return m.lowest.inside() < p*0.8 && m.highest.inside() > p*1.3
}

// hang puts new nozzles on the boom, at pressures that differ by half of what is allowed
// at most, or a fifteenth where that is less.
func (m *machine) hang(d draw, n, each int, p float64) {
	at := map[string]float64{}
	for _, s := range m.sides {
		at[s] = p + min(m.allowed/4, p/30)*d.between(-1, 1)
	}
	ratings := make([]float64, each)
	for i := range ratings {
		ratings[i] = 1
		if m.different && i > 0 {
			ratings[i] = pick(d, 0.5, 0.6, 0.75, 1.5)
		}
	}
	sd := d.between(0.015, 0.025)
	for i := range n {
		side := m.sides[i*len(m.sides)/n]
		p := drop{label: fmt.Sprintf("%s %d", side, i+1), side: side, pressure: at[side]}
		if !m.plain {
			p.bed = i/m.perBed + 1
			p.label = fmt.Sprintf("bed %d drop %d", p.bed, i%m.perBed+1)
		}
		for _, r := range ratings {
			p.nozzles = append(p.nozzles, nozzle{rating: r, size: 1, maker: 1 + d.normal(sd)})
		}
		m.drops = append(m.drops, p)
	}
}
