package operation

import (
	"slices"
	"strconv"
	"strings"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/internal/record"
)

// recordParts words the parts of a sheet, in the order of the job: what the summary
// says, and the readings it comes from. An extra that nobody asked for is no part: it was
// not left undone.
func (s *sheetRecord) recordParts() (all []record.Part) {
	eye := s.answer.Maintenance
	if lines := s.foundByEye(eye); lines != nil {
		all = append(all, record.Part{Heading: s.word("by_eye"), Status: string(eye.Status), Word: s.of(string(eye.Status)), Lines: lines})
	}
	caught, alike := s.catches()
	tables := map[string]*record.Table{"pressure": s.readings(), "output": caught, "speed": s.runs()}
	for _, p := range s.parts(s.answer) {
		if p.name == "output" && alike != "" {
			p.lines = append(p.lines, alike)
		}
		all = append(all, record.Part{
			Heading: s.of("part_" + p.name), Status: string(p.status), Word: s.statusWord(p.status, p.measured), Lines: p.lines, Table: tables[p.name],
		})
	}
	return all
}

func (s *sheetRecord) readings() *record.Table {
	if s.answer.Pressure.Result == nil {
		return nil
	}
	t := &record.Table{Caption: s.word("readings"), Heads: []string{s.word("place"), s.word("pressure")}}
	for i, r := range s.request.Pressure.Readings {
		t.Rows = append(t.Rows, record.Row{Cells: []string{readingName(s.lang, r, i), s.asSent(r.Pressure)}})
	}
	if q := s.request.Pressure.CabPressure; q.Given() {
		t.Rows = append(t.Rows, record.Row{Cells: []string{s.word("cab"), s.asSent(q)}})
	}
	return t
}

// catches is the table of the round, and what is alike in all its rows.
func (s *sheetRecord) catches() (_ *record.Table, alike string) {
	x := s.answer.Output.Result
	if x == nil {
		return nil, ""
	}
	catches, sources, refused := s.request.Output.withFollowUps(s.lang)
	if refused != nil { // it was answered, so it was not
		return nil, ""
	}
	u := x.Catches[0].NozzleFlowRate.Unit
	judged, chart := true, "chart"
	if x.Decision == calc.NotJudged && len(x.Actions) == 0 {
		judged, chart = false, "chart_not_judged"
	}
	t := &record.Table{
		Caption: s.word("catches"),
		Heads: []string{
			s.word("place"), s.word("nozzles"), s.word("reading"), s.word("time"), s.word("acceptable"), s.word("nozzle_flow"), s.word("result"),
		},
		Chart: &record.Chart{Title: s.word(chart, s.lang.Unit(u.Symbol())), Number: s.lang.Number},
	}
	for i, c := range x.Catches {
		if sources != nil && sources[i].followUp >= 0 && !catches[i].samePoint {
			t.Rows = append(t.Rows, s.replaced(sources[i].catch))
		}
		r := catches[i]
		if !judged {
			t.Rows = append(t.Rows, s.unjudged(x.origins.name(c.Label, i), r, c.NozzleFlowRate.As(u), s.quantity(c.NozzleFlowRate)))
			continue
		}
		result := s.word("status_" + string(c.Status))
		if c.Conformance == certainty.TooClose {
			result += ", " + s.word("too_close")
		}
		acceptable := "-"
		point := &record.Point{Value: c.NozzleFlowRate.As(u), Status: string(c.Status)}
		switch jug := c.AcceptableVolume; {
		case jug.Low.Given() && jug.High.Given():
			acceptable = s.word("range", s.lang.Number(jug.Low.Value), s.quantity(jug.High))
		case jug.Low.Given():
			acceptable = s.word("or_more", s.quantity(jug.Low))
		case jug.High.Given():
			acceptable = s.word("or_less", s.quantity(jug.High))
		}
		if flow := c.AcceptableFlowRate; flow.Low.Given() {
			point.Low = flow.Low.As(u)
		}
		if flow := c.AcceptableFlowRate; flow.High.Given() {
			point.High = flow.High.As(u)
		}
		t.Rows = append(t.Rows, record.Row{
			Marked: c.Status != calc.StatusWithin,
			Cells: []string{
				x.origins.name(c.Label, i), strconv.Itoa(nozzlesOf(r)), s.asSent(r.Volume), s.asSent(r.Time),
				acceptable, s.quantity(c.NozzleFlowRate), result,
			},
			Point: point,
		})
	}
	if !judged {
		return t, s.sayOnce(t, 1, 3, 4, 6)
	}
	return t, s.sayOnce(t, 1, 3, 4)
}

// sayOnce takes columns out of a table in which every row reads the same, and words what they
// read; a column of nothing goes without a word. What is left leaves room on the paper.
func (s *sheetRecord) sayOnce(t *record.Table, columns ...int) string {
	var said []string
	for _, c := range slices.Backward(columns) {
		alike := t.Rows[0].Cells[c]
		if slices.ContainsFunc(t.Rows, func(r record.Row) bool { return r.Cells[c] != alike }) {
			continue
		}
		if alike != "-" {
			said = append(said, t.Heads[c]+": "+alike)
		}
		t.Heads = slices.Delete(t.Heads, c, c+1)
		for i := range t.Rows {
			t.Rows[i].Cells = slices.Delete(t.Rows[i].Cells, c, c+1)
		}
	}
	slices.Reverse(said)
	return strings.Join(said, " · ")
}

// unjudged is the row of a catch that says nothing of its nozzles yet, such as on an uneven
// boom: what was read and the flow, against no range.
func (s *sheetRecord) unjudged(name string, r AcceptanceCatchRequest, flow float64, worded string) record.Row {
	return record.Row{
		Cells: []string{name, strconv.Itoa(nozzlesOf(r)), s.asSent(r.Volume), s.asSent(r.Time), "-", worded, s.word("not_judged")},
		Point: &record.Point{Value: flow, Status: string(calc.StatusWithin)},
	}
}

// replaced is the row of the catch j of the round, which was caught again: what was read
// stays on paper, and counts no more.
func (s *sheetRecord) replaced(j int) record.Row {
	c := s.request.Output.Catches[j]
	return record.Row{Replaced: true, Cells: []string{
		nameOrNumber(c.Label, j), strconv.Itoa(nozzlesOf(c)), s.asSent(c.Volume), s.asSent(c.Time), "", "", s.word("replaced"),
	}}
}

// nozzlesOf is how many nozzles ran into the jug.
func nozzlesOf(r AcceptanceCatchRequest) int {
	n := 0
	for _, d := range r.NozzlesOnDrop {
		n += max(d.Count, 1)
	}
	return max(n, r.Nozzles, 1)
}

func (s *sheetRecord) runs() *record.Table {
	x := s.answer.Speed.Result
	if x == nil {
		return nil
	}
	t := &record.Table{Caption: s.word("runs"), Heads: []string{s.word("run"), s.word("course"), s.word("time"), s.word("speed")}}
	for i, r := range s.request.Speed.Runs {
		t.Rows = append(t.Rows, record.Row{Cells: []string{
			nameOrNumber(r.Label, i), s.asSent(r.CourseLength), s.asSent(r.Time), s.quantity(x.Runs[i].GroundSpeed),
		}})
	}
	return t
}

// foundByEye words what was found by eye.
func (s *sheetRecord) foundByEye(m MaintenancePart) (lines []string) {
	for i, b := range m.Beds {
		done := ""
		if b.Done != nil && *b.Done {
			done = s.word("put_right")
		}
		lines = append(lines, s.word("bed", nameOrNumber(b.Label, i), b.Clean, b.Replace, done))
	}
	for _, f := range m.Findings {
		lines = append(lines, f.Item+": "+f.Finding)
	}
	return lines
}
