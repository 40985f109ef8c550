package operation

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/internal/text"
)

// Summary words the answer to a field sheet as plain lines that a crew can act on:
// the verdict, what to do, what each part found, and the cautions.
func (a *CalibrationsAnswer) Summary(ctx context.Context) string {
	s := summary{lang: text.From(ctx)}
	if a.Label != "" {
		s.line(a.Label)
	}
	s.say("verdict", strings.ToUpper(text.Of(s.lang, "summary."+string(a.Verdict))), a.VerdictDetail)
	s.heading("do")
	for i, step := range a.NextSteps {
		name := ""
		if step.name != "" {
			name = step.name + ": "
		}
		s.line(fmt.Sprintf("%2d. %s%s", i+1, name, step.Text))
		if i+1 == len(a.NextSteps) || a.NextSteps[i+1].Rule != step.Rule { // once for all steps of a rule
			s.line("    " + s.of("why", step.Why))
		}
	}
	s.heading("found")
	for _, p := range s.parts(a) {
		s.line(s.of("part_"+p.name) + ": " + s.statusWord(p.status, p.measured) + ". " + p.lines[0])
		for _, line := range p.lines[1:] {
			s.line("  " + line)
		}
		if c := a.Correction.Result; c != nil && p.name == "rate" {
			for _, line := range s.planLines(shown(c.Plans)) {
				s.line("  " + line)
			}
		}
	}
	switch {
	case a.NextDue.hoursUsedUp():
		s.say("due_now")
	case a.NextDue != nil:
		s.say("next_due", s.lang.Date(a.NextDue.Date))
		if a.NextDue.HoursLeft.Given() {
			s.say("hours_left", s.quantity(a.NextDue.HoursLeft))
		}
	}
	if warnings := warningsOf(a); len(warnings) > 0 {
		s.heading("warnings")
		for _, w := range warnings {
			s.line("- " + w)
		}
	}
	s.heading("cautions")
	for _, c := range a.Cautions {
		s.line("- " + c.Text)
	}
	return s.b.String()
}

// summary writes the lines.
type summary struct {
	b    strings.Builder
	lang text.Language
}

func (s *summary) of(key string, a ...any) string { return text.Of(s.lang, "summary."+key, a...) }
func (s *summary) say(key string, a ...any)       { s.line(s.of(key, a...)) }
func (s *summary) heading(key string)             { s.line(""); s.line(s.of(key)) }

// line writes one line, which holds what the caller called things: it is for a terminal.
func (s *summary) line(line string) { s.b.WriteString(text.Visible(line) + "\n") }

// A sheetPart is one part of the job with what was found: the first line says how it
// came out, the others go into it.
type sheetPart struct {
	name     string
	status   calc.PartStatus
	measured bool // something was, whether or not it was judged
	lines    []string
}

// statusWord is the word for a status: what was measured but could not be judged is not
// called not done.
func (s *summary) statusWord(status calc.PartStatus, measured bool) string {
	if status == calc.NotDone && measured {
		return s.of("not_judged")
	}
	return s.of(string(status))
}

func (s *summary) parts(a *CalibrationsAnswer) []sheetPart {
	all := []sheetPart{
		{"pressure", a.Pressure.Status, a.Pressure.Result != nil, s.pressure(a.Pressure.Result)},
		{"output", a.Output.Status, a.Output.Result != nil, s.output(a.Output.Result)},
		{"speed", a.Speed.Status, a.Speed.Result != nil, s.speed(a.Speed.Result)},
		{"rate", a.Rate.Status, a.Rate.Result != nil, s.rate(a)},
	}
	if t := a.AreaCheck.Result; t != nil {
		all = append(all, sheetPart{"tank", a.AreaCheck.Status, true, []string{s.of("area_check", s.quantity(t.ApplicationRate))}})
	}
	return all
}

func (s *summary) pressure(x *PressureUniformityAnswer) []string {
	if x == nil {
		return []string{s.of("pressure_not_done")}
	}
	lines := []string{s.of("pressure", s.quantity(x.Lowest), s.quantity(x.Highest), s.quantity(x.Spread), s.quantity(x.MaxDifference), s.quantity(x.FlowSpread))}
	return append(lines, s.tooCloseLines("", x.ConformanceAnswer)...)
}

func (s *summary) output(x *NozzleAcceptanceAnswer) []string {
	if x == nil {
		return []string{s.of("output_not_done")}
	}
	mean := s.quantity(x.MeanNozzleFlowRate)
	if u := x.Uncertainty; u != nil {
		mean = s.withUncertainty(x.MeanNozzleFlowRate, u.MeanNozzleFlowRate)
	}
	if x.Decision == calc.NotJudged {
		return []string{s.of("output_not_judged", x.CatchesTested, mean)}
	}
	lines := []string{s.of("output", x.CatchesOutside, x.CatchesTested, mean, s.quantity(x.Tolerance.Limit))}
	if !x.Tolerance.Limit.Given() {
		lines[0] = s.of("output_limits", x.CatchesOutside, x.CatchesTested, mean, s.limits(&x.Tolerance))
	}
	for i, c := range x.Catches {
		name, jug := x.origins.name(c.Label, i), c.AcceptableVolume
		switch {
		case c.Status == calc.StatusWithin, !x.actsOn(i):
		case jug.Low.Given() == jug.High.Given():
			lines = append(lines, s.of("catch_"+string(c.Status), name, s.quantity(jug.Low), s.quantity(jug.High)))
		default:
			lines = append(lines, s.of("catch_"+string(c.Status)+"_only", name, s.quantity(jug.Low.Or(jug.High))))
		}
	}
	lines = append(lines, s.catchRemarks(x)...)
	lines = append(lines, x.Sampling.Detail) // how many more to catch the steps and the verdict say
	return lines
}

// limits lists those of a tolerance that has them one by one.
func (s *summary) limits(t *ToleranceAnswer) string {
	var all []string
	for _, limit := range [...]struct {
		key string
		q   wire.Quantity
	}{{"limit_rated_below", t.Rated.Below}, {"limit_rated_above", t.Rated.Above}, {"limit_mean_below", t.Mean.Below}, {"limit_mean_above", t.Mean.Above}} {
		if limit.q.Given() {
			all = append(all, s.of(limit.key, s.quantity(limit.q)))
		}
	}
	return strings.Join(all, "; ")
}

func (s *summary) speed(x *GroundSpeedAnswer) []string {
	if x == nil {
		return []string{s.of("speed_not_done")}
	}
	speed := s.quantity(x.GroundSpeed)
	if u := x.Uncertainty; u != nil {
		speed = s.withUncertainty(x.GroundSpeed, u.GroundSpeed)
	}
	return append([]string{s.of("speed", speed, s.quantity(x.Spread))}, s.tooCloseLines("", x.ConformanceAnswer)...)
}

func (s *summary) rate(a *CalibrationsAnswer) (lines []string) {
	x := a.Rate.Result
	if x == nil {
		return []string{s.of("rate_not_done")}
	}
	treated, field := s.quantity(x.ApplicationRate), s.quantity(x.FieldApplicationRate)
	if u := x.Uncertainty; u != nil {
		treated, field = s.withUncertainty(x.ApplicationRate, u.ApplicationRate), s.withUncertainty(x.FieldApplicationRate, u.FieldApplicationRate)
	}
	if x.TargetApplicationRate.Given() {
		lines = append(lines, s.of("rate", treated, s.quantity(x.TargetApplicationRate.To(x.ApplicationRate.Unit)), s.quantity(x.Deviation)))
	} else {
		lines = append(lines, s.of("rate_without_target", treated))
	}
	if x.FieldApplicationRate.Given() {
		lines = append(lines, s.of("field_rate", field))
	}
	if isTrue(x.OverLabelMaximum) {
		lines = append(lines, s.of("over_label_maximum"))
	}
	if isTrue(x.UnderLabelMinimum) {
		lines = append(lines, s.of("under_label_minimum"))
	}
	lines = append(lines, s.tooCloseLines("", x.ConformanceAnswer)...)
	if c := x.LabelConformance; c != nil && !isTrue(x.OverLabelMaximum) && !isTrue(x.UnderLabelMinimum) { // beyond it, measuring better is no way out
		lines = append(lines, s.tooCloseLines(text.Of(s.lang, "printed.label_limit"), *c)...)
	}
	if a.Cost != nil {
		lines = append(lines, s.cost(a.Cost))
	}
	return lines
}

// isTrue tells whether something was judged and is so.
func isTrue(judged *bool) bool { return judged != nil && *judged }

// cost words what the deviation costs, or saves, on an area and on all that is planned.
func (s *summary) cost(c *CostAnswer) string {
	kind := "cost"
	if c.Deviation.Amount < 0 {
		kind = "saving"
	}
	area := s.quantity(c.PerArea)
	if c.PerArea.Value == 1 {
		area = s.lang.Unit(c.PerArea.Unit.Symbol())
	}
	if c.Total.IsZero() {
		return s.of(kind, s.money(c.Deviation), area)
	}
	return s.of(kind+"_total", s.money(c.Deviation), area, s.money(c.Total))
}

func (s *summary) money(m wire.Money) string { return s.lang.Money(float64(m.Amount), m.Currency) }

// nameOrNumber is what its user called it, or else its number.
func nameOrNumber(name string, i int) string {
	if name = strings.TrimSpace(name); name != "" {
		return name
	}
	return strconv.Itoa(i + 1)
}

// mostPlansShown is how many plans a crew is shown, the least change first.
const mostPlansShown = 5

// changes words what a plan changes.
func (s *summary) changes(p PlanAnswer) string {
	var all []string
	add := func(change calc.Change, value string) {
		all = append(all, text.Of(s.lang, "summary.set_"+string(change), value))
	}
	if p.Nozzle != nil {
		name := p.Nozzle.Label
		if name == "" {
			name = string(p.Nozzle.Size)
		}
		add(calc.ChangeNozzle, name)
	}
	if p.Gear != "" {
		add(calc.ChangeGear, p.Gear)
	}
	// In the order in which a crew sets them, the same in every language.
	for _, to := range [...]struct {
		change calc.Change
		q      wire.Quantity
	}{
		{calc.ChangeEngineSpeed, p.EngineSpeed}, {calc.ChangePressure, p.SprayPressure}, {calc.ChangeDutyCycle, p.DutyCycle}, {calc.ChangeSpeed, p.GroundSpeed},
	} {
		if to.q.Given() && (slices.Contains(p.Changes, to.change) || to.change == calc.ChangeSpeed && p.Gear != "") {
			add(to.change, s.quantity(to.q))
		}
	}
	return strings.Join(all, ", ")
}

// quantity writes a quantity for people; "-" when there is none.
func (s *summary) quantity(q wire.Quantity) string {
	if !q.Given() {
		return "-"
	}
	return inWords(s.lang, q)
}

// inWords writes a quantity as people read it off a gauge or a jug.
func inWords(lang text.Language, q wire.Quantity) string {
	return lang.Measured(lang.Number(q.Value), lang.Unit(q.Unit.Symbol()))
}

// asSent writes a quantity of the request digit for digit: a record alters no reading.
func (s *summary) asSent(q wire.Quantity) string {
	if !q.Given() {
		return "-"
	}
	return s.lang.Figure(wire.Figure(q.Value, s.lang.Unit(q.Unit.Symbol())))
}
