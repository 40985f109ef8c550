package api

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"wetrun/internal/text"
)

// Summary words the answer to a field sheet as plain lines that a crew can act on:
// the verdict, what to do, what each part found, and the cautions.
func (a *CalibrationsResponse) Summary(ctx context.Context) string {
	s := summary{lang: text.From(ctx)}
	if a.Label != "" {
		s.line(a.Label)
	}
	s.say("verdict", strings.ToUpper(text.Of(s.lang, "summary."+a.Verdict)), a.VerdictDetail)
	s.heading("do")
	for i, step := range a.NextSteps {
		name := ""
		if step.Label != "" {
			name = step.Label + ": "
		}
		s.line(fmt.Sprintf("%2d. %s%s", i+1, name, step.Text))
	}
	s.heading("found")
	s.parts(a)
	if a.NextDue != nil {
		s.say("next_due", a.NextDue.Date)
		if a.NextDue.HoursLeft.given() {
			s.say("hours_left", s.people(a.NextDue.HoursLeft))
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

func (s *summary) line(line string)          { s.b.WriteString(line + "\n") }
func (s *summary) say(key string, a ...any)  { s.line(text.Of(s.lang, "summary."+key, a...)) }
func (s *summary) heading(key string)        { s.line("\n" + text.Of(s.lang, "summary."+key)) }
func (s *summary) status(word string) string { return text.Of(s.lang, "summary."+word) }

func (s *summary) parts(a *CalibrationsResponse) {
	if x := a.Pressure.Result; x != nil {
		s.say("pressure", s.status(a.Pressure.Status), s.people(x.Lowest), s.people(x.Highest), s.people(x.Spread), s.people(x.MaxDifference), s.people(x.FlowSpread))
	} else {
		s.say("pressure_not_done")
	}
	if x := a.Output.Result; x != nil {
		s.say("output", s.status(a.Output.Status), x.CatchesOutside, x.CatchesTested, s.people(x.MeanNozzleFlowRate), s.people(x.Tolerance.Limit))
		for i, c := range x.Catches {
			if c.Status != "within" {
				name := c.Label
				if name == "" {
					name = fmt.Sprint(i + 1)
				}
				s.say("catch_"+c.Status, name, s.people(c.AcceptableVolume.Low), s.people(c.AcceptableVolume.High))
			}
		}
	} else {
		s.say("output_not_done")
	}
	if x := a.Speed.Result; x != nil {
		s.say("speed", s.status(a.Speed.Status), s.people(x.GroundSpeed), s.people(x.Spread))
	} else {
		s.say("speed_not_done")
	}
	s.rate(a)
}

func (s *summary) rate(a *CalibrationsResponse) {
	x := a.Rate.Result
	switch {
	case x == nil:
		s.say("rate_not_done")
		return
	case x.TargetApplicationRate.given():
		s.say("rate", s.status(a.Rate.Status), s.people(x.ApplicationRate), s.people(x.TargetApplicationRate), s.people(x.Deviation))
	default:
		s.say("rate_without_target", s.status(a.Rate.Status), s.people(x.ApplicationRate))
	}
	if x.FieldApplicationRate.given() {
		s.say("field_rate", s.people(x.FieldApplicationRate))
	}
	if c := a.Correction.Result; c != nil {
		for i, p := range c.Plans {
			if i == mostPlansInSummary {
				break
			}
			s.say("plan", s.changes(p), s.people(p.PredictedApplicationRate))
		}
	}
	if t := a.AreaCheck.Result; t != nil {
		s.say("area_check", s.status(a.AreaCheck.Status), s.people(t.ApplicationRate))
	}
	if a.Cost != nil {
		s.say("cost", s.lang.Number(float64(a.Cost.Deviation.Amount)), a.Cost.Deviation.Currency, s.people(a.Cost.PerArea))
	}
}

// mostPlansInSummary is how many plans a crew is shown, the least change first.
const mostPlansInSummary = 5

// changes words what a plan changes.
func (s *summary) changes(p PlanResponse) string {
	var all []string
	add := func(key string, value string) {
		all = append(all, text.Of(s.lang, "summary.set_"+key, value))
	}
	if p.Nozzle != nil {
		name := p.Nozzle.Label
		if name == "" {
			name = p.Nozzle.Size
		}
		add("nozzle", name)
	}
	if p.Gear != "" {
		add("gear", p.Gear)
	}
	for key, q := range map[string]Quantity{"engine_speed": p.EngineSpeed, "duty_cycle": p.DutyCycle, "pressure": p.SprayPressure, "speed": p.GroundSpeed} {
		if q.given() && (len(p.Changes) == 0 || slices.Contains(p.Changes, key) || key == "speed" && p.Gear != "") {
			add(key, s.people(q))
		}
	}
	slices.Sort(all)
	return strings.Join(all, ", ")
}

// people writes a quantity as people read it; "-" when there is none.
func (s *summary) people(q Quantity) string {
	if !q.given() {
		return "-"
	}
	return s.lang.Number(q.Value) + " " + s.lang.Unit(q.Unit.Symbol())
}

// Summarize works out a field sheet and words the answer. ok is false when the
// sheet is refused; what comes back is then the problem.
func Summarize(ctx context.Context, in io.Reader) (answer []byte, ok bool, err error) {
	body, err := readAll(in)
	if err != nil {
		return nil, false, err
	}
	var r CalibrationsRequest
	if x := checkTop(&r, decode(body, calibrationsTable, &r)); x != nil {
		return x.indented(ctx), false, nil
	}
	a, err := calibrations(ctx, &r)
	if err != nil {
		return refusalOf(err).indented(ctx), false, nil
	}
	return []byte(a.Summary(ctx)), true, nil
}
