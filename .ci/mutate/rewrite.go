package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A mutant is one change at one place.
type mutant struct {
	id     int
	file   string // below the module
	line   int
	column int
	change string // what stands there, and what is put there instead
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d:%d %s", m.file, m.line, m.column, m.change)
}

// name tells a mutant from others whatever lines move above it: its file, the text
// of its line, the change, and which of equal ones on that line it is.
type name struct {
	file, text, change string
	nth                int
}

// A writer turns the files of one package into ones in which every change waits
// behind a number. It edits the text, so that lines stay as they are.
type writer struct {
	set     *token.FileSet
	info    *types.Info
	pkg     *types.Package
	mutants *[]mutant
	file    string
	source  []byte
	edits   []edit
	depth   int
	foreign map[string]string // types of other packages, by the names they get here
}

// An edit replaces the text from one offset to another. Of two insertions at one
// place those that open go from the outside in, those that close from the inside out.
type edit struct {
	from, to, rank int
	text           string
}

// rewrite changes the package in dir in place.
func rewrite(root, dir string, mutants *[]mutant) error {
	set := token.NewFileSet()
	names, err := filepath.Glob(filepath.Join(root, dir, "*.go"))
	if err != nil {
		return err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files = append(files, f)
	}
	w := &writer{foreign: map[string]string{}, set: set, mutants: mutants, info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}}
	config := types.Config{Importer: importer.ForCompiler(set, "gc", exportData(root, dir))}
	if w.pkg, err = config.Check("wetrun/"+dir, set, files, w.info); err != nil {
		return err
	}
	for _, f := range files {
		path := set.Position(f.Pos()).Filename
		if w.file, err = filepath.Rel(root, path); err != nil {
			return err
		}
		if w.source, err = os.ReadFile(path); err != nil {
			return err
		}
		w.edits = nil
		w.declarations(f)
		if err := os.WriteFile(path, w.edited(), 0o600); err != nil {
			return err
		}
	}
	head, aliases := "package "+w.pkg.Name()+"\n", ""
	for _, name := range slices.Sorted(maps.Keys(w.foreign)) {
		path, of, _ := strings.Cut(w.foreign[name], ".")
		if line := fmt.Sprintf("import %q\n", path); !strings.Contains(head, line) {
			head += line
		}
		aliases += "type " + name + " = " + filepath.Base(path) + "." + of + "\n"
	}
	return os.WriteFile(filepath.Join(root, dir, "mutants.go"), []byte(head+support+aliases), 0o600)
}

// exportData finds what the compiler knows of the packages that dir imports.
func exportData(root, dir string) importer.Lookup {
	list := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}} {{.Export}}", "./"+dir)
	list.Dir, list.Stderr = root, os.Stderr
	out, err := list.Output()
	exports := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), " ")
		exports[path] = file
	}
	return func(path string) (io.ReadCloser, error) {
		if err != nil {
			return nil, err
		}
		return os.Open(exports[path])
	}
}

func (w *writer) edited() []byte {
	slices.SortStableFunc(w.edits, func(a, b edit) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.rank, b.rank)) })
	var out []byte
	at := 0
	for _, e := range w.edits {
		out = append(append(out, w.source[at:e.from]...), e.text...)
		at = e.to
	}
	return append(out, w.source[at:]...)
}

func (w *writer) offset(p token.Pos) int { return w.set.Position(p).Offset }

func (w *writer) text(from, to token.Pos) string {
	return string(w.source[w.offset(from):w.offset(to)])
}

// mutant writes one down and returns its number.
func (w *writer) mutant(at token.Pos, change string) int {
	p, id := w.set.Position(at), len(*w.mutants)+1
	*w.mutants = append(*w.mutants, mutant{id, w.file, p.Line, p.Column, change})
	return id
}

// wrap puts text around an expression.
func (w *writer) wrap(n ast.Node, before, after string) {
	from, to := w.offset(n.Pos()), w.offset(n.End())
	w.edits = append(w.edits, edit{from, from, w.depth, before}, edit{to, to, -w.depth, after})
}

func (w *writer) replace(at token.Pos, length int, text string) {
	from := w.offset(at)
	w.edits = append(w.edits, edit{from, from + length, 0, text})
}
