package operation

import (
	"reflect"

	"wetrun/calc/finding"
)

// within is a verdict as the member withinTolerance; nil when not judged.
func within(v finding.Verdict) *bool { return is(finding.Within, v) }

// breaksLabel is the verdict on a limit of a label as overLabelMaximum or underLabelMinimum;
// nil when not judged.
func breaksLabel(v finding.Verdict) *bool { return is(finding.Outside, v) }

func is(wanted, v finding.Verdict) *bool {
	if v == finding.NotJudged {
		return nil
	}
	same := v == wanted
	return &same
}

// verdictOf finds where answers of a type say what they decide, and returns what reads it,
// for counting: the verdict, or the decision, or else whether all is within tolerance.
func verdictOf(answer reflect.Type) func(reflect.Value) string {
	for _, name := range []string{"Verdict", "Decision"} {
		if f, ok := answer.FieldByName(name); ok && f.Type.Kind() == reflect.String {
			return func(v reflect.Value) string { return v.FieldByIndex(f.Index).String() }
		}
	}
	f, ok := answer.FieldByName("WithinTolerance")
	if !ok {
		return func(reflect.Value) string { return "" }
	}
	return func(v reflect.Value) string {
		within := v.FieldByIndex(f.Index)
		if within.Kind() == reflect.Pointer {
			if within.IsNil() {
				return ""
			}
			within = within.Elem()
		}
		if within.Bool() {
			return "within_tolerance"
		}
		return "out_of_tolerance"
	}
}
