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
		beds []calc.BedInspection
		want []calc.InspectionDecision
		open bool
	}{
		"nothing":       {nil, []calc.InspectionDecision{}, false},
		"all in order":  {[]calc.BedInspection{{}}, []calc.InspectionDecision{calc.InspectionKeep}, false},
		"dirt":          {[]calc.BedInspection{{Clean: 5}}, []calc.InspectionDecision{calc.InspectionClean}, true},
		"three":         {[]calc.BedInspection{{Clean: 1, Replace: 3}}, []calc.InspectionDecision{calc.InspectionReplaceListed}, true},
		"four":          {[]calc.BedInspection{{}, {Replace: 4}}, []calc.InspectionDecision{calc.InspectionKeep, calc.InspectionReplaceAll}, true},
		"four, done":    {[]calc.BedInspection{{Replace: 4, Done: true}}, []calc.InspectionDecision{calc.InspectionReplaceAll}, false},
		"one bed to go": {[]calc.BedInspection{{Replace: 1, Done: true}, {Clean: 1}}, []calc.InspectionDecision{calc.InspectionReplaceListed, calc.InspectionClean}, true},
	} {
		got, open, err := calc.VisualInspection(c.beds)
		if err != nil || !slices.Equal(got, c.want) || open != c.open {
			t.Errorf("%s: %v %t %v", name, got, open, err)
		}
	}
}

func TestJudgeByEyeRefuses(t *testing.T) {
	_, _, err := calc.VisualInspection([]calc.BedInspection{{Clean: -1}, {Replace: -1}})
	var v finding.Invalid
	want := finding.Invalid{{Place: finding.Item("beds", 0).Member("clean"), Code: finding.CodeNotPositive}, {Place: finding.Item("beds", 1).Member("replace"), Code: finding.CodeNotPositive}}
	if !errors.As(err, &v) || !slices.EqualFunc(v, want, finding.Violation.Equal) {
		t.Errorf("%v", err)
	}
}
