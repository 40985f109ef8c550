package calc_test

import (
	"errors"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wetrun/calc"
)

// listed are the words that each enumeration lists.
var listed = map[string][]string{
	"Change":             wordsOf(calc.Change.Words("")),
	"Conformance":        wordsOf(calc.Conformance.Words("")),
	"CorrectionDecision": wordsOf(calc.CorrectionDecision.Words("")),
	"Decision":           wordsOf(calc.Decision.Words("")),
	"HowToMeasureAgain":  wordsOf(calc.HowToMeasureAgain.Words("")),
	"InspectionDecision": wordsOf(calc.InspectionDecision.Words("")),
	"Measurement":        wordsOf(calc.Measurement.Words("")),
	"OutlierTest":        wordsOf(calc.OutlierTest.Words("")),
	"PartStatus":         wordsOf(calc.PartStatus.Words("")),
	"RejectionReason":    wordsOf(calc.RejectionReason.Words("")),
	"Remedy":             wordsOf(calc.Remedy.Words("")),
	"SelectionDecision":  wordsOf(calc.SelectionDecision.Words("")),
	"SelectionReason":    wordsOf(calc.SelectionReason.Words("")),
	"Settled":            wordsOf(calc.Settled.Words("")),
	"SheetVerdict":       wordsOf(calc.SheetVerdict.Words("")),
	"Solved":             wordsOf(calc.Solved.Words("")),
	"Status":             wordsOf(calc.Status.Words("")),
	"StepCode":           wordsOf(calc.StepCode.Words("")),
	"WearState":          wordsOf(calc.WearState.Words("")),
}

func wordsOf[T ~string](all []T) (words []string) {
	for _, word := range all {
		words = append(words, string(word))
	}
	return words
}

// TestEveryConstantIsListed reads the constants of this package: an enumeration lists
// each of its words once. The empty word stands for none of them.
func TestEveryConstantIsListed(t *testing.T) {
	scope := declarations(t)
	constants := map[string][]string{}
	for _, name := range scope.Names() {
		c, ok := scope.Lookup(name).(*types.Const)
		if !ok {
			continue
		}
		of, ok := c.Type().(*types.Named)
		if !ok || c.Val().Kind() != constant.String || constant.StringVal(c.Val()) == "" {
			continue
		}
		if list, _, _ := types.LookupFieldOrMethod(of, false, scope.Lookup(name).Pkg(), "Words"); list != nil {
			constants[of.Obj().Name()] = append(constants[of.Obj().Name()], constant.StringVal(c.Val()))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(constants)) {
		words, want := slices.Sorted(slices.Values(listed[name])), slices.Sorted(slices.Values(constants[name]))
		if !slices.Equal(words, want) {
			t.Errorf("%s lists %v, its constants are %v", name, words, want)
		}
	}
	if len(constants) != len(listed) {
		t.Errorf("%d enumerations list their words, this test knows of %d", len(constants), len(listed))
	}
}

// declarations are those of package calc, read without what it imports.
func declarations(t *testing.T) *types.Scope {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	config := types.Config{Importer: nothing{}, IgnoreFuncBodies: true, Error: func(error) {}}
	pkg, _ := config.Check("wetrun/calc", set, files, nil)
	return pkg.Scope()
}

type nothing struct{}

func (nothing) Import(string) (*types.Package, error) { return nil, errors.New("not read") }
