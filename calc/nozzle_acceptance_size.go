package calc

import (
	"math"
	"slices"

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

// leastAlike is what new nozzles of one kind may vary by. Own judgement, from a fifth of
// them being outside a tolerance that is 5 % with most makers: then they vary by 3.9 %.
//
// Source: of 1,565 new nozzles a fifth were outside their makers' tolerances, Flow rate of
// new flat fan nozzles against manufacturing tolerances, Transactions of the ASAE 44(4),
// American Society of Agricultural Engineers, 2001,
// https://elibrary.asabe.org/abstract.asp?aid=6238&t=2&redir=&redirType=
const leastAlike = 4 * unit.Percent

// alike is the coefficient of variation up to which catches are of one kind, in one state:
// half the narrowest limit, or what new nozzles vary by.
func (r *NozzleAcceptanceResult) alike() float64 { return float64(max(r.Limit/2, leastAlike)) }

// A group is a side, or else a bed; the zero value is none.
type group struct {
	side certainty.Position
	bed  int
}

// sizeGroups marks the catches of whole sides, or else of whole beds, that give alike too
// much or too little, by about a size, while no other is surely outside the same way. It
// returns one action for each: what is stamped there is questioned before anything is bought
// or cleaned.
func (r *NozzleAcceptanceResult) sizeGroups(in *NozzleAcceptanceInput, leans []lean) []Action {
	groups := make([]group, len(in.Catches)) // that of each catch
	for i := range groups {
		groups[i].side = in.Catches[i].Position
	}
	if sides := r.groupsOff(in, leans, groups); sides != nil {
		return sides
	}
	for i := range groups {
		groups[i] = group{bed: in.Catches[i].Bed}
	}
	return r.groupsOff(in, leans, groups)
}

func (r *NozzleAcceptanceResult) groupsOff(in *NozzleAcceptanceInput, leans []lean, groups []group) (found []Action) {
	for i, g := range groups {
		if g == (group{}) || slices.Index(groups, g) < i || !r.offAlike(in, leans, groups, g) {
			continue
		}
		for j := range leans {
			leans[j].sized = leans[j].sized || groups[j] == g
		}
		found = append(found, Action{Catch: i, Do: CheckSize, Bed: g.bed, Side: g.side})
	}
	if found != nil && !othersInOrder(leans) {
		for i := range leans {
			leans[i].sized = false
		}
		return nil
	}
	return found
}

// offAlike tells that a group of two points or more, but not of all, is off by about a size,
// each of its catches outside and all of them alike, but for what their readings explain.
func (r *NozzleAcceptanceResult) offAlike(in *NozzleAcceptanceInput, leans []lean, groups []group, g group) bool {
	points, n, sum, squares, readings := 0, 0.0, 0.0, 0.0, 0.0
	for i := range leans {
		if groups[i] != g {
			continue
		}
		if leans[i].side == StatusWithin {
			return false
		}
		if !in.Catches[i].SamePoint {
			points++
		}
		d := float64(leans[i].off)
		n, sum, squares = n+1, sum+d, squares+d*d
		readings = max(readings, r.reading(i))
	}
	if points < 2 || !aSizeOff(sum/n) {
		return false
	}
	variation := math.Sqrt(math.Max(0, squares-sum*sum/n)/(n-1)) / (1 + sum/n)
	return finding.AtMost(variation, r.alike()+readings)
}

// reading is the standard uncertainty of a catch beside others; nothing where uncertainties
// were not asked for.
func (r *NozzleAcceptanceResult) reading(i int) float64 {
	switch {
	case r.Uncertainty == nil:
		return 0
	case r.Catches[i].InMean:
		return r.Uncertainty.Catches[i].DeviationFromMean.Standard
	}
	return r.Uncertainty.Catches[i].DeviationFromRated.Standard
}

// othersInOrder tells that there are catches in none of the groups, a quarter of all or more,
// and that none of those is surely outside the way that a group is.
func othersInOrder(leans []lean) bool {
	others := 0
	for i := range leans {
		if leans[i].sized {
			continue
		}
		others++
		if l := &leans[i]; l.sure && slices.ContainsFunc(leans, func(x lean) bool { return x.sized && x.side == l.side }) {
			return false
		}
	}
	return 4*others >= len(leans)
}
