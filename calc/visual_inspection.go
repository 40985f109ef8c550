package calc

import "wetrun/calc/finding"

// BedInspection is what was seen by eye on the nozzles of one bed: how many were
// clean of damage but dirty, and how many were rejected.
type BedInspection struct {
	Clean   int // to be cleaned
	Replace int // rejected: worn, cracked, a pattern that is off
	// Done tells that it was put right before the catches.
	Done bool
}

// InspectionDecision is what follows for one bed.
type InspectionDecision string

const (
	InspectionKeep          InspectionDecision = "keep"
	InspectionClean         InspectionDecision = "clean"
	InspectionReplaceListed InspectionDecision = "replace_listed"
	InspectionReplaceAll    InspectionDecision = "replace_all" // of all beds: a set is replaced together
)

// Words lists every decision.
func (InspectionDecision) Words() []string {
	return finding.WordsOf([]InspectionDecision{InspectionKeep, InspectionClean, InspectionReplaceListed, InspectionReplaceAll})
}

// MostRejectedOfBed is how many nozzles of one bed may be rejected by eye before
// all nozzles are replaced. Common practice, no published source.
const MostRejectedOfBed = 3

// VisualInspection decides for each bed from what was seen: more than MostRejectedOfBed
// rejected in any bed means a new set for all; else the rejected are replaced, and
// the dirty cleaned. open tells whether anything is still to be done. Counts are
// not below zero: finding.Invalid otherwise (not_positive).
//
// Source: common practice, no published source.
func VisualInspection(beds []BedInspection) (decisions []InspectionDecision, open bool, err error) {
	var v finding.Invalid
	decisions = make([]InspectionDecision, len(beds))
	for i, b := range beds {
		if b.Clean < 0 {
			v.Add(finding.Item("beds", i).Member("clean"), finding.CodeNotPositive)
		}
		if b.Replace < 0 {
			v.Add(finding.Item("beds", i).Member("replace"), finding.CodeNotPositive)
		}
		switch {
		case b.Replace > MostRejectedOfBed:
			decisions[i] = InspectionReplaceAll
		case b.Replace > 0:
			decisions[i] = InspectionReplaceListed
		case b.Clean > 0:
			decisions[i] = InspectionClean
		default:
			decisions[i] = InspectionKeep
		}
		open = open || decisions[i] != InspectionKeep && !b.Done
	}
	return decisions, open, v.Err()
}
