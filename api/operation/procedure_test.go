package operation

import (
	"slices"
	"testing"
)

// TestRecordsOfTheProcedure: each thing that a step records is known, once in the step, and
// each that is known is recorded by some step.
func TestRecordsOfTheProcedure(t *testing.T) {
	recorded := map[string]bool{}
	for _, stage := range procedureStages {
		for _, step := range stage.steps {
			for i, code := range step.records {
				if _, known := recordMembers[code]; !known || slices.Contains(step.records[:i], code) {
					t.Errorf("%s: %s is not known as a record, or stands twice", step.id, code)
				}
				recorded[code] = true
			}
		}
	}
	for code := range recordMembers {
		if !recorded[code] {
			t.Errorf("no step records %s", code)
		}
	}
}
