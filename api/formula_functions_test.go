package api

import (
	"os"
	"strings"
	"testing"
)

// TestFunctionsOfFormulas binds the table of functions to whatever tells of them: the document
// names each, and each has an evaluator of the tests unless lines write it out.
func TestFunctionsOfFormulas(t *testing.T) {
	document, err := os.ReadFile("../openapi/components/working.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range functions {
		if !strings.Contains(string(document), "`"+name+"`") {
			t.Errorf("the document does not name %s", name)
		}
		if evaluators[name] == nil && !f.writtenOut {
			t.Errorf("nothing else evaluates %s", name)
		}
	}
	for name := range evaluators {
		if _, known := functions[name]; !known {
			t.Errorf("%s is no function of formulas", name)
		}
	}
}
