package operation

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/internal/text"
)

// unworded are codes of calc that cannot reach the wire: the decoder refuses
// first, in its own words.
var unworded = []string{"not_finite", "unknown_size"}

// TestEveryCodeOfCalcHasWords reads the constants Code… and Warn… of calc and of the
// packages below it and asks for the words of each.
func TestEveryCodeOfCalcHasWords(t *testing.T) {
	files, err := filepath.Glob("../../calc/*.go")
	if err != nil {
		t.Fatal(err)
	}
	below, err := filepath.Glob("../../calc/*/*.go")
	if err != nil || len(below) == 0 {
		t.Fatal("no packages of calc: ", err)
	}
	files = append(files, below...)
	found := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || len(spec.Names) != 1 || len(spec.Values) != 1 {
				return true
			}
			value, ok := spec.Values[0].(*ast.BasicLit)
			name := spec.Names[0].Name
			if !ok || value.Kind != token.STRING {
				return true
			}
			code, _ := strconv.Unquote(value.Value)
			switch {
			case strings.HasPrefix(name, "Warn"):
				code = "warning." + code
			case strings.HasPrefix(name, "Note"):
				code = "note." + code
			case strings.HasPrefix(name, "Code") && !slices.Contains(unworded, code):
				code = "problem." + code
			default:
				return true
			}
			found++
			if !text.Has(code) {
				t.Errorf("%s has no words in internal/text", code)
			}
			return true
		})
	}
	for _, word := range mixingStepCodes {
		if !text.Has("mixing." + word) {
			t.Errorf("mixing.%s has no words", word)
		}
	}
	for _, set := range []noticeSet{
		driftSheetCautions, rateCautions, capacityCautions, pumpCautions, meterCautions, tankCautions, fillCautions,
		catchCautions, wearCautions, rinseCautions, speedCautions, areaCautions, driftCautions,
	} {
		for _, c := range set[text.English] {
			if !text.Has("caution." + c.Code) {
				t.Errorf("caution.%s has no words", c.Code)
			}
		}
	}
	if found < 20 {
		t.Errorf("only %d codes were found in calc: does this test still read it?", found)
	}
}

// TestEveryWordOfCalcHasText: what stands for an enumeration in an answer is worded
// wherever an answer words it.
func TestEveryWordOfCalcHasText(t *testing.T) {
	hasText(t, "step.", calc.StepCode("").Words())
	hasText(t, "verdict.", calc.SheetVerdict("").Words())
	hasText(t, "summary.", calc.SheetVerdict("").Words())
	hasText(t, "summary.", calc.PartStatus("").Words())
	hasText(t, "decision.", calc.Decision("").Words())
	hasText(t, "action.", calc.Remedy("").Words())
	hasText(t, "printed.status_", calc.Status("").Words())
	hasText(t, "correction.", calc.CorrectionDecision("").Words())
	hasText(t, "rejected.", calc.RejectionReason("").Words())
	hasText(t, "verdict.", calc.WearState("").Words())
	hasText(t, "measurement.", certainty.Measurement("").Words())
	hasText(t, "too_close.", certainty.HowToMeasureAgain("").Words())
	hasText(t, "none_fits.", calc.SelectionReason("").Words())
	hasText(t, "selection.", []calc.SelectionDecision{calc.ChooseNozzle})
	hasText(t, "instrument.", certainty.Stopwatch.Words())
	for _, state := range calc.WearState("").Words() {
		hasText(t, "next.", wearSteps(calc.WearForecastResult{State: calc.WearState(state)}))
	}
}

func hasText[T ~string](t *testing.T, kind string, words []T) {
	t.Helper()
	for _, word := range words {
		if !text.Has(kind + string(word)) {
			t.Errorf("%s%s has no words", kind, word)
		}
	}
}
