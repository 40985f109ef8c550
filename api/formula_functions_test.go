package api

import (
	"os"
	"strings"
	"testing"

	"wetrun/api/working"
)

// TestFunctionsOfFormulas binds the table of functions to whatever tells of them: the document
// names each, and each has an evaluator of the tests unless lines write it out.
func TestFunctionsOfFormulas(t *testing.T) {
	document, err := os.ReadFile("../openapi/components/working.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range working.Functions {
		if !strings.Contains(string(document), "`"+name+"`") {
			t.Errorf("the document does not name %s", name)
		}
		if evaluators[name] == nil && !f.WrittenOut {
			t.Errorf("nothing else evaluates %s", name)
		}
	}
	for name := range evaluators {
		if _, known := working.Functions[name]; !known {
			t.Errorf("%s is no function of formulas", name)
		}
	}
}
