package working

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"wetrun/api/wire"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// A workingLine is one computed number: the formula, the same with numbers put in,
// and what comes out. Member is left out for a number between that no member has.
type workingLine struct {
	Method      string        `json:"method"`
	Member      string        `json:"member,omitzero"`
	Formula     string        `json:"formula"`
	Substituted string        `json:"substituted"`
	Constants   []constant    `json:"constants,omitzero"`
	Result      wire.Quantity `json:"result"`
}

// A constant is a number of a line that is neither measured nor of the formula: it
// follows from the table of units.
type constant struct {
	Value JSONNumber `json:"value"`
	From  string     `json:"from"`
}

// JSONNumber is a number that is already written.
type JSONNumber string

// AppendJSON writes it as it stands.
func (n JSONNumber) AppendJSON(b []byte) []byte { return append(b, n...) }

// MarshalJSON is AppendJSON for the JSON library.
func (n JSONNumber) MarshalJSON() ([]byte, error) { return []byte(n), nil }

// An equation is the formula of a method, ready to have its numbers put in.
type equation struct {
	left, right string
	value       *formula // of the right side
}

// equations are those of all methods, read when the first line is written.
var equations = sync.OnceValue(func() (all [method.Count]equation) {
	for id := range all {
		e := &all[id]
		e.left, e.right, _ = strings.Cut(method.Of(method.ID(id)).Formula, " = ")
		e.value = readFormula(e.right)
	}
	return all
})

// write writes the line. Its numbers carry nine digits, and more where a small
// difference would lose them: so the six digits of the answer come out of the line itself.
func (l *Line) write() workingLine {
	all := equations()
	written := workingLine{Method: method.Of(l.method).ID, Member: l.member, Result: l.result}
	for _, digits := range [...]int{9, 12, 15, 17} {
		x := substitution{digits: digits, result: l.result.Unit}
		number := x.write(&written, &all[l.method], l.operands)
		if math.Abs(number-l.result.Value) <= 1e-8*math.Abs(l.result.Value) {
			break
		}
	}
	return written
}

// appendKey appends what tells a line from others: its method and its numbers.
func (l *Line) appendKey(key []byte) []byte {
	key = append(key, byte(l.method))
	for i := range l.operands {
		key = append(append(key, 0), l.operands[i].symbol...)
		for _, q := range l.operands[i].quantities {
			key = append(binary.LittleEndian.AppendUint64(key, math.Float64bits(q.Value)), byte(q.Unit))
		}
	}
	return key
}

// A substitution is one try at a line, with so many digits.
type substitution struct {
	digits    int
	result    unit.ID
	constants []constant
}

// write fills in the line and returns what its numbers give.
func (x *substitution) write(line *workingLine, e *equation, operands []operand) float64 {
	left, right := e.left, e.right
	x.constants = nil
	named := make(map[string]*operand, len(operands))
	common := map[unit.Kind]unit.ID{unit.KindRatio: unit.IDOne}
	if x.result.Kind() != unit.KindRatio {
		common[x.result.Kind()] = x.result
	}
	for i := range operands {
		o := &operands[i]
		o.terms = make([]term, len(o.quantities))
		for j, q := range o.quantities {
			o.terms[j] = x.term(q, common)
		}
		named[o.symbol] = o
	}
	t := e.value.substitute(named, 0)
	line.Formula, line.Substituted = left+" = "+right, left+" = "+t.text
	if Functions[e.value.text].WrittenOut && strings.HasPrefix(t.text, "(") {
		line.Substituted = left + " = " + t.text[1:len(t.text)-1] // nothing else stands beside the sum
	}
	k := times(t.factor, 1) / x.result.Factor()
	if math.Abs(k-1) > 1e-12 {
		text := x.number(k)
		if e.value.op == '+' || e.value.op == '-' {
			right, t.text = "("+right+")", "("+t.text+")"
		}
		line.Formula, line.Substituted = left+" = k * "+right, left+" = "+text+" * "+t.text
		from := cmp.Or(t.units, "1") + " = " + text + " " + x.result.Symbol()
		x.constants = append([]constant{{JSONNumber(text), from}}, x.constants...)
		t.number *= parseNumber(text)
	}
	line.Constants = x.constants
	return t.number
}

// term writes one quantity in the common unit of its kind, so that sums and ratios can be
// checked by eye; one in another unit has its factor beside it.
func (x *substitution) term(q wire.Quantity, common map[unit.Kind]unit.ID) term {
	text := x.number(q.Value)
	t := term{text: text, number: parseNumber(text)}
	if q.Value < 0 {
		t.text = "(" + text + ")"
	}
	kind := q.Unit.Kind()
	if kind == unit.KindNone {
		return t
	}
	into, known := common[kind]
	if !known {
		into = q.Unit
		common[kind] = into
	}
	t.factor = into.Factor()
	if kind != unit.KindRatio {
		t.units = "1 " + into.Symbol()
	}
	if into == q.Unit {
		return t
	}
	c, op := q.Unit.Factor()/into.Factor(), " * "
	from, to := q.Unit, into
	if c < 1 {
		c, op, from, to = 1/c, " / ", into, q.Unit
	}
	number := x.number(c)
	t.text = "(" + text + op + number + ")"
	if op == " * " {
		t.number *= parseNumber(number)
	} else {
		t.number /= parseNumber(number)
	}
	x.explain(constant{JSONNumber(number), "1 " + from.Symbol() + " = " + number + " " + to.Symbol()})
	return t
}

func (x *substitution) explain(c constant) {
	if !slices.Contains(x.constants, c) {
		x.constants = append(x.constants, c)
	}
}

// number writes a number with the digits of the substitution, without trailing zeros.
func (x *substitution) number(v float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', x.digits-1, 64), 64)
	if a := math.Abs(rounded); a != 0 && (a < 1e-6 || a >= 1e21) {
		return strconv.FormatFloat(rounded, 'e', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// parseNumber reads back what number wrote.
func parseNumber(s string) float64 {
	x, _ := strconv.ParseFloat(s, 64)
	return x
}
