package calc

import "wetrun/calc/finding"

// BedFinding is what was seen by eye on the nozzles of one bed: how many were
// clean of damage but dirty, and how many were rejected.
type BedFinding struct {
	Clean   int // to be cleaned
	Replace int // rejected: worn, cracked, a pattern that is off
	// Done tells that it was put right before the catches.
	Done bool
}

// EyeDecision is what follows for one bed.
type EyeDecision uint8

// The decisions by eye, the graver the later.
const (
	EyeKeep EyeDecision = iota
	EyeClean
	EyeReplaceListed
	EyeReplaceAll // of all beds: a set is replaced together
)

// MostRejectedOfBed is how many nozzles of one bed may be rejected by eye before
// all nozzles are replaced. Common practice, no published source.
const MostRejectedOfBed = 3

// JudgeByEye decides for each bed from what was seen: more than MostRejectedOfBed
// rejected in any bed means a new set for all; else the rejected are replaced, and
// the dirty cleaned. open tells whether anything is still to be done. Counts are
// not below zero: finding.Invalid otherwise (not_positive).
//
// Source: common practice, no published source.
func JudgeByEye(beds []BedFinding) (decisions []EyeDecision, open bool, err error) {
	var v finding.Invalid
	decisions = make([]EyeDecision, len(beds))
	for i, b := range beds {
		if b.Clean < 0 {
			v.Add(finding.Item("beds", i).Member("clean"), finding.CodeNotPositive)
		}
		if b.Replace < 0 {
			v.Add(finding.Item("beds", i).Member("replace"), finding.CodeNotPositive)
		}
		switch {
		case b.Replace > MostRejectedOfBed:
			decisions[i] = EyeReplaceAll
		case b.Replace > 0:
			decisions[i] = EyeReplaceListed
		case b.Clean > 0:
			decisions[i] = EyeClean
		}
		open = open || decisions[i] != EyeKeep && !b.Done
	}
	return decisions, open, v.Err()
}
