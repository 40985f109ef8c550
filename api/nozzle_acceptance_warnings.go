package api

import (
	"context"
	"math"
	"strconv"

	"wetrun/calc"
	"wetrun/internal/text"
)

// warnDuplicateLabel is the warning for a label that an earlier catch has. Calc knows
// no labels.
const warnDuplicateLabel = "duplicate_label"

// warnings words what is unusual of a round, naming the catch where the words need it.
func (r *NozzleAcceptanceRequest) warnings(ctx context.Context, x *calc.NozzleAcceptanceResult) []warning {
	all, lang := warnings(ctx, x.Warnings), text.From(ctx)
	for i := range all {
		if all[i].Code == calc.WarnHiddenDeviation {
			hidden := math.Round(1000*float64(x.Catches[x.Hides].LargestHiddenDeviation)) / 10
			all[i].Detail = text.Of(lang, "warning."+calc.WarnHiddenDeviation, nameOrNumber(r.Catches[x.Hides].Label, x.Hides), figure(hidden, "%"))
		}
	}
	for _, i := range r.twins() {
		all = append(all, warning{
			warnDuplicateLabel, "#/catches/" + strconv.Itoa(i) + "/label", text.Of(lang, "warning."+warnDuplicateLabel, r.Catches[i].Label),
		})
	}
	return all
}

// twins are the catches whose label an earlier one has, the first such of each label.
// Those of one drop, each nozzle alone, may share the label of their drop.
func (r *NozzleAcceptanceRequest) twins() (second []int) {
	seen := make(map[string]int, len(r.Catches))
	for i := range r.Catches {
		c := &r.Catches[i]
		if c.Label == "" || c.samePoint && c.Label == r.Catches[i-1].Label {
			continue
		}
		if seen[c.Label]++; seen[c.Label] == 2 {
			second = append(second, i)
		}
	}
	return second
}
