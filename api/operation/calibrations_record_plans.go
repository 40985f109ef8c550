package operation

import (
	"strconv"
	"strings"

	"wetrun/internal/record"
)

// warningLines are the texts of all warnings, each once.
func (s *sheetRecord) warningLines() (lines []string) {
	seen := map[string]bool{}
	add := func(all []Warning) {
		for _, w := range all {
			if !seen[w.Detail] {
				seen[w.Detail] = true
				lines = append(lines, w.Detail)
			}
		}
	}
	a := s.answer
	if x := a.Pressure.Result; x != nil {
		add(x.Warnings)
	}
	if x := a.Output.Result; x != nil {
		add(x.Warnings)
	}
	if x := a.Speed.Result; x != nil {
		add(x.Warnings)
	}
	if x := a.Rate.Result; x != nil {
		add(x.Warnings)
	}
	if x := a.Correction.Result; x != nil {
		add(x.Warnings)
		lines = append(lines, s.planWarnings(x.Plans)...)
	}
	if x := a.AreaCheck.Result; x != nil {
		add(x.Warnings)
	}
	return lines
}

// plans lists what would bring the rate to its target, the least change first.
func (s *sheetRecord) plans() *record.Table {
	c := s.answer.Correction.Result
	if c == nil || len(c.Plans) == 0 {
		return nil
	}
	t := &record.Table{Caption: s.word("plans"), Heads: []string{s.word("plan"), s.word("predicted"), s.word("deviation")}}
	for i, p := range shown(c.Plans) {
		t.Rows = append(t.Rows, record.Row{Cells: []string{strconv.Itoa(i+1) + ". " + s.changes(p), s.quantity(p.PredictedApplicationRate), s.quantity(p.Deviation)}})
	}
	return t
}

// planWarnings are the warnings of the plans that are shown, with the numbers of those that
// each is of.
func (s *sheetRecord) planWarnings(plans []PlanAnswer) (lines []string) {
	numbers := map[string][]string{}
	var order []string
	for i, p := range shown(plans) {
		for _, w := range p.Warnings {
			if numbers[w.Detail] == nil {
				order = append(order, w.Detail)
			}
			numbers[w.Detail] = append(numbers[w.Detail], strconv.Itoa(i+1))
		}
	}
	for _, detail := range order {
		lines = append(lines, s.word("of_plans", strings.Join(numbers[detail], ", "), detail))
	}
	return lines
}

// shown are the plans that a crew is shown.
func shown(plans []PlanAnswer) []PlanAnswer { return plans[:min(len(plans), mostPlansShown)] }
