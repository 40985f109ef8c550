package calc_test

import (
	"errors"
	"slices"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
)

// TestReferenceJudgeByEye: more than three of one bed rejected means a new set;
// common practice, no published source.
func TestReferenceJudgeByEye(t *testing.T) {
	for name, c := range map[string]struct {
		beds []calc.BedFinding
		want []calc.EyeDecision
		open bool
	}{
		"nothing":       {nil, []calc.EyeDecision{}, false},
		"all in order":  {[]calc.BedFinding{{}}, []calc.EyeDecision{calc.EyeKeep}, false},
		"dirt":          {[]calc.BedFinding{{Clean: 5}}, []calc.EyeDecision{calc.EyeClean}, true},
		"three":         {[]calc.BedFinding{{Clean: 1, Replace: 3}}, []calc.EyeDecision{calc.EyeReplaceListed}, true},
		"four":          {[]calc.BedFinding{{}, {Replace: 4}}, []calc.EyeDecision{calc.EyeKeep, calc.EyeReplaceAll}, true},
		"four, done":    {[]calc.BedFinding{{Replace: 4, Done: true}}, []calc.EyeDecision{calc.EyeReplaceAll}, false},
		"one bed to go": {[]calc.BedFinding{{Replace: 1, Done: true}, {Clean: 1}}, []calc.EyeDecision{calc.EyeReplaceListed, calc.EyeClean}, true},
	} {
		got, open, err := calc.JudgeByEye(c.beds)
		if err != nil || !slices.Equal(got, c.want) || open != c.open {
			t.Errorf("%s: %v %t %v", name, got, open, err)
		}
	}
}

func TestJudgeByEyeRefuses(t *testing.T) {
	_, _, err := calc.JudgeByEye([]calc.BedFinding{{Clean: -1}, {Replace: -1}})
	var v finding.Invalid
	want := finding.Invalid{{Place: finding.Item("beds", 0).Member("clean"), Code: finding.CodeNotPositive}, {Place: finding.Item("beds", 1).Member("replace"), Code: finding.CodeNotPositive}}
	if !errors.As(err, &v) || !slices.EqualFunc(v, want, finding.Violation.Equal) {
		t.Errorf("%v", err)
	}
}
