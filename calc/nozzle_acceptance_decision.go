package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Decision is what follows for the nozzles that were caught.
type Decision string

const (
	Keep       Decision = "keep"        // all that were caught are within
	FixListed  Decision = "fix_listed"  // some are outside: see the actions
	ReplaceAll Decision = "replace_all" // too many are worn: a new set, caught again before it is trusted
	NotJudged  Decision = "not_judged"  // something else has to be put right or known first
)

// Words lists every decision.
func (Decision) Words() []string {
	return finding.WordsOf([]Decision{Keep, FixListed, ReplaceAll, NotJudged})
}

// MostWear is how far above its reference a nozzle may lie by wear. What gives more was
// misread, or is another nozzle. Own judgement: sets are changed at a tenth.
const MostWear = 50 * unit.Percent

// mostAlikeWear is how far above its rating a whole set may lie by wear alike. What lies
// further is another size, the next of which gives a fifth more (ISO 10625), or a slip.
// Own judgement.
const mostAlikeWear = 17 * unit.Percent

// decide turns what was seen into a decision and actions, in this order:
//
//	rests on what is not right   nothing follows
//	all dry                      the supply, before any nozzle
//	two groups, no rating        a new nozzle, since nobody knows which of them is right
//	none outside                 keep
//	most outside, all alike      the reference; and then a set, by what wear makes
//	surely too many worn         a set
//	else                         each by its remedy, and more catches where a set is open
func (r *NozzleAcceptanceResult) decide(in *NozzleAcceptanceInput) (err error) {
	points := in.pointsCaught(func(i int) bool { return r.Catches[i].Status != StatusWithin })
	r.ProportionOutside = unit.Ratio(float64(points.Outside) / float64(points.Caught))
	if !r.HasRating {
		r.warn(finding.Member("nozzle"), WarnWornAlikeUnseen)
	}
	switch {
	case in.NotJudged:
		r.Decision = NotJudged
	case r.boomMean == 0:
		r.Decision, r.Actions = NotJudged, ofAll(CheckSupply)
	case !r.HasRating && r.parted():
		r.warn(finding.Member("catches"), WarnTwoGroups)
		r.Decision, r.Actions = NotJudged, ofAll(CatchNewNozzle)
	case r.Outside > 0:
		err = r.putRight(in)
	}
	return err
}

// parted tells that the catches fall into two groups.
func (r *NozzleAcceptanceResult) parted() bool {
	_, high := r.twoGroups()
	return high > 0
}

// ofAll is one action for the whole round.
func ofAll(do Remedy) []Action { return []Action{{Catch: -1, Do: do}} }

// putRight decides where some catch is outside.
func (r *NozzleAcceptanceResult) putRight(in *NozzleAcceptanceInput) error {
	leans := r.leans(r.reference(in))
	sizes := r.sizeGroups(in, leans)
	set, more, err := r.countWorn(in, leans)
	if err != nil {
		return err
	}
	r.Decision = FixListed
	if r.Systematic = r.systematic(leans); r.Systematic {
		r.warn(finding.Member("catches"), WarnSystematicDeviation)
		if !in.ReferenceChecked {
			r.Actions = ofAll(CheckReference)
		}
		set = set && (in.ReferenceChecked || finding.AtMost(float64(r.MeanNozzleFlowRate/in.Nozzle.FlowAt(r.SprayPressure))-1, float64(mostAlikeWear)))
	}
	switch {
	case set:
		r.Decision = ReplaceAll
		r.Actions = append(r.Actions, ofAll(ReplaceAllAndRecatch)...)
	case !r.Systematic:
		if more {
			r.Actions = ofAll(CatchMore)
		}
		r.listActions(in, leans, sizes)
	}
	if len(r.Actions) == 0 { // nothing but the mean of all puts them outside
		r.listActions(in, r.leans(float64(r.MeanNozzleFlowRate)), nil)
	}
	return nil
}

// systematic tells that most catches are outside, all to one side, and all catches even among
// themselves.
func (r *NozzleAcceptanceResult) systematic(leans []lean) bool {
	above, below := 0, 0
	for i := range leans {
		switch leans[i].side {
		case StatusAbove:
			above++
		case StatusBelow:
			below++
		}
	}
	return r.Even && min(above, below) == 0 && 2*(above+below) > len(leans)
}

// countWorn counts the points that are surely worn as Sampling counts those outside, so
// that one that was replaced since speaks for the others too. A set is called for when they
// are surely more of the boom than ReplaceAllAbove; more catches, when of those caught they
// are, and further ones would tell.
func (r *NozzleAcceptanceResult) countWorn(in *NozzleAcceptanceInput, leans []lean) (set, more bool, err error) {
	points := in.pointsCaught(func(i int) bool { return r.worn(in, i, &leans[i]) })
	if points.Outside == 0 {
		return false, false, nil
	}
	if r.Worn, err = certainty.Sampling(points); err != nil {
		return false, false, err
	}
	set = r.Worn.Settled == certainty.SettledAbove || finding.AtMost(float64(certainty.SureEnough), float64(r.Worn.ChanceAbove))
	seen := float64(points.Outside) / float64(points.Caught)
	more = r.Worn.More > 0 && !finding.AtMost(seen, float64(r.ReplaceAllAbove))
	return set, more, nil
}

// worn tells that a catch, or the one that it stands in for, is surely above by wear.
func (r *NozzleAcceptanceResult) worn(in *NozzleAcceptanceInput, i int, l *lean) bool {
	if l.side == StatusAbove && r.Catches[i].Status == StatusAbove && l.sure && !l.sized && !l.gross() {
		return true
	}
	if !r.firstSurely(i, StatusAbove) {
		return false
	}
	_, first := r.first(in, &in.Catches[i])
	return finding.AtMost(float64(max(first.DeviationFromRated, first.DeviationFromMean)), float64(MostWear))
}

// firstSurely tells that the first catch that one stands in for was surely outside that way.
func (r *NozzleAcceptanceResult) firstSurely(i int, side Status) bool {
	return r.Catches[i].FirstStatus == side && (r.Uncertainty == nil || r.Uncertainty.Catches[i].first.Conformance == certainty.SurelyOutside)
}

// listActions goes from catch to catch. Where more than half of the catches, and more than
// three, have the same remedy, it is said once for all of them.
func (r *NozzleAcceptanceResult) listActions(in *NozzleAcceptanceInput, leans []lean, sizes []Action) {
	remedies, count := make([]Remedy, len(leans)), map[Remedy]int{}
	for i := range leans {
		remedies[i] = r.remedy(&in.Catches[i], i, &leans[i])
		count[remedies[i]]++
	}
	for i, do := range remedies {
		if at := slices.IndexFunc(sizes, func(a Action) bool { return a.Catch == i }); at >= 0 {
			r.Actions = append(r.Actions, sizes[at])
		}
		switch shared := count[do] > 3 && 2*count[do] > len(leans); {
		case do == "":
		case !shared:
			r.Actions = append(r.Actions, Action{Catch: i, Do: do})
		case slices.Index(remedies, do) == i:
			r.Actions = append(r.Actions, Action{Catch: -1, Do: do})
		}
	}
}

// notJudged takes back what was decided: flows and statuses stay.
func (r *NozzleAcceptanceResult) notJudged() { r.Decision, r.Actions = NotJudged, nil }

// middleFlow is the flow of the middle one of the catches, of an even number the higher of the
// two, at the working pressure.
func (r *NozzleAcceptanceResult) middleFlow() unit.FlowRate {
	var buffer [32]unit.FlowRate // of most rounds
	flows := buffer[:0]
	for i := range r.Catches {
		flows = append(flows, r.Catches[i].NozzleFlowRateAtPressure)
	}
	slices.Sort(flows)
	return flows[len(flows)/2]
}
