package calc

import (
	"cmp"
	"math"
	"slices"

	"wetrun/calc/finding"
)

// MostPlans and MostRejected are how many of them a result holds: what a crew can look
// through. Own judgement, no published source.
const (
	MostPlans    = 12
	MostRejected = 20
)

// keepBest puts the plans in their order and leaves out what there is no room for. The
// best plan of each kind of change stays before the next best of any, and the rejected
// change that comes nearest of each kind and reason before the next nearest; the rejected
// keep the order in which they were tried.
func (r *CorrectionsResult) keepBest(target float64) {
	// Equal ones, which conversion leaves a little apart, stay in the order of means.
	left := func(p *Plan) float64 { return math.Abs(math.Log(float64(p.PredictedApplicationRate) / target)) }
	slices.SortStableFunc(r.Plans, func(a, b Plan) int {
		return cmp.Or(
			cmp.Compare(behind(r.leavesWorse(&a)), behind(r.leavesWorse(&b))),
			cmp.Compare(finding.Difference(a.Size+left(&a), b.Size+left(&b)), 0),
			cmp.Compare(finding.Difference(1+left(&a), 1+left(&b)), 0),
		)
	})
	r.Plans, r.PlansLeftOut = firstOfEach(r.Plans, MostPlans, func(p *Plan) kind { return kind{p.Changes, ""} }, func(*Plan) float64 { return 0 })
	r.Rejected, r.RejectedLeftOut = firstOfEach(r.Rejected, MostRejected, func(no *Rejection) kind { return kind{no.Changes, no.Reason} }, (*Rejection).off)
}

// behind is a key that puts what is so behind what is not.
func behind(so bool) int {
	if so {
		return 1
	}
	return 0
}

// leavesWorse tells that a plan, stopped short by a limit, leaves the rate further from its
// target than it is: it brings something else inside its limits.
func (r *CorrectionsResult) leavesWorse(p *Plan) bool {
	return p.AtLimit && !finding.AtMost(math.Abs(float64(p.Deviation)), math.Abs(float64(r.Deviation)))
}

// A kind is what is alike in plans or in rejections.
type kind struct {
	changes Changes
	reason  RejectionReason
}

// off is how far a rejected change comes from the target; endless where that is not known.
func (n *Rejection) off() float64 {
	switch {
	case n.ApplicationRateAtLimit != 0:
		return math.Abs(float64(n.DeviationAtLimit))
	case n.PredictedApplicationRate != 0:
		return math.Abs(float64(n.Deviation))
	}
	return math.Inf(1)
}

// firstOfEach keeps so many of a list, in its order: of each kind the nearest, then the next
// nearest of any. The earlier of equally near ones goes first.
func firstOfEach[T any](list []T, most int, kindOf func(*T) kind, off func(*T) float64) (kept []T, leftOut int) {
	if len(list) <= most {
		return list, 0
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(off(&list[a]), off(&list[b])) })
	seen := make(map[kind]bool)
	firsts, others := make([]int, 0, most), make([]int, 0, len(list))
	for _, i := range order {
		if k := kindOf(&list[i]); !seen[k] {
			seen[k] = true
			firsts = append(firsts, i)
		} else {
			others = append(others, i)
		}
	}
	order = append(firsts, others...)[:most]
	slices.Sort(order)
	kept = make([]T, most)
	for to, i := range order {
		kept[to] = list[i]
	}
	return kept, len(list) - most
}
