package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// How far the next size of nozzle lies: of ISO 10625 up by 20 to 50 %, down by 17 to 33 %.
// What is fitted is not exactly its size, so a little more either way. Own judgement.
const (
	leastSizeUp   = 15 * unit.Percent
	mostSizeUp    = 60 * unit.Percent
	leastSizeDown = 13 * unit.Percent
	mostSizeDown  = 40 * unit.Percent
)

// aSizeOff tells that a deviation is about that of another size.
func aSizeOff(d float64) bool {
	between := func(x, least, most float64) bool { return finding.AtMost(least, x) && finding.AtMost(x, most) }
	return between(d, float64(leastSizeUp), float64(mostSizeUp)) || between(-d, float64(leastSizeDown), float64(mostSizeDown))
}

// alike is how far catches may differ and still be of one kind, in one state: half the
// narrowest limit, or what new nozzles differ by.
//
// Source: of 1,565 new nozzles a fifth were outside their makers' tolerances, Flow rate of
// new flat fan nozzles against manufacturing tolerances, Transactions of the ASAE 44(4),
// American Society of Agricultural Engineers, 2001,
// https://elibrary.asabe.org/abstract.asp?aid=6238&t=2&redir=&redirType=
func (r *NozzleAcceptanceResult) alike() float64 { return float64(r.Limit) / 2 }

// sizeGroups marks the catches of whole sides and beds that give alike too much or too
// little, by about a size, while no other is surely outside the same way, and returns one
// action for each of them: what is stamped there is questioned before anything is bought
// or cleaned.
func (r *NozzleAcceptanceResult) sizeGroups(in *NozzleAcceptanceInput, leans []lean) (actions []Action) {
	group := func(a Action, of func(c *AcceptanceCatch) bool) {
		if first := r.alikeGroup(in, leans, of); first >= 0 {
			for i := range in.Catches {
				leans[i].sized = leans[i].sized || of(&in.Catches[i])
			}
			a.Catch, a.Do = first, CheckSize
			actions = append(actions, a)
		}
	}
	for _, side := range certainty.Sides {
		group(Action{Side: side}, func(c *AcceptanceCatch) bool { return c.Position == side })
	}
	for i := range in.Catches {
		if bed := in.Catches[i].Bed; bed > 0 && !leans[i].sized && in.firstOfBed(i) {
			group(Action{Bed: bed}, func(c *AcceptanceCatch) bool { return c.Bed == bed })
		}
	}
	if !r.othersInOrder(leans) {
		for i := range leans {
			leans[i].sized = false
		}
		return nil
	}
	return actions
}

// firstOfBed tells that no catch before i is of its bed.
func (in *NozzleAcceptanceInput) firstOfBed(i int) bool {
	for j := range i {
		if in.Catches[j].Bed == in.Catches[i].Bed {
			return false
		}
	}
	return true
}

// alikeGroup is the first catch of a group of two points or more that lies apart by about
// a size, each of its catches as the others; -1 where it does not.
func (r *NozzleAcceptanceResult) alikeGroup(in *NozzleAcceptanceInput, leans []lean, of func(c *AcceptanceCatch) bool) (first int) {
	first = -1
	points, n, sum, least, most, readings := 0, 0.0, 0.0, math.Inf(1), math.Inf(-1), 0.0
	for i := range in.Catches {
		c, l := &in.Catches[i], &leans[i]
		if !of(c) {
			continue
		}
		if l.side == StatusWithin || l.sized {
			return -1
		}
		if first < 0 {
			first = i
		}
		if !c.SamePoint {
			points++
		}
		d := float64(l.off)
		n, sum, least, most = n+1, sum+d, min(least, d), max(most, d)
		readings = max(readings, r.readings(i))
	}
	mean := sum / n
	spread := (most - least) / (1 + mean)
	if points < 2 || points == in.pointsCaught(nil).Caught || !aSizeOff(mean) || !finding.AtMost(spread, r.alike()+readings) {
		return -1
	}
	return first
}

// readings is how far two catches like this one differ by their readings alone, with 95 %;
// nothing where uncertainties were not asked for.
func (r *NozzleAcceptanceResult) readings(i int) float64 {
	if r.Uncertainty == nil {
		return 0
	}
	u := &r.Uncertainty.Catches[i]
	known := &u.DeviationFromMean
	if !r.Catches[i].InMean {
		known = &u.DeviationFromRated
	}
	return math.Sqrt2 * known.Expanded()
}

// othersInOrder tells that there are catches in none of the groups, half of them or more,
// and that none of those is surely outside the way that a group is.
func (r *NozzleAcceptanceResult) othersInOrder(leans []lean) bool {
	var sized [2]bool // below and above
	grouped := 0
	for i := range leans {
		if leans[i].sized {
			grouped++
			sized[way(leans[i].side)] = true
		}
	}
	for i := range leans {
		if l := &leans[i]; !l.sized && l.side != StatusWithin && l.sure && sized[way(l.side)] {
			return false
		}
	}
	return 2*grouped <= len(leans)
}

func way(side Status) int {
	if side == StatusAbove {
		return 1
	}
	return 0
}
