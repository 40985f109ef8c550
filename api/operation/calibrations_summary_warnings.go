package operation

import "strconv"

// warningsOf are the texts of all warnings of the parts of a sheet, each once. What a step
// says in the same words is no warning beside it.
func warningsOf(a *CalibrationsAnswer) (lines []string) {
	seen := map[string]bool{}
	for _, step := range a.NextSteps {
		seen[step.Text] = true
	}
	add := func(all []Warning) {
		for _, w := range all {
			if !seen[w.Detail] {
				seen[w.Detail] = true
				lines = append(lines, w.Detail)
			}
		}
	}
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
	}
	if x := a.AreaCheck.Result; x != nil {
		add(x.Warnings)
	}
	return lines
}

// planLines are the plans, and below them what each of them needs care for, once.
func (s *summary) planLines(plans []PlanAnswer) (lines []string) {
	var care sharedRemarks
	for i, plan := range plans {
		name := s.of("plan_number", strconv.Itoa(i+1))
		lines = append(lines, s.of("plan", name, s.changes(plan), s.quantity(plan.PredictedApplicationRate)))
		for _, words := range plan.CautionTexts {
			care.add(name, words)
		}
		for _, w := range plan.Warnings {
			care.add(name, w.Detail)
		}
	}
	return append(lines, care.lines()...)
}
