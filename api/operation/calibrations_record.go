package operation

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"reflect"
	"strconv"
	"strings"
	"unsafe"

	"github.com/go-json-experiment/json/jsontext"

	"wetrun/api/wire"
	"wetrun/internal/record"
	"wetrun/internal/text"
)

// calibrationsRecord works out a field sheet and lays it out as one page to print.
func calibrationsRecord(ctx context.Context, body []byte, out *bytes.Buffer) (verdict string, _ *wire.Refusal) {
	var r CalibrationsRequest
	a, refused := answerForPeople(ctx, body, &r)
	if refused != nil {
		return "", refused
	}
	digest, err := requestDigest(body)
	if err != nil {
		return "", &wire.Refusal{Kind: wire.InternalError, Cause: err}
	}
	s := sheetRecord{summary: summary{lang: text.From(ctx)}, request: &r, answer: &a}
	page := s.page(digest)
	if err := page.Write(out); err != nil {
		return "", &wire.Refusal{Kind: wire.InternalError, Cause: err}
	}
	return string(a.Verdict), nil
}

var encodeCalibrations = wire.EncoderOf(reflect.TypeFor[CalibrationsAnswer]())

// answerForPeople answers a field sheet that is worded for people and not sent as JSON. What
// is refused as JSON is refused here too, or a page would show that a number is none.
func answerForPeople(ctx context.Context, body []byte, r *CalibrationsRequest) (CalibrationsAnswer, *wire.Refusal) {
	a, refused := answerBody(ctx, body, calibrationsTable, r, calibrations)
	if refused == nil {
		_, refused = encoded(encodeCalibrations, nil, unsafe.Pointer(&a))
	}
	return a, refused
}

// requestDigest is the SHA-256 of a request in the canonical form of RFC 8785, so
// that neither spaces nor the order of members change it.
func requestDigest(body []byte) (string, error) {
	canonical := jsontext.Value(bytes.Clone(body))
	if err := canonical.Canonicalize(); err != nil {
		return "", err
	}
	sum := sha256.Sum256(canonical)
	return hex.EncodeToString(sum[:]), nil
}

// A sheetRecord words what a record shows.
type sheetRecord struct {
	summary
	request *CalibrationsRequest
	answer  *CalibrationsAnswer
}

func (s *sheetRecord) word(key string, args ...any) string {
	return text.Of(s.lang, "printed."+key, args...)
}

func (s *sheetRecord) page(digest string) *record.Page {
	a := s.answer
	p := &record.Page{
		Language: s.lang.Tag(),
		Title:    s.word("title"),
		Label:    a.Label,
		Verdict:  record.Verdict{Code: string(a.Verdict), Word: s.of(string(a.Verdict)), Detail: a.VerdictDetail},
		Filed:    s.filed(),
		Facts:    s.facts(),
		Steps:    record.Lines{Heading: s.of("do")},
		Parts:    s.recordParts(),
		Plans:    s.plans(),
		Warnings: record.Lines{Heading: s.of("warnings"), Lines: warningsOf(a)},
		Working:  s.working(),
		Cautions: record.Lines{Heading: s.of("cautions")},
		Sign:     []string{s.word("sign_measured"), s.word("sign_checked"), s.word("sign_date")},
		Digest:   record.Digest{Name: s.word("digest"), Value: digest, Explanation: s.word("digest_explained")},
	}
	if s.request.Uncertainty == nil || *s.request.Uncertainty {
		p.Note = s.word("near")
	}
	for i, step := range a.NextSteps {
		line := step.Text
		if step.name != "" {
			line = step.name + ": " + line
		}
		if i+1 == len(a.NextSteps) || a.NextSteps[i+1].Rule != step.Rule {
			line += " " + s.of("why", step.Why)
		}
		p.Steps.Lines = append(p.Steps.Lines, line)
	}
	for _, c := range a.Cautions {
		p.Cautions.Lines = append(p.Cautions.Lines, c.Text)
	}
	return p
}

// facts are what is known of the machine and the target.
func (s *sheetRecord) facts() (all []record.Fact) {
	r, m := s.request, &s.request.Machine
	say := func(key, value string) {
		if value != "" && value != "-" {
			all = append(all, record.Fact{Name: s.word(key), Value: value})
		}
	}
	number := func(key string, n int) {
		if n != 0 {
			say(key, strconv.Itoa(n))
		}
	}
	say("machine", m.Label)
	say("tank_volume", s.asSent(m.TankVolume))
	number("beds_covered", m.BedsCovered)
	say("bed_width", s.asSent(m.BedWidth))
	number("nozzles_per_bed", m.NozzlesPerBed)
	say("row_spacing", s.asSent(m.RowSpacing))
	say("width_per_nozzle", s.asSent(m.SprayedWidthPerNozzle))
	say("engine_speed", s.asSent(m.EngineSpeed))
	say("gear", m.Gear)
	switch n := &r.Nozzle; {
	case n.Size != "":
		say("nozzle", s.word("size", n.Size))
	case n.RatedFlowRate.Given():
		say("nozzle", s.word("rating", s.asSent(n.RatedFlowRate), s.asSent(n.RatedPressure)))
	}
	say("duty_cycle", s.asSent(r.DutyCycle))
	say("target", s.asSent(r.Target.ApplicationRate))
	say("rate_tolerance", s.asSent(r.Target.RateTolerance))
	say("label_maximum", s.asSent(r.Target.LabelMaximum))
	say("label_minimum", s.asSent(r.Target.LabelMinimum))
	say("speed_limits", s.sentRange(r.Limits.GroundSpeed))
	say("pressure_limits", s.sentRange(r.Limits.SprayPressure))
	say("nozzle_range", s.sentRange(r.Nozzle.PressureRange))
	if c := &r.Cost; c.PerArea.Given() {
		say("mix_cost", s.word("mix_price", s.lang.Price(float64(c.Mix.Amount), c.Mix.Currency), s.asSent(c.PerArea)))
		say("planned_area", s.asSent(c.PlannedArea))
	}
	switch due := s.answer.NextDue; {
	case due.hoursUsedUp():
		say("due", s.of("at_once"))
	case due != nil:
		say("next_due", s.lang.Date(due.Date))
	}
	return all
}

// sentRange is a range of the request, each end as it was sent.
func (s *sheetRecord) sentRange(r wire.Range) string {
	if !r.Low.Given() {
		return ""
	}
	return s.word("range", s.asSent(r.Low), s.asSent(r.High))
}

// working is the working as a table, where it was asked for. Numbers stand in it as
// they do in the lines themselves, with a point, so that they can be typed in again.
func (s *sheetRecord) working() *record.Table {
	lines := s.answer.Working
	if len(lines) == 0 {
		return nil
	}
	t := &record.Table{
		Caption: s.word("working"),
		Heads:   []string{s.word("method"), s.word("formula"), s.word("numbers"), s.word("result")},
		Rows:    make([]record.Row, len(lines)),
	}
	for i := range lines {
		l := &lines[i]
		method := text.Of(s.lang, "method."+l.Method)
		if l.Member != "" {
			method += " (" + strings.TrimPrefix(l.Member, "#/") + ")"
		}
		numbers := l.Substituted
		for _, c := range l.Constants {
			numbers += "; " + s.lang.Unit(c.From)
		}
		symbol := l.Result.Unit.Symbol()
		if symbol == "1" {
			symbol = ""
		}
		result := s.lang.Measured(string(wire.AppendNumber(nil, l.Result.Value)), s.lang.Unit(symbol))
		t.Rows[i] = record.Row{Cells: []string{method, l.Formula, numbers, result}}
	}
	return t
}
