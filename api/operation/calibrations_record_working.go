package operation

import (
	"strings"

	"wetrun/api/wire"
	"wetrun/internal/record"
	"wetrun/internal/text"
)

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
		result := string(wire.AppendNumber(nil, l.Result.Value))
		if symbol := l.Result.Unit.Symbol(); symbol != "1" {
			result += " " + s.lang.Unit(symbol)
		}
		t.Rows[i] = record.Row{Cells: []string{method, l.Formula, numbers, result}}
	}
	return t
}
