package api

import (
	"math"
	"strings"
)

// A formula is the right side of a method, read once for all lines of an answer. It
// can be written with numbers in the place of its symbols, and it tells in which
// unit its value then comes out.
//
// The syntax is that of the document: numbers, + - * / ^, parentheses, the functions
// sqrt, ln, exp, abs, min, max and sum, and those of tabled. A symbol that ends in _i
// stands for a list; sum, min and max go over the lists inside them.
type formula struct {
	op   byte // one of + - * / ^, or 'n' number, 's' symbol, 'f' function, '(' parentheses
	text string
	args []*formula
}

// formulaReader reads a formula by recursive descent.
type formulaReader struct{ rest string }

func readFormula(text string) *formula {
	r := &formulaReader{text}
	f := r.sum()
	if r.rest != "" {
		panic("api: a formula that cannot be read: " + text)
	}
	return f
}

// take takes the next character if it is one of those.
func (r *formulaReader) take(any string) byte {
	r.rest = strings.TrimLeft(r.rest, " ")
	if r.rest == "" || strings.IndexByte(any, r.rest[0]) < 0 {
		return 0
	}
	c := r.rest[0]
	r.rest = r.rest[1:]
	return c
}

func (r *formulaReader) sum() *formula {
	f := r.product()
	for c := r.take("+-"); c != 0; c = r.take("+-") {
		f = &formula{op: c, args: []*formula{f, r.product()}}
	}
	return f
}

func (r *formulaReader) product() *formula {
	f := r.power()
	for c := r.take("*/"); c != 0; c = r.take("*/") {
		f = &formula{op: c, args: []*formula{f, r.power()}}
	}
	return f
}

func (r *formulaReader) power() *formula {
	f := r.primary()
	if r.take("^") != 0 {
		return &formula{op: '^', args: []*formula{f, r.power()}}
	}
	return f
}

func (r *formulaReader) primary() *formula {
	if r.take("(") != 0 {
		f := &formula{op: '(', args: []*formula{r.sum()}}
		r.take(")")
		return f
	}
	n := 0
	for n < len(r.rest) && strings.IndexByte(" +-*/^(),", r.rest[n]) < 0 {
		n++
	}
	word := r.rest[:n]
	r.rest = r.rest[n:]
	switch {
	case word == "":
		panic("api: a formula lacks an operand before " + r.rest)
	case word[0] >= '0' && word[0] <= '9':
		return &formula{op: 'n', text: word}
	case r.take("(") == 0:
		return &formula{op: 's', text: word}
	}
	f := &formula{op: 'f', text: word, args: []*formula{r.sum()}}
	for r.take(",") != 0 {
		f.args = append(f.args, r.sum())
	}
	r.take(")")
	return f
}

// A term is a formula with the numbers put in.
type term struct {
	text   string
	number float64
	factor float64 // SI value of its unit; 0 for a number that fits any unit
	words  string  // of its unit, such as 1 ft / 1 s; empty for none
}

// lists tells whether a list stands in the formula, outside of sum, min and max,
// and how long it is.
func (f *formula) lists(operands map[string]*operand) int {
	if f.op == 's' {
		if o := operands[f.text]; o != nil && strings.HasSuffix(f.text, "_i") {
			return len(o.values)
		}
		return -1
	}
	n := -1
	for _, a := range f.args {
		n = max(n, a.lists(operands))
	}
	return n
}

// put puts in the numbers, of lists those at index i.
func (f *formula) put(operands map[string]*operand, i int) term {
	switch f.op {
	case 'n':
		return term{f.text, parseNumber(f.text), 0, ""}
	case 's':
		o := operands[f.text]
		if o == nil {
			panic("api: nothing was given for the symbol " + f.text)
		}
		if len(o.values) == 1 || !strings.HasSuffix(f.text, "_i") {
			i = 0
		}
		return o.values[i]
	case '(':
		t := f.args[0].put(operands, i)
		t.text = "(" + t.text + ")"
		return t
	case 'f':
		return f.call(operands, i)
	}
	a, b := f.args[0].put(operands, i), f.args[1].put(operands, i)
	t := term{text: a.text + " " + string(f.op) + " " + b.text, factor: a.factor, words: a.words}
	switch f.op {
	case '+', '-':
		if f.op == '-' {
			b.number = -b.number
		}
		t.number = a.number + b.number
		if a.factor == 0 {
			t.factor, t.words = b.factor, b.words
		}
	case '*':
		t.number = a.number * b.number
		t.factor, t.words = times(a.factor, b.factor), joinWords(a.words, "*", b.words)
	case '/':
		t.number = a.number / b.number
		if a.words == b.words {
			t.factor, t.words = times(a.factor, 1/times(b.factor, 1)), ""
			break
		}
		t.factor, t.words = times(a.factor, 1/times(b.factor, 1)), joinWords(a.words, "/", b.words)
	case '^':
		t.number = math.Pow(a.number, b.number)
		if a.words != "" { // the exponent is then a figure of the formula itself
			t.factor, t.words = math.Pow(a.factor, b.number), "("+a.words+") ^ "+b.text
		}
	}
	return t
}

func (f *formula) call(operands map[string]*operand, i int) term {
	var all []term
	if n := f.args[0].lists(operands); n >= 0 && (f.text == "sum" || f.text == "min" || f.text == "max") {
		for j := range n {
			all = append(all, f.args[0].put(operands, j))
		}
	} else {
		all = append(all, f.args[0].put(operands, i))
	}
	for _, a := range f.args[1:] {
		all = append(all, a.put(operands, i))
	}
	if tabled[f.text] != nil {
		return tabledTerm(f.text, all)
	}
	t := all[0]
	texts := make([]string, len(all))
	for j, a := range all {
		texts[j] = a.text
		if t.factor == 0 {
			t.factor, t.words = a.factor, a.words
		}
		if j == 0 {
			continue
		}
		switch f.text {
		case "sum":
			t.number += a.number
		case "min":
			t.number = min(t.number, a.number)
		case "max":
			t.number = max(t.number, a.number)
		}
	}
	if f.text == "sum" {
		t.text = strings.Join(texts, " + ")
		if len(texts) > 1 || f.args[0].op != 's' {
			t.text = "(" + t.text + ")"
		}
		return t
	}
	t.text = f.text + "(" + strings.Join(texts, ", ") + ")"
	switch f.text {
	case "sqrt":
		t.number, t.factor = math.Sqrt(t.number), math.Sqrt(t.factor)
		if t.words != "" {
			t.words = "sqrt(" + t.words + ")"
		}
	case "ln":
		t.number, t.factor, t.words = math.Log(t.number), 1, ""
	case "exp":
		t.number, t.factor, t.words = math.Exp(t.number), 1, ""
	case "abs":
		t.number = math.Abs(t.number)
	}
	return t
}

// times multiplies factors, of which 0 is that of a plain number.
func times(a, b float64) float64 {
	if a == 0 {
		a = 1
	}
	if b == 0 {
		b = 1
	}
	return a * b
}

// joinWords words the unit of a product or a quotient; what cancels is left out.
func joinWords(a, op, b string) string {
	switch {
	case b == "":
		return a
	case a == "" && op == "*":
		return b
	case a == "":
		a = "1"
	}
	if strings.Count(b, " ") > 1 { // of more than one unit
		b = "(" + b + ")"
	}
	return a + " " + op + " " + b
}
