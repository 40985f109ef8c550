package api

import (
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// A line is one computed number before it is written.
type line struct {
	method   method.ID
	member   string
	result   Quantity
	operands []operand
	once     bool
}

// An operand is what goes in the place of a symbol: one quantity, or those of a list.
type operand struct {
	symbol     string
	quantities []Quantity
	terms      []term
}

// line adds the line of a member; without one, of a number between that no member has.
// It is nil where no line is wanted. Like what goes on a line it is so short that the
// compiler puts it in the place of the call: then the methods alone cost next to nothing.
// What is put on the line must have its own lines before it.
func (w working) line(id method.ID, member string, result Quantity) (l *line) {
	w.methods[id>>6] |= 1 << (id & 63)
	if w.methodsOnly {
		return
	}
	return w.begin(id, member, result)
}

//go:noinline
func (w working) begin(id method.ID, member string, result Quantity) *line {
	if member != "" {
		member = w.path + member
	}
	l := &line{method: id, member: member, result: result}
	w.lines = append(w.lines, l)
	return l
}

// intermediate adds the line of a number between that several members rest on: it is
// written where it comes first.
func (w working) intermediate(id method.ID, result Quantity) *line {
	l := w.line(id, "", result)
	if l != nil {
		l.once = true
	}
	return l
}

// lineOr adds the line of a member, or of a number between where the answer does not
// have the member.
func (w working) lineOr(id method.ID, member string, answered, value Quantity) *line {
	if !answered.given() {
		return w.intermediate(id, value)
	}
	return w.line(id, member, answered)
}

// with puts a quantity in the place of a symbol.
func (l *line) with(symbol string, q Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{q})
}

// each puts a list in the place of a symbol that ends in _i.
func (l *line) each(symbol string, list []Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, list)
}

// both puts a list of two in.
func (l *line) both(symbol string, a, b Quantity) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{a, b})
}

// count puts a whole number in.
func (l *line) count(symbol string, n int) *line { return l.number(symbol, float64(n)) }

// number puts a plain number in, such as an exponent.
func (l *line) number(symbol string, x float64) *line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []Quantity{{Value: x}})
}

//go:noinline
func (l *line) put(symbol string, quantities []Quantity) *line {
	l.operands = append(l.operands, operand{symbol: symbol, quantities: quantities})
	return l
}

func plainNumber[T ~int | ~float64](x T) Quantity { return Quantity{Value: float64(x)} }

// dimensionless is a plain number of an answer as the result of a line.
func dimensionless[T ~int | ~float64](x T) Quantity { return Quantity{float64(x), unit.IDOne} }

// listed are the quantities of some items for the place of a symbol; none where no line
// is wanted.
func listed[T any](w working, items []T, quantity func(*T) Quantity) []Quantity {
	if w.methodsOnly {
		return nil
	}
	all := make([]Quantity, len(items))
	for i := range items {
		all[i] = quantity(&items[i])
	}
	return all
}
