package operation

import (
	"context"
	"math"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/internal/text"
)

// warnDuplicateLabel is the warning for a label that an earlier catch has. Calc knows
// no labels.
const warnDuplicateLabel = "duplicate_label"

// warnings words what is unusual of a round, naming the catch where the words need it.
func (r *NozzleAcceptanceRequest) warnings(ctx context.Context, x *calc.NozzleAcceptanceResult) []Warning {
	all, lang := warnings(ctx, x.Warnings), text.From(ctx)
	for i := range all {
		if all[i].Code == calc.WarnCatchTooShort {
			all[i].Detail = text.Of(lang, "warning.catch_too_short_for", int(x.CatchLonger))
		}
		if all[i].Code == calc.WarnHiddenDeviation {
			hidden := math.Round(1000*float64(x.Catches[x.Hides].LargestHiddenDeviation)) / 10
			all[i].Detail = text.Of(lang, "warning."+calc.WarnHiddenDeviation, r.origins.name(r.Catches[x.Hides].Label, x.Hides), wire.Figure(hidden, "%"))
		}
	}
	for _, i := range r.duplicateLabels() {
		all = append(all, Warning{
			Code: warnDuplicateLabel, Pointer: wire.Pointer(r.origins.place(i).Member("label")), Detail: text.Of(lang, "warning."+warnDuplicateLabel, r.Catches[i].Label),
		})
	}
	return all
}

// duplicateLabels are the catches whose label an earlier one has, the first such of each label.
// Those of one drop, each nozzle alone, may share the label of their drop.
func (r *NozzleAcceptanceRequest) duplicateLabels() (second []int) {
	var seen map[string]int // only of long rounds: a short one is looked through in no time
	if len(r.Catches) > 32 {
		seen = make(map[string]int, len(r.Catches))
	}
	for i := range r.Catches {
		label := r.Catches[i].Label
		switch {
		case label == "" || r.Catches[i].samePoint && label == r.Catches[i-1].Label:
		case seen == nil:
			if r.earlierWith(label, i) == 1 {
				second = append(second, i)
			}
		default:
			if seen[label]++; seen[label] == 2 {
				second = append(second, i)
			}
		}
	}
	return second
}

// earlierWith counts the catches before i that have a label.
func (r *NozzleAcceptanceRequest) earlierWith(label string, i int) (n int) {
	for j := range r.Catches[:i] {
		if c := &r.Catches[j]; c.Label == label && (!c.samePoint || label != r.Catches[j-1].Label) {
			n++
		}
	}
	return n
}
