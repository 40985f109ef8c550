// Package architecture holds the plan of the house: which package may import which,
// how large they may grow, and what the browser's build leaves out.
package architecture

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const root = "../.."

// floors are the packages from the top of the house to its ground: each may import those
// below it, and none above. calc/method stands beside calc/finding: neither needs the other.
var floors = [][]string{
	{"cmd/wetrun", "cmd/browser"}, {"api"}, {"api/operation"}, {"api/working"}, {"api/wire"},
	{"calc"}, {"calc/certainty"}, {"calc/finding", "calc/method"}, {"calc/unit"},
}

// besides are packages of this module that the floors from one on may import: internal
// ones, which know none of the house but the ground, and the document.
var besides = map[string]string{
	"internal/text": "api/wire", "internal/record": "api/operation", "internal/markup": "api", "internal/buildinfo": "api/operation",
	"internal/telemetry": "api", "internal/web": "api", "internal/packed": "api", "internal/reload": "api", "openapi": "api",
}

// ground are those that the others beside the house may import; the page shows a record.
var ground = []string{"internal/text", "internal/markup", "internal/packed", "internal/buildinfo", "internal/record", "openapi"}

func floor(path string) int {
	return slices.IndexFunc(floors, func(f []string) bool { return slices.Contains(f, path) })
}

// TestImportsPointDown: cmd/wetrun -> api -> api/operation -> api/working -> api/wire ->
// calc -> calc/certainty -> calc/finding, calc/method -> calc/unit.
func TestImportsPointDown(t *testing.T) {
	met := map[string]bool{}
	for path, imports := range ownImports(t) {
		from := floor(path)
		met[path] = true
		if from < 0 && path != "openapi/contract" && besides[path] == "" {
			t.Errorf("%s has no place in the house: give it one in floors or besides", path)
		}
		for _, to := range imports {
			switch user := besides[to]; {
			case from >= 0 && floor(to) >= 0:
				if floor(to) <= from {
					t.Errorf("%s imports %s, which does not stand below it", path, to)
				}
			case from < 0 && floor(to) >= 0:
				if to != "calc/unit" {
					t.Errorf("%s imports %s: what is beside the house knows none of it", path, to)
				}
			case from < 0 && user != "" && !slices.Contains(ground, to):
				t.Errorf("%s imports %s: what is beside the house knows of each other %v alone", path, to, ground)
			case from >= 0 && (user == "" || floor(user) < from):
				t.Errorf("%s imports %s, which is for %s and above", path, to, user)
			}
		}
	}
	for _, f := range floors {
		for _, path := range f {
			if !met[path] {
				t.Errorf("there is no package %s", path)
			}
		}
	}
}

// TestOperationsKnowNoHTTP: what is behind api/operation answers in a server, on the
// command line and in a browser alike.
func TestOperationsKnowNoHTTP(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "wetrun/api/operation").Output()
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Fields(string(out))
	if !slices.Contains(all, "wetrun/calc") {
		t.Fatal("the list lacks what is surely in it")
	}
	for _, path := range all {
		for _, not := range []string{"net/http", "github.com/labstack/", "go.opentelemetry.io/", "github.com/prometheus/"} {
			if strings.HasPrefix(path, not) {
				t.Errorf("api/operation depends on %s", path)
			}
		}
	}
}

// TestEchoIsKnownToOneFile: it will be swapped one day.
func TestEchoIsKnownToOneFile(t *testing.T) {
	var files []string
	for _, f := range goFiles(t) {
		if slices.Contains(importsOf(t, f), "github.com/labstack/echo/v4") {
			files = append(files, f)
		}
	}
	if !slices.Equal(files, []string{"api/server.go"}) {
		t.Errorf("echo is imported by %v, not by api/server.go alone", files)
	}
}

// ownImports lists the packages of this module that each package imports, tests aside.
func ownImports(t *testing.T) map[string][]string {
	all := map[string][]string{}
	for _, f := range goFiles(t) {
		path := filepath.ToSlash(filepath.Dir(f))
		all[path] = append(all[path], nil...)
		for _, i := range importsOf(t, f) {
			if own, ok := strings.CutPrefix(i, "wetrun/"); ok && !slices.Contains(all[path], own) {
				all[path] = append(all[path], own)
			}
		}
	}
	return all
}

func importsOf(t *testing.T, file string) (all []string) {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, file), nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range parsed.Imports {
		path, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, path)
	}
	return all
}

// goFiles are the Go files of the program, without tests.
func goFiles(t *testing.T) (all []string) {
	t.Helper()
	for _, top := range []string{"api", "calc", "cmd", "internal", "openapi"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() && (d.Name() == "node_modules" || d.Name() == "testdata") {
				return fs.SkipDir
			}
			if strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
				relative, err := filepath.Rel(root, path)
				if err != nil {
					return err
				}
				all = append(all, filepath.ToSlash(relative))
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}
