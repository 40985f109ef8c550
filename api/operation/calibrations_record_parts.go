package operation

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/internal/record"
)

// recordParts words the parts of a sheet, in the order of the job: what the summary
// says, and the readings it comes from.
func (s *sheetRecord) recordParts() (all []record.Part) {
	eye := s.answer.Maintenance
	all = append(all, record.Part{Heading: s.word("by_eye"), Status: string(eye.Status), Word: s.of(string(eye.Status)), Lines: s.foundByEye(eye)})
	tables := map[string]*record.Table{"pressure": s.readings(), "output": s.catches(), "speed": s.runs()}
	for _, p := range s.parts(s.answer) {
		all = append(all, record.Part{
			Heading: s.of("part_" + p.name), Status: string(p.status), Word: s.statusWord(p.status, p.measured), Lines: p.lines, Table: tables[p.name],
		})
	}
	if tank := s.answer.AreaCheck; tank.Result == nil {
		all = append(all, record.Part{Heading: s.of("part_tank"), Status: string(tank.Status), Word: s.of(string(tank.Status))})
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

func (s *sheetRecord) catches() *record.Table {
	x := s.answer.Output.Result
	if x == nil {
		return nil
	}
	catches, sources, refused := s.request.Output.withFollowUps(s.lang)
	if refused != nil { // it was answered, so it was not
		return nil
	}
	u := x.Catches[0].NozzleFlowRate.Unit
	t := &record.Table{
		Caption: s.word("catches"),
		Heads: []string{
			s.word("place"), s.word("nozzles"), s.word("reading"), s.word("time"), s.word("acceptable"), s.word("nozzle_flow"), s.word("result"),
		},
		Chart: &record.Chart{Title: s.word("chart", s.lang.Unit(u.Symbol())), Number: s.lang.Number},
	}
	for i, c := range x.Catches {
		if sources != nil && sources[i].followUp >= 0 && !catches[i].samePoint {
			t.Rows = append(t.Rows, s.replaced(sources[i].catch))
		}
		r := catches[i]
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
	return t
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
