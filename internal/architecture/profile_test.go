package architecture

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// mostStale is how much of the profile's time in functions of ours may be of functions
// that are no longer there, in %.
const mostStale = 10

var (
	profileRow = regexp.MustCompile(`^\s*([0-9.]+)(ms|s)\s.*\s(wetrun/\S+?)(?: \(inline\))?$`)
	closure    = regexp.MustCompile(`(\.func\d+|\.gowrap\d+|\.\d+|-range\d+)+$`)
	typeArgs   = regexp.MustCompile(`\[[^]]*\]+`)
)

// TestProfileIsOfThisProgram: a release is compiled by cmd/wetrun/cpu.pgo, which names
// functions. When too many of them have gone, .ci/profile writes it anew.
func TestProfileIsOfThisProgram(t *testing.T) {
	out, err := exec.Command("go", "tool", "pprof", "-top", "-flat", "-nodecount=100000", "-nodefraction=0", filepath.Join(root, "cmd/wetrun/cpu.pgo")).Output()
	if err != nil {
		t.Fatal(err)
	}
	functions := declared(t)
	var all, stale float64
	for line := range bytes.Lines(out) {
		row := profileRow.FindStringSubmatch(strings.TrimRight(string(line), "\n"))
		if row == nil {
			continue
		}
		seconds, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		if row[2] == "ms" {
			seconds /= 1000
		}
		all += seconds
		if name := closure.ReplaceAllString(typeArgs.ReplaceAllString(row[3], ""), ""); !functions[name] {
			stale += seconds
			t.Logf("gone: %s, %.2f s", name, seconds)
		}
	}
	if all == 0 || 100*stale/all > mostStale {
		t.Errorf("%.2f of %.2f s of the profile are in functions that are gone: write it anew with .ci/profile", stale, all)
	}
}

// declared are the functions of the program as a profile names them.
func declared(t *testing.T) map[string]bool {
	all := map[string]bool{}
	for _, f := range goFiles(t) {
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, f), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		in := "wetrun/" + path.Dir(f) + "."
		all[in+"init"], all[in+"glob."] = true, true
		for _, d := range parsed.Decls {
			function, ok := d.(*ast.FuncDecl)
			switch {
			case !ok:
			case function.Recv == nil:
				all[in+function.Name.Name] = true
			default:
				all[in+receiver(function.Recv.List[0].Type)+"."+function.Name.Name] = true
			}
		}
	}
	return all
}

func receiver(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.StarExpr:
		return "(*" + receiver(x.X) + ")"
	case *ast.IndexExpr:
		return receiver(x.X)
	case *ast.Ident:
		return x.Name
	}
	return ""
}
