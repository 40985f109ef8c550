package main

import (
	"fmt"
	"math"
	"slices"
)

// A nozzle is what hangs on the boom in truth. Its flow at the rated pressure is a share
// of that of the nozzle on the sheet.
type nozzle struct {
	rating float64 // what it is meant to give; another than 1 on a drop of different nozzles
	size   float64 // what was fitted instead, as a share; 1 for the right one
	maker  float64 // how new ones of a box differ
	wear   float64 // how much more it gives by now, as a share
	dirt   float64 // how much less
}

// gives is its flow as a share of the rated one of the sheet.
func (n *nozzle) gives() float64 { return n.rating * n.size * n.maker * (1 + n.wear) * (1 - n.dirt) }

// A drop is a place to catch at: on a plain boom one nozzle.
type drop struct {
	label, side string
	bed         int // from 1; 0 on a plain boom
	pressure    float64
	nozzles     []nozzle
}

func (p *drop) rating() (sum float64) {
	for i := range p.nozzles {
		sum += p.nozzles[i].rating
	}
	return sum
}

// A machine is a sprayer as it truly is.
type machine struct {
	metric, plain      bool
	beds, perBed       int // beds, and drops of each
	bedWidth, rows     float64
	spacing            float64 // of nozzles on a plain boom
	rated, at          *quantity
	size, sizeRating   string
	lowest, highest    *quantity // pressures that the nozzle is made for
	speed              float64
	duty               float64 // 1 without pulsing nozzles
	sides              []string
	allowed            float64 // difference of pressures
	drops              []drop
	different          bool // drops carry different nozzles
	ratedFlow, ratedAt float64
}

var allSides = []string{"left", "center", "right"}

// meanPressure is that of the whole boom.
func (m *machine) meanPressure() (sum float64) {
	for i := range m.drops {
		sum += m.drops[i].pressure
	}
	return sum / float64(len(m.drops))
}

// spread is how far the highest pressure lies above the lowest.
func (m *machine) spread() float64 {
	low, high := math.Inf(1), 0.0
	for i := range m.drops {
		low, high = min(low, m.drops[i].pressure), max(high, m.drops[i].pressure)
	}
	return high - low
}

// flow is what a drop gives while its nozzles are open, by the square-root law.
func (m *machine) flow(p *drop) (sum float64) {
	for i := range p.nozzles {
		sum += p.nozzles[i].gives()
	}
	return sum * m.ratedFlow * math.Sqrt(p.pressure/m.ratedAt) * m.duty
}

// nozzleWidth is the treated width of one nozzle.
func (m *machine) nozzleWidth() float64 {
	if m.plain {
		return m.spacing
	}
	return m.bedWidth / float64(m.perBed*len(m.drops[0].nozzles))
}

// rate is what the ground truly gets, per treated or per field area.
func (m *machine) rate(basis string) float64 {
	flow, nozzles := 0.0, 0
	for i := range m.drops {
		flow += m.flow(&m.drops[i])
		nozzles += len(m.drops[i].nozzles)
	}
	r := flow / float64(nozzles) / (m.speed * m.nozzleWidth()) * 10 // mL/m2 are 10 L/ha
	if basis == "field" {
		r *= m.bedWidth / m.rows
	}
	return r
}

// fromRated is how far a drop is from what its nozzles are rated at, at the mean pressure.
func (m *machine) fromRated(p *drop) float64 {
	return m.flow(p)/(p.rating()*m.ratedFlow*m.duty*math.Sqrt(m.meanPressure()/m.ratedAt)) - 1
}

// fromMean is how far a drop is from the others of some, by their mean and by their median.
func (m *machine) fromMean(p *drop, of []int) (mean, median float64) {
	var flows []float64
	for _, i := range of {
		flows = append(flows, m.flow(&m.drops[i])/m.drops[i].rating())
		mean += flows[len(flows)-1] / float64(len(of))
	}
	slices.Sort(flows)
	n := len(flows)
	own := m.flow(p) / p.rating()
	return own/mean - 1, own/((flows[(n-1)/2]+flows[n/2])/2) - 1
}

// worn is the share of drops, or that of nozzles where it is more, that wear has taken
// beyond a limit.
func (m *machine) worn(limit float64) float64 {
	var drops, nozzles, all float64
	for i := range m.drops {
		sum, rating := 0.0, 0.0
		for _, n := range m.drops[i].nozzles {
			if n.maker*(1+n.wear)-1 > limit {
				nozzles++
			}
			sum += n.rating * n.maker * (1 + n.wear)
			rating += n.rating
			all++
		}
		if sum/rating-1 > limit {
			drops++
		}
	}
	return max(drops/float64(len(m.drops)), nozzles/all)
}

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
	m := &machine{metric: w.metric || d.chance(0.3), plain: w.plain || !w.beds && !w.rows && !w.different && w.perDrop[1] == 0 && d.chance(0.35), duty: 1, sides: allSides, different: w.different}
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

// calm brings all drops within a margin of their rating and of the mean of those caught: what
// is sound has to be so by more than a crew can be mistaken.
func (m *machine) calm(margin float64, caught []int) {
	farthest := 0.0
	for i := range m.drops {
		mean, median := m.fromMean(&m.drops[i], caught)
		farthest = max(farthest, math.Abs(m.fromRated(&m.drops[i])), math.Abs(mean), math.Abs(median))
	}
	if farthest <= margin {
		return
	}
	share, mean := margin/farthest*0.97, m.meanPressure()
	for i := range m.drops {
		p := &m.drops[i]
		p.pressure = mean + (p.pressure-mean)*share
		for j := range p.nozzles {
			p.nozzles[j].maker = 1 + (p.nozzles[j].maker-1)*share
		}
	}
}
