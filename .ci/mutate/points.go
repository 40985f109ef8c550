package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"
)

// declarations goes through functions and variables. Constants are changed where
// they are used, since their declarations cannot wait for anything.
func (w *writer) declarations(f *ast.File) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Body != nil {
				w.walk(d.Body)
			}
		case *ast.GenDecl:
			if d.Tok == token.VAR {
				w.walk(d)
			}
		}
	}
}

// walk visits a node and all below it, the outer before the inner.
func (w *writer) walk(n ast.Node) {
	ast.Inspect(n, func(x ast.Node) bool {
		if x == nil {
			w.depth--
			return true
		}
		if !w.visit(x) {
			return false
		}
		w.depth++
		return true
	})
}

// visit writes the mutants of one node, and tells whether to go on below it.
func (w *writer) visit(n ast.Node) bool {
	switch x := n.(type) {
	case *ast.ArrayType, *ast.FuncType, *ast.StructType:
		return false
	case *ast.GenDecl:
		return x.Tok != token.CONST
	case *ast.CaseClause:
		// Values of a switch with a tag are names of states, not conditions.
		for _, e := range x.List {
			if w.info.Types[e].Value == nil {
				w.walk(e)
			}
		}
		for _, s := range x.Body {
			w.walk(s)
		}
		return false
	case *ast.KeyValueExpr:
		w.walk(x.Value)
		return false
	case *ast.ForStmt:
		if x.Init != nil {
			w.walk(x.Init)
		}
		if x.Cond != nil {
			w.walk(x.Cond)
		}
		w.walk(x.Body)
		return false
	case *ast.AssignStmt:
		w.assignment(x)
	case *ast.IncDecStmt:
		op := map[token.Token]string{token.INC: "+", token.DEC: "-"}[x.Tok]
		name := w.text(x.X.Pos(), x.X.End())
		w.replace(x.TokPos, 2, fmt.Sprintf("= %s(%d, %s, 1)", arithmetic[op].function, w.mutant(x.TokPos, x.Tok.String()+" -> "+arithmetic[op].other), name))
		return false
	case ast.Expr:
		return w.expression(x)
	}
	return true
}

// arithmetic holds, for each operator, what stands for it and what it is changed to.
var arithmetic = map[string]struct{ function, other string }{
	"+": {"mutantAdd", "-"}, "-": {"mutantSub", "+"}, "*": {"mutantMul", "/"}, "/": {"mutantDiv", "*"},
}

// comparisons hold the same, for both changes of each.
var comparisons = map[token.Token]struct {
	function string
	others   [2]string
}{
	token.LSS: {"mutantLess", [2]string{"<=", ">="}}, token.LEQ: {"mutantLessEq", [2]string{"<", ">"}},
	token.GTR: {"mutantMore", [2]string{">=", "<="}}, token.GEQ: {"mutantMoreEq", [2]string{">", "<"}},
}

func (w *writer) assignment(x *ast.AssignStmt) {
	op := map[token.Token]string{token.ADD_ASSIGN: "+", token.SUB_ASSIGN: "-", token.MUL_ASSIGN: "*", token.QUO_ASSIGN: "/"}[x.Tok]
	if op == "" || !w.numeric(x.Lhs[0]) {
		return
	}
	id := w.mutant(x.TokPos, op+"= -> "+arithmetic[op].other+"=")
	w.replace(x.TokPos, 2, "=")
	w.wrap(x.Rhs[0], fmt.Sprintf("%s(%d, %s, ", arithmetic[op].function, id, w.text(x.Lhs[0].Pos(), x.Lhs[0].End())), ")")
	w.depth++ // what is inside the right side comes after this
}

func (w *writer) expression(x ast.Expr) bool {
	if v := w.info.Types[x]; v.Value != nil {
		w.constant(x, v)
		return false
	}
	switch x := x.(type) {
	case *ast.UnaryExpr:
		if x.Op == token.NOT {
			w.wrap(x, fmt.Sprintf("mutantNot(%d, ", w.mutant(x.OpPos, "! -> nothing")), ")")
		}
	case *ast.BinaryExpr:
		w.binary(x)
	}
	return true
}

func (w *writer) binary(x *ast.BinaryExpr) {
	op := x.Op.String()
	c, ordered := comparisons[x.Op]
	switch {
	case ordered:
		id := w.mutant(x.OpPos, op+" -> "+c.others[0])
		w.mutant(x.OpPos, op+" -> "+c.others[1])
		w.call(x, c.function, id, "")
	case x.Op == token.EQL || x.Op == token.NEQ:
		if w.info.Types[x.Y].IsNil() {
			return
		}
		other := map[token.Token]string{token.EQL: "!=", token.NEQ: "=="}[x.Op]
		w.wrap(x, fmt.Sprintf("mutantNot(%d, ", w.mutant(x.OpPos, op+" -> "+other)), ")")
	case x.Op == token.LAND:
		w.call(x, "mutantAnd", w.mutant(x.OpPos, "&& -> ||"), "func() bool { return (")
	case x.Op == token.LOR:
		w.call(x, "mutantOr", w.mutant(x.OpPos, "|| -> &&"), "func() bool { return (")
	case arithmetic[op].function != "" && w.numeric(x.X):
		w.call(x, arithmetic[op].function, w.mutant(x.OpPos, op+" -> "+arithmetic[op].other), "")
	}
}

// call makes a call of a function out of an operator. Where the right side must
// wait it becomes a function itself.
func (w *writer) call(x *ast.BinaryExpr, function string, id int, lazy string) {
	end := ")"
	if lazy != "" {
		end = ") })"
	}
	w.wrap(x, fmt.Sprintf("%s(%d, ", function, id), end)
	w.replace(x.OpPos, len(x.Op.String()), ", "+lazy)
}

func (w *writer) numeric(x ast.Expr) bool {
	t := w.info.Types[x].Type
	if p, ok := t.(*types.TypeParam); ok {
		return p.Obj().Name() == "T" // the amounts of a meter
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
}

// constant changes a number where it is used. Names of states are no numbers.
func (w *writer) constant(x ast.Expr, v types.TypeAndValue) {
	b, ok := v.Type.Underlying().(*types.Basic)
	if !ok || b.Info()&types.IsNumeric == 0 {
		return
	}
	literal := false
	ast.Inspect(x, func(n ast.Node) bool {
		l, ok := n.(*ast.BasicLit)
		literal = literal || ok && l.Kind != token.CHAR
		return true
	})
	if b.Info()&types.IsFloat == 0 && !literal {
		return
	}
	name := types.TypeString(v.Type, func(p *types.Package) string {
		if p == w.pkg {
			return ""
		}
		return p.Path()
	})
	if path, foreign, ok := strings.Cut(name, "."); ok {
		name = "mutantOf" + foreign // the file may not import it
		w.foreign[name] = path + "." + foreign
	}
	w.wrap(x, fmt.Sprintf("mutantConstant(%d, %s(", w.mutant(x.Pos(), w.text(x.Pos(), x.End())+" -> another number"), name), "))")
}

// support is what the changed packages call.
const support = `
import (
	"cmp"
	"os"
	"strconv"
	"sync/atomic"
)

// mutantOn is the number of the change that is made; -1 writes down those that are reached.
var mutantOn, _ = strconv.Atoi(os.Getenv("WETRUN_MUTANT"))

var mutantsReached [1 << 15]atomic.Bool

func isMutant(id int) bool {
	if mutantOn < 0 && !mutantsReached[id].Swap(true) {
		reachMutant(id)
	}
	return mutantOn == id
}

func reachMutant(id int) {
	f, err := os.OpenFile(os.Getenv("WETRUN_REACHED"), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		panic(err)
	}
	f.WriteString(strconv.Itoa(id) + "\n")
	f.Close()
}

type mutantNumber interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~float32 | ~float64
}


func mutantAdd[T mutantNumber](id int, a, b T) T {
	if isMutant(id) {
		return a - b
	}
	return a + b
}

func mutantSub[T mutantNumber](id int, a, b T) T {
	if isMutant(id) {
		return a + b
	}
	return a - b
}

func mutantMul[T mutantNumber](id int, a, b T) T {
	if isMutant(id) {
		return a / b
	}
	return a * b
}

func mutantDiv[T mutantNumber](id int, a, b T) T {
	if isMutant(id) {
		return a * b
	}
	return a / b
}

func mutantConstant[T mutantNumber](id int, x T) T {
	switch {
	case !isMutant(id):
		return x
	case x == 0:
		return 1
	case T(3)/2 != 1: // a float
		return x + x/4
	}
	return x + 1
}

func mutantLess[T cmp.Ordered](id int, a, b T) bool {
	return mutantCompare(id, a < b, a <= b, a >= b)
}

func mutantLessEq[T cmp.Ordered](id int, a, b T) bool {
	return mutantCompare(id, a <= b, a < b, a > b)
}

func mutantMore[T cmp.Ordered](id int, a, b T) bool {
	return mutantCompare(id, a > b, a >= b, a <= b)
}

func mutantMoreEq[T cmp.Ordered](id int, a, b T) bool {
	return mutantCompare(id, a >= b, a > b, a < b)
}

func mutantCompare(id int, made, edge, opposite bool) bool {
	if isMutant(id) {
		return edge
	}
	if isMutant(id + 1) {
		return opposite
	}
	return made
}

func mutantNot(id int, x bool) bool { return isMutant(id) != x }

func mutantAnd(id int, a bool, b func() bool) bool {
	if isMutant(id) {
		return a || b()
	}
	return a && b()
}

func mutantOr(id int, a bool, b func() bool) bool {
	if isMutant(id) {
		return a && b()
	}
	return a || b()
}
`
