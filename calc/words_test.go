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
	"wetrun/calc/certainty"
)

// listed are the words that each enumeration lists.
var listed = map[string][]string{
	"Basis":              calc.Basis("").Words(),
	"Change":             calc.Change("").Words(),
	"Conformance":        certainty.Conformance("").Words(),
	"CorrectionDecision": calc.CorrectionDecision("").Words(),
	"Decision":           calc.Decision("").Words(),
	"Direction":          calc.Direction("").Words(),
	"DropletClass":       calc.DropletClass("").Words(),
	"Formulation":        calc.Formulation("").Words(),
	"HowToMeasureAgain":  certainty.HowToMeasureAgain("").Words(),
	"InspectionDecision": calc.InspectionDecision("").Words(),
	"DoubtReason":        calc.DoubtReason("").Words(),
	"Measurement":        certainty.Measurement("").Words(),
	"MeterKind":          calc.MeterKind("").Words(),
	"OutlierTest":        certainty.OutlierTest("").Words(),
	"PartStatus":         calc.PartStatus("").Words(),
	"Position":           certainty.Position("").Words(),
	"ProductRole":        calc.ProductRole("").Words(),
	"PumpDrive":          calc.PumpDrive("").Words(),
	"PumpRegulation":     calc.PumpRegulation("").Words(),
	"PumpType":           calc.PumpType("").Words(),
	"RateBasis":          calc.RateBasis("").Words(),
	"RejectionReason":    calc.RejectionReason("").Words(),
	"Remedy":             calc.Remedy("").Words(),
	"RuleID":             calc.RuleID("").Words(),
	"SelectionDecision":  calc.SelectionDecision("").Words(),
	"SelectionReason":    calc.SelectionReason("").Words(),
	"Settled":            certainty.Settled("").Words(),
	"SheetVerdict":       calc.SheetVerdict("").Words(),
	"SizeRating":         calc.SizeRating("").Words(),
	"SlipKind":           calc.SlipKind("").Words(),
	"Solved":             calc.Solved("").Words(),
	"Status":             calc.Status("").Words(),
	"StepCode":           calc.StepCode("").Words(),
	"WearState":          calc.WearState("").Words(),
}

// TestEveryConstantIsListed reads the constants of this package and of certainty: an
// enumeration lists each of its words once. The empty word stands for none of them.
func TestEveryConstantIsListed(t *testing.T) {
	constants := map[string][]string{}
	readConstants(declarations(t, "."), constants)
	readConstants(declarations(t, "certainty"), constants)
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

// readConstants gathers the words of a package by the names of their types.
func readConstants(scope *types.Scope, constants map[string][]string) {
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
}

// declarations are those of the package in a folder, read without what it imports.
func declarations(t *testing.T, folder string) *types.Scope {
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
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
