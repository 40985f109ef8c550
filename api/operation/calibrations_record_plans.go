package operation

import (
	"slices"
	"strconv"
	"strings"

	"wetrun/internal/record"
)

// plans lists what would bring the rate to its target, the least change first, each with
// what to mind beside it: who chooses one reads that line alone.
func (s *sheetRecord) plans() *record.Table {
	c := s.answer.Correction.Result
	if c == nil || len(c.Plans) == 0 {
		return nil
	}
	t := &record.Table{Caption: s.word("plans"), Heads: []string{s.word("plan"), s.word("plan_cautions"), s.word("predicted")}}
	for i, p := range shown(c.Plans) {
		t.Rows = append(t.Rows, record.Row{Cells: []string{
			strconv.Itoa(i+1) + ". " + s.changes(p), s.mind(p), s.quantity(p.PredictedApplicationRate) + " (" + s.quantity(p.Deviation) + ")",
		}})
	}
	return t
}

// mind is what a plan is cautioned and warned of.
func (s *sheetRecord) mind(p PlanAnswer) string {
	all := slices.Clone(p.CautionTexts)
	for _, w := range p.Warnings {
		all = append(all, w.Detail)
	}
	return strings.Join(all, " ")
}

// shown are the plans that a crew is shown.
func shown(plans []PlanAnswer) []PlanAnswer { return plans[:min(len(plans), mostPlansShown)] }
