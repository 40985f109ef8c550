package api

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
	"wetrun/internal/text"
)

// unworded are codes of calc that cannot reach the wire: the decoder refuses
// first, in its own words.
var unworded = []string{"not_finite", "unknown_size"}

// limitedChanges are those that a limit can be in the way of.
var limitedChanges = []calc.Change{calc.ChangeSpeed, calc.ChangePressure, calc.ChangeEngineSpeed, calc.ChangeDutyCycle}

// TestEveryCodeOfCalcHasWords reads the constants Code… and Warn… of package calc
// and asks for the words of each.
func TestEveryCodeOfCalcHasWords(t *testing.T) {
	files, err := filepath.Glob("../calc/*.go")
	if err != nil {
		t.Fatal(err)
	}
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
	for _, list := range [][]string{
		stepWords[:], verdictWords[:], correctionDecisionWords[:], decisionWords[:], remedyWords[:], wearVerdictWords[:], wearStepWords[:],
		mixingWords,
	} {
		for _, word := range list {
			if !text.Has("step."+word) && !text.Has("next."+word) && !text.Has("verdict."+word) && !text.Has("correction."+word) && !text.Has("decision."+word) && !text.Has("action."+word) && !text.Has("mixing."+word) {
				t.Errorf("%s has no words", word)
			}
		}
	}
	for _, set := range []noticeSet{
		sheetCautions, rateCautions, capacityCautions, pumpCautions, meterCautions, flowMeterCautions, tankCautions, fillCautions,
		acceptanceCautions, flowCautions, patternCautions, pressureCautions, wearCautions,
	} {
		for _, c := range set[text.English] {
			if !text.Has("caution." + c.Code) {
				t.Errorf("caution.%s has no words", c.Code)
			}
		}
	}
	for kind, list := range map[string][]string{"measurement.": measurementWords[:], "instrument.": calc.Stopwatch.Words(), "too_close.": howWords[:]} {
		for _, word := range list {
			if !text.Has(kind + word) {
				t.Errorf("%s%s has no words", kind, word)
			}
		}
	}
	for _, key := range selectionDetails {
		if !text.Has(key) {
			t.Errorf("%s has no words", key)
		}
	}
	for _, word := range reasonWords {
		words := []string{word}
		if strings.HasSuffix(word, "_") {
			words = nil
			for _, of := range limitedChanges {
				words = append(words, word+changeWords[of])
			}
		}
		for _, word := range words {
			if !text.Has("rejected." + word) {
				t.Errorf("rejected.%s has no words", word)
			}
		}
	}
	if found < 20 {
		t.Errorf("only %d codes were found in calc: does this test still read it?", found)
	}
}
