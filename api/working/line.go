package working

import (
	"wetrun/api/wire"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// A Line is one computed number before it is written.
type Line struct {
	method   method.ID
	member   string // pointer to it; empty for a number between
	result   wire.Quantity
	operands []operand
	once     bool // it is written where it comes first only
}

// An operand is what goes in the place of a symbol: one quantity, or those of a list.
type operand struct {
	symbol     string
	quantities []wire.Quantity
	terms      []term
}

// Line adds the line of a member of the answer, such as /groundSpeed; of a number between,
// which no member has, where the member is empty. It is nil where no line is wanted. Like
// what puts numbers in a line it is so short that the compiler inlines it: then the methods
// alone cost next to nothing. What is put in must have its own lines before it.
func (w Working) Line(id method.ID, member string, result wire.Quantity) (l *Line) {
	w.methods[id>>6] |= 1 << (id & 63)
	if w.MethodsOnly {
		return
	}
	return w.begin(id, member, result)
}

//go:noinline
func (w Working) begin(id method.ID, member string, result wire.Quantity) *Line {
	if member != "" {
		member = w.path + member
	}
	l := &Line{method: id, member: member, result: result}
	w.lines = append(w.lines, l)
	return l
}

// Intermediate adds the line of a number between that several members rest on: it is
// written where it comes first.
func (w Working) Intermediate(id method.ID, result wire.Quantity) *Line {
	l := w.Line(id, "", result)
	if l != nil {
		l.once = true
	}
	return l
}

// LineOr adds the line of a member as it was answered, or of the value as a number between
// where the answer does not have the member.
func (w Working) LineOr(id method.ID, member string, answered, value wire.Quantity) *Line {
	if !answered.Given() {
		return w.Intermediate(id, value)
	}
	return w.Line(id, member, answered)
}

// With puts a quantity in the place of a symbol.
func (l *Line) With(symbol string, q wire.Quantity) *Line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []wire.Quantity{q})
}

// Each puts a list in the place of a symbol that ends in _i.
func (l *Line) Each(symbol string, list []wire.Quantity) *Line {
	if l == nil {
		return nil
	}
	return l.put(symbol, list)
}

// Both puts a list of two in.
func (l *Line) Both(symbol string, a, b wire.Quantity) *Line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []wire.Quantity{a, b})
}

// Count puts a whole number in.
func (l *Line) Count(symbol string, n int) *Line { return l.Number(symbol, float64(n)) }

// Number puts a plain number in, such as an exponent.
func (l *Line) Number(symbol string, x float64) *Line {
	if l == nil {
		return nil
	}
	return l.put(symbol, []wire.Quantity{{Value: x}})
}

//go:noinline
func (l *Line) put(symbol string, quantities []wire.Quantity) *Line {
	l.operands = append(l.operands, operand{symbol: symbol, quantities: quantities})
	return l
}

// PlainNumber is a number without a unit that goes in the place of a symbol.
func PlainNumber[T ~int | ~float64](x T) wire.Quantity { return wire.Quantity{Value: float64(x)} }

// Dimensionless is a plain number of an answer as the result of a line.
func Dimensionless[T ~int | ~float64](x T) wire.Quantity {
	return wire.Quantity{Value: float64(x), Unit: unit.IDOne}
}

// Listed are the quantities of some items, for Each; nil where no line is wanted.
func Listed[T any](w Working, items []T, quantity func(*T) wire.Quantity) []wire.Quantity {
	if w.MethodsOnly {
		return nil
	}
	all := make([]wire.Quantity, len(items))
	for i := range items {
		all[i] = quantity(&items[i])
	}
	return all
}
