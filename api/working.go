package api

import (
	"encoding/binary"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// Explained is what every answer says of its own making: the methods always, the
// working when it was asked for.
type Explained struct {
	Methods methodSet     `json:"methods"`
	Working []workingLine `json:"working,omitzero"`
}

// A workingLine is one computed number: the formula, the same with numbers put in,
// and what comes out. Member is left out for a step between.
type workingLine struct {
	Method      string     `json:"method"`
	Member      string     `json:"member,omitzero"`
	Formula     string     `json:"formula"`
	Substituted string     `json:"substituted"`
	Constants   []constant `json:"constants,omitzero"`
	Result      Quantity   `json:"result"`
}

// A constant is a number of a line that is neither measured nor of the formula: it
// falls out of the table of units.
type constant struct {
	Value jsonNumber `json:"value"`
	From  string     `json:"from"`
}

// jsonNumber is a number that is already written.
type jsonNumber string

// MarshalJSON writes it as it stands.
func (n jsonNumber) MarshalJSON() ([]byte, error) { return []byte(n), nil }

// working gathers the lines of one answer. at goes before each member.
type working struct {
	at       string
	lines    []workingLine
	used     methodSet
	quiet    bool                   // only used is wanted
	steps    map[string]bool        // written by step
	formulas map[method.ID]*formula // as they were read
	key      []byte                 // of a step
	told     map[any]bool           // by pointer: what has all its steps already
}

// An operand is what goes in the place of a symbol: one value or a list.
type operand struct {
	symbol string
	one    Quantity
	each   []Quantity // of a list
	list   bool
	values []term
}

// put puts one quantity in the place of a symbol.
func put(symbol string, q Quantity) operand {
	return operand{symbol: symbol, one: q}
}

// putEach puts a list in the place of a symbol that ends in _i.
func putEach(symbol string, all []Quantity) operand {
	return operand{symbol: symbol, each: all, list: true}
}

// putNumber puts a count, an exponent or another plain number in.
func putNumber[T ~int | ~float64](symbol string, x T) operand {
	return put(symbol, plainNumber(x))
}

func plainNumber[T ~int | ~float64](x T) Quantity { return Quantity{Value: float64(x)} }

// bare is a plain number of an answer as the result of a line.
func bare[T ~int | ~float64](x T) Quantity { return Quantity{float64(x), unit.IDOne} }

// methodsBy are the methods of lines that are not written: for answers of so many
// turns that keeping a list of them beside the working would be a second telling.
func methodsBy(lines func(*working)) methodSet {
	w := working{quiet: true}
	lines(&w)
	return w.taken()
}

// taken are the methods used since it was asked last.
func (w *working) taken() methodSet {
	used := w.used
	w.used = methodSet{}
	return used
}

// line adds the line of one member: a method with its operands. The numbers carry
// nine digits, and more where a small difference would lose them.
func (w *working) line(id method.ID, member string, result Quantity, operands ...operand) {
	if w.quiet {
		w.used.add(id)
		return
	}
	filled := slices.Clone(operands) // so that they stay on the caller's stack where no line is wanted
	m := method.Of(id)
	left, right, _ := strings.Cut(m.Formula, " = ")
	f := w.formulas[id]
	if f == nil {
		if w.formulas == nil {
			w.formulas = map[method.ID]*formula{}
		}
		f = readFormula(right)
		w.formulas[id] = f
	}
	line := workingLine{Method: m.ID, Result: result}
	if member != "" {
		line.Member = w.at + member
	}
	for _, digits := range [...]int{9, 12, 15, 17} {
		x := substitution{digits: digits, result: result.Unit}
		number := x.write(&line, left, f, right, filled)
		if math.Abs(number-result.Value) <= 1e-8*math.Abs(result.Value) {
			break
		}
	}
	w.lines = append(w.lines, line)
}

// step adds a line of what is no member, once: what several members have in common
// is told where it comes first.
func (w *working) step(id method.ID, result Quantity, operands ...operand) {
	if w.quiet {
		w.used.add(id)
		return
	}
	if w.steps == nil {
		w.steps = map[string]bool{}
	}
	w.key = append(w.key[:0], byte(id))
	for i := range operands {
		w.key = operands[i].identify(w.key)
	}
	if w.steps[string(w.key)] {
		return
	}
	w.steps[string(w.key)] = true
	before := len(w.lines)
	w.line(id, "", result, operands...)
	written := w.lines[before].Method + w.lines[before].Substituted // of numbers that differ in their last digits
	if w.steps[written] {
		w.lines = w.lines[:before]
		return
	}
	w.steps[written] = true
}

// identify appends what tells an operand from others.
func (o *operand) identify(key []byte) []byte {
	key = append(append(key, 0), o.symbol...)
	all := o.each
	if !o.list {
		all = []Quantity{o.one}
	}
	for _, q := range all {
		key = append(binary.LittleEndian.AppendUint64(key, math.Float64bits(q.Value)), byte(q.Unit))
	}
	return key
}

// first tells whether something has no steps yet: what many members rest on is not
// written again for each of them, to be found a repetition then.
func (w *working) first(pointer any) bool {
	if w.told[pointer] {
		return false
	}
	if w.told == nil {
		w.told = map[any]bool{}
	}
	w.told[pointer] = true
	return true
}

// worked is the working of one answer.
func worked(lines func(*working)) []workingLine {
	w := working{at: "#"}
	lines(&w)
	return w.lines
}

// A substitution is one try at a line, with so many digits.
type substitution struct {
	digits    int
	result    unit.ID
	constants []constant
}

// write fills in the line and returns what its numbers give.
func (x *substitution) write(line *workingLine, left string, f *formula, right string, operands []operand) float64 {
	x.constants = nil
	named := make(map[string]*operand, len(operands))
	common := map[unit.Kind]unit.ID{unit.KindRatio: unit.IDOne}
	if x.result.Kind() != unit.KindRatio {
		common[x.result.Kind()] = x.result
	}
	for i := range operands {
		o := &operands[i]
		if !o.list {
			o.each = []Quantity{o.one}
		}
		o.values = make([]term, len(o.each))
		for j, q := range o.each {
			o.values[j] = x.term(q, common)
		}
		named[o.symbol] = o
	}
	t := f.put(named, 0)
	line.Formula, line.Substituted = left+" = "+right, left+" = "+t.text
	if f.text == "sum" && strings.HasPrefix(t.text, "(") {
		line.Substituted = left + " = " + t.text[1:len(t.text)-1] // nothing else stands beside the sum
	}
	k := times(t.factor, 1) / x.result.Factor()
	if math.Abs(k-1) > 1e-12 {
		text := x.number(k)
		if f.op == '+' || f.op == '-' {
			right, t.text = "("+right+")", "("+t.text+")"
		}
		line.Formula, line.Substituted = left+" = k * "+right, left+" = "+text+" * "+t.text
		words := t.words
		if words == "" {
			words = "1"
		}
		x.constants = append([]constant{{jsonNumber(text), words + " = " + text + " " + x.result.Symbol()}}, x.constants...)
		t.number *= parseNumber(text)
	}
	line.Constants = x.constants
	return t.number
}

// term writes one quantity in the common unit of its kind.
func (x *substitution) term(q Quantity, common map[unit.Kind]unit.ID) term {
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
		t.words = "1 " + into.Symbol()
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
	x.explain(constant{jsonNumber(number), "1 " + from.Symbol() + " = " + number + " " + to.Symbol()})
	return t
}

func (x *substitution) explain(c constant) {
	if !slices.Contains(x.constants, c) {
		x.constants = append(x.constants, c)
	}
}

// number writes a number with the digits of the substitution, the trailing noughts
// left out.
func (x *substitution) number(v float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', x.digits-1, 64), 64)
	if a := math.Abs(rounded); a != 0 && (a < 1e-6 || a >= 1e21) {
		return strconv.FormatFloat(rounded, 'e', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

func parseNumber(s string) float64 {
	x, _ := strconv.ParseFloat(s, 64)
	return x
}
