package working

import (
	"math"
	"strings"
)

// A term is a formula with the numbers put in.
type term struct {
	text   string
	number float64
	factor float64 // SI value of its unit; 0 for a number that fits any unit
	units  string  // such as 1 ft / 1 s; empty for none
}

// listLength is how long the lists in the formula are; -1 where there is none.
func (f *formula) listLength(operands map[string]*operand) int {
	if f.op == 's' {
		if o := operands[f.text]; o != nil && strings.HasSuffix(f.text, "_i") {
			return len(o.terms)
		}
		return -1
	}
	n := -1
	for _, a := range f.args {
		n = max(n, a.listLength(operands))
	}
	return n
}

// substitute puts in the numbers, of lists those at index i.
func (f *formula) substitute(operands map[string]*operand, i int) term {
	switch f.op {
	case 'n':
		return term{f.text, parseNumber(f.text), 0, ""}
	case 's':
		o := operands[f.text]
		if o == nil {
			panic("working: nothing was given for the symbol " + f.text)
		}
		if len(o.terms) == 1 || !strings.HasSuffix(f.text, "_i") {
			i = 0
		}
		return o.terms[i]
	case '(':
		t := f.args[0].substitute(operands, i)
		t.text = "(" + t.text + ")"
		return t
	case 'f':
		return f.call(operands, i)
	}
	a, b := f.args[0].substitute(operands, i), f.args[1].substitute(operands, i)
	t := term{text: a.text + " " + string(f.op) + " " + b.text, factor: a.factor, units: a.units}
	switch f.op {
	case '+', '-':
		if f.op == '-' {
			b.number = -b.number
		}
		t.number = a.number + b.number
		if a.factor == 0 {
			t.factor, t.units = b.factor, b.units
		}
	case '*':
		t.number = a.number * b.number
		t.factor, t.units = times(a.factor, b.factor), joinUnits(a.units, "*", b.units)
	case '/':
		t.number = a.number / b.number
		t.factor, t.units = times(a.factor, 1/times(b.factor, 1)), ""
		if a.units != b.units {
			t.units = joinUnits(a.units, "/", b.units)
		}
	case '^':
		t.number = math.Pow(a.number, b.number)
		if a.units != "" { // the exponent is then a figure of the formula itself
			t.factor, t.units = math.Pow(a.factor, b.number), "("+a.units+") ^ "+b.text
		}
	}
	return t
}

// call is the value of a function, which goes over the lists in its first argument or
// takes its arguments at index i.
func (f *formula) call(operands map[string]*operand, i int) term {
	fn := Functions[f.text]
	var arguments []term
	if n := f.args[0].listLength(operands); n >= 0 && fn.overLists {
		for j := range n {
			arguments = append(arguments, f.args[0].substitute(operands, j))
		}
	} else {
		arguments = append(arguments, f.args[0].substitute(operands, i))
	}
	for _, a := range f.args[1:] {
		arguments = append(arguments, a.substitute(operands, i))
	}
	texts, numbers := make([]string, len(arguments)), make([]float64, len(arguments))
	t := arguments[0]
	for j, a := range arguments {
		texts[j], numbers[j] = a.text, a.number
		if t.factor == 0 {
			t.factor, t.units = a.factor, a.units
		}
	}
	t.number = fn.value(numbers)
	switch fn.unit {
	case rootOfUnit:
		t.factor = math.Sqrt(t.factor)
		if t.units != "" {
			t.units = "sqrt(" + t.units + ")"
		}
	case noUnit:
		t.factor, t.units = 1, ""
	}
	switch {
	case !fn.WrittenOut:
		t.text = f.text + "(" + strings.Join(texts, ", ") + ")"
	case len(texts) > 1 || f.args[0].op != 's':
		t.text = "(" + strings.Join(texts, " + ") + ")"
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

// joinUnits writes the unit of a product or a quotient; none is left out.
func joinUnits(a, op, b string) string {
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
