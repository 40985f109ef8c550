package main

import (
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
	if mean == 0 {
		return 0, 0 // nothing came out anywhere
	}
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
