package api

import (
	"maps"

	"wetrun/api/operation"
)

// A BatchTally counts the answers of a batch.
type BatchTally struct {
	Line     int            `json:"line"`     // the last one answered
	Lines    int            `json:"lines"`    // answered
	Problems int            `json:"problems"` // of them
	Verdicts map[string]int `json:"verdicts"` // of field sheets
	Kinds    map[string]int `json:"kinds"`    // of problems, by type
	Codes    map[string]int `json:"codes"`    // of members that could not be used
}

// count counts one answer.
func (t *BatchTally) count(o operation.Outcome) {
	t.Lines++
	switch {
	case o.Refusal != nil:
		t.Problems++
		increase(&t.Kinds, string(o.Refusal.Kind), 1)
		for _, e := range o.Refusal.Fields {
			increase(&t.Codes, e.Code, 1)
		}
	case o.Operation == "calibrations":
		increase(&t.Verdicts, o.Verdict, 1)
	}
}

func (t *BatchTally) add(more *BatchTally) {
	t.Lines += more.Lines
	t.Problems += more.Problems
	for _, m := range []struct{ into, from *map[string]int }{
		{&t.Verdicts, &more.Verdicts}, {&t.Kinds, &more.Kinds}, {&t.Codes, &more.Codes},
	} {
		for k, n := range *m.from {
			increase(m.into, k, n)
		}
	}
}

func increase(m *map[string]int, key string, n int) {
	if *m == nil {
		*m = map[string]int{}
	}
	(*m)[key] += n
}

// Clone returns a copy that goes on being right while the batch goes on.
func (t BatchTally) Clone() BatchTally {
	t.Verdicts, t.Kinds, t.Codes = maps.Clone(t.Verdicts), maps.Clone(t.Kinds), maps.Clone(t.Codes)
	return t
}
